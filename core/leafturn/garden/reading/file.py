"""Which file holds the garden, and its bytes."""

from __future__ import annotations

import os
import re
from pathlib import Path
from typing import NoReturn

from leafturn.base.faults import Fault, NoGarden, Unreadable, clipped
from leafturn.base.patterns import pattern
from leafturn.files.reading import file_bytes
from leafturn.files.reasons import reason
from leafturn.garden.reading.place_table import TWO_LINES
from leafturn.toml.guard import MOST_BYTES

GARDEN_FILE = "garden.toml"
_PLACE = pattern(rb"^[ \t]*(?:\[[ \t]*place[ \t]*\]|place[ \t]*[=.])", re.MULTILINE)


def find_garden_file(path: Path) -> Path:
    """The garden file that `path` means; Unreadable if there is none or more than one."""
    try:
        if not path.exists():
            message = "there is no such folder or file."
            raise Unreadable(Fault(file=str(path), line=None, message=message, hint="Check the name."))
        if not path.is_dir():
            return path
        usual = path / GARDEN_FILE
        if os.path.lexists(usual):
            return usual
        there = sorted(os.listdir(path))
        files = [path / name for name in there if name.lower().endswith(".toml")]
        gardens = [file for file in files if file.is_file() and _has_place(file)]
    except (OSError, ValueError) as error:
        _refuse(path, f"It cannot be read: {reason(error)}.")
    if not gardens and (stand_ins := [name for name in there if GARDEN_FILE in name.lower()]):
        message = f"This folder holds no {GARDEN_FILE}, but {clipped(stand_ins[0])}."
        hint = f"If that is the garden, name it {GARDEN_FILE}; if it stands for a file elsewhere, fetch that."
        _refuse(path, message, hint)
    if not gardens:
        message = f"This folder holds no {GARDEN_FILE}."
        raise NoGarden(
            Fault(file=path.name or str(path), line=None, message=message, hint=f"Make one. {TWO_LINES}")
        )
    if len(gardens) > 1:
        names = ", ".join(file.name for file in gardens[:5])
        _refuse(path, f"This folder holds several garden files: {names}.", "Name one of them.")
    return gardens[0]


def _has_place(file: Path) -> bool:
    try:
        return _PLACE.search(file_bytes(file, MOST_BYTES, file.parent)) is not None
    except OSError:
        return False


def bytes_of(file: Path, within: Path | None = None) -> bytes:
    """What a garden file holds; Unreadable if it is none. `within` is the folder it must really lie in."""
    try:
        return file_bytes(file, MOST_BYTES, within)
    except (OSError, ValueError) as error:
        _refuse(file, f"It cannot be read: {reason(error)}.", "Name a garden file or its folder.")


def _refuse(path: Path, message: str, hint: str = "") -> NoReturn:
    raise Unreadable(Fault(file=path.name or str(path), line=None, message=message, hint=hint))
