"""The command `leafturn demo`: copies an invented, complete garden into a folder."""

from __future__ import annotations

import datetime as dt
import os
import shutil
import tempfile
from importlib.resources import as_file, files
from importlib.resources.abc import Traversable
from pathlib import Path

from leafturn.base.faults import Fault, Unreadable
from leafturn.files.reasons import reason
from leafturn.garden.reading.file import GARDEN_FILE

STORY_DAY = dt.date(2027, 4, 19)
FOLDER = "weir-meadow"
_LEFT_OUT = shutil.ignore_patterns("*.py", "__pycache__")


def packaged() -> Traversable:
    """The demo as it is shipped: inside a wheel, or at the top of a source tree."""
    inside = files("leafturn_tui") / "demo_garden"
    if inside.is_dir():
        return inside
    beside = Path(__file__).resolve().parents[3] / "demo_garden"
    if (beside / GARDEN_FILE).is_file():
        return beside
    raise Unreadable(
        Fault(file="demo_garden", line=None, message="the demo garden was not installed with leafturn.")
    )


def copy_demo(into: Path) -> bool:
    """Copy the demo garden to a folder that must not exist yet.

    Returns
    -------
    bool
        True if it was copied, False if the demo is already there; nothing is ever overwritten.

    Raises
    ------
    leafturn.base.faults.Unreadable
        If something else has that name, or the folder cannot be written.
    """
    source = packaged()
    if os.path.lexists(into):
        if _is_demo(into, source):
            return False
        raise _cannot(
            into,
            "is there already and is not the demo garden; nothing was written.",
            "Choose another name: leafturn demo --into FOLDER",
        )
    try:
        into.parent.mkdir(parents=True, exist_ok=True)
        with (
            as_file(source) as folder,
            tempfile.TemporaryDirectory(dir=into.parent, prefix=".leafturn-") as made,
        ):
            copied = Path(made) / "copy"
            shutil.copytree(folder, copied, ignore=_LEFT_OUT)
            copied.chmod(0o755)
            os.rename(copied, into)  # whole or not at all
    except OSError as why:
        raise _cannot(into, f"cannot be written: {reason(why, writing=True)}.", "") from why
    return True


def _is_demo(folder: Path, source: Traversable) -> bool:
    try:
        with (
            (folder / GARDEN_FILE).open(encoding="utf-8") as there,
            (source / GARDEN_FILE).open(encoding="utf-8") as ours,
        ):
            return there.readline() == ours.readline()
    except (OSError, UnicodeDecodeError):
        return False


def _cannot(into: Path, message: str, hint: str) -> Unreadable:
    return Unreadable(Fault(file=str(into), line=None, message=message, hint=hint))
