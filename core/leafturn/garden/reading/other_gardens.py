"""The list `also` of a garden file: other gardens whose week is told with this one's."""

from __future__ import annotations

import os
from pathlib import Path, PurePath

from leafturn.garden.reading.place_phrases import quoted
from leafturn.garden.reading.tables import Spot

ALSO = "also"
EXAMPLE = 'Write also = ["../other-garden"]'
CHECK = "Check the name."  # what is said of one that is not there
MOST = 50  # more would be no round of one steward; guess


def read_also(value: object, spot: Spot, file: Path) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The gardens named under `also`, as written; then those of them that are not there.

    A garden is named by the way to its folder or file from this garden's folder. Left out, each with its
    sentence: what is no text, begins at the root of the disk, is not there, is a link to another place, is
    this garden itself, or is named twice.

    Parameters
    ----------
    value : object
        What stands under `also`.
    spot : Spot
        Of the table that holds it.
    file : Path
        This garden's file.
    """
    names = [value] if isinstance(value, str) else value
    if not isinstance(names, list):
        spot.add_fault("also is no list of gardens; it is left out.", EXAMPLE, ALSO)
        return (), ()
    if len(names) > MOST:
        said = f"also names {len(names)} gardens; only the first {MOST} are read."
        spot.add_fault(said, "", ALSO)
    kept: dict[Path, str] = {}
    not_there: list[str] = []
    for name in names[:MOST]:
        wrong, hint = _wrong(name, file)
        target = None if wrong else _target(str(name), file)
        if target in kept:
            wrong = f"also names {quoted(str(name))} twice; it is read once."
        if wrong:
            spot.add_fault(wrong, hint, ALSO)
            not_there += [str(name)] if hint == CHECK else []
        elif target is not None:
            kept[target] = str(name)
    return tuple(kept.values()), tuple(not_there)


def _wrong(name: object, file: Path) -> tuple[str, str]:
    """What is wrong with one name, and what to write; empty if nothing is."""
    if not isinstance(name, str) or not name.strip():
        return "also holds something that is no name of a garden; it is left out.", EXAMPLE
    said = f"also = {quoted(name)}"
    if PurePath(name).is_absolute() or name.startswith("~"):
        return f"{said} does not begin at this garden's folder; it is left out.", EXAMPLE
    target = _target(name, file)
    if target is None or not os.path.exists(target):
        return f"{said}: there is no such folder or file; it is left out.", CHECK
    if target.is_file() and target.suffix != ".toml":  # or a fault would quote a file that is no garden
        return f"{said} is no garden file; it is left out.", EXAMPLE
    if target in (file.parent.resolve(), file.resolve()):
        return f"{said} is this garden itself; it is left out.", ""
    if os.path.normcase(target) != os.path.normcase(_as_written(name, file)):
        return f"{said} is a link to another place; it is left out.", "Name the garden's own folder."
    return "", ""


def _target(name: str, file: Path) -> Path | None:
    """Where a name leads, links followed; None for a name that no file can have, or links in a ring."""
    try:
        return (file.parent.resolve() / name).resolve()
    except (OSError, ValueError, RuntimeError):
        return None


def _as_written(name: str, file: Path) -> Path:
    """Where a name leads if nothing on the way is a link."""
    return Path(os.path.normpath(file.parent.resolve() / name))
