"""Which gardens are asked: all below a folder, or those of a list."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

from leafturn.base.faults import Fault, Unreadable
from leafturn.base.value import Value
from leafturn.files.reading import file_bytes
from leafturn.files.reasons import reason
from leafturn.garden.reading.file import GARDEN_FILE

Clean = Callable[[str], str]

MOST_LIST_BYTES = 64_000_000  # a million names


class FoundGarden(Value):
    """A garden under the name it has among the others."""

    name: str
    path: Path


def find_gardens(where: Path, clean: Clean = str) -> tuple[FoundGarden, ...]:
    """The gardens meant by a folder or a list, in order, each once.

    Parameters
    ----------
    where : Path
        A folder: every folder below it, at any depth, that holds a garden.toml; links are not followed, nor
        folders whose name begins with a point. A file: a folder or garden file a line, from the list's own
        folder; empty lines and lines that begin with # are passed over.

    Raises
    ------
    Unreadable
        If there is no such folder or list, or no garden in it.
    """
    name = str(where)
    if not where.exists():
        raise Unreadable(Fault(file=name, line=None, message="there is no such folder or list of gardens."))
    found = _below(where, clean) if where.is_dir() else _listed(where, clean)
    if not found:
        message = "no garden was found in it."
        hint = f"A folder has a {GARDEN_FILE} in each garden's folder; a list a garden's folder a line."
        raise Unreadable(Fault(file=name, line=None, message=message, hint=hint))
    return found


def _below(folder: Path, clean: Clean) -> tuple[FoundGarden, ...]:
    found = []
    for here, folders, files in os.walk(folder):
        folders[:] = sorted(one for one in folders if not one.startswith("."))
        if GARDEN_FILE in files:
            path = Path(here)
            name = path.relative_to(folder).as_posix()
            found.append(FoundGarden(name=clean(folder.name if name == "." else name), path=path.absolute()))
    return tuple(found)


def _listed(file: Path, clean: Clean) -> tuple[FoundGarden, ...]:
    try:
        text = file_bytes(file, MOST_LIST_BYTES).decode("utf-8-sig")
    except (OSError, ValueError) as why:
        message = "it is no text." if isinstance(why, UnicodeError) else f"it cannot be read: {reason(why)}."
        hint = "A list is text in UTF-8, with a garden's folder a line."
        raise Unreadable(Fault(file=str(file), line=None, message=message, hint=hint)) from why
    lines = dict.fromkeys(line.strip() for line in text.splitlines())
    named = [line for line in lines if line and not line.startswith("#")]
    return tuple(FoundGarden(name=clean(line), path=(file.parent / line).absolute()) for line in named)
