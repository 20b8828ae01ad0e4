"""Which file holds the garden, and its bytes."""

from __future__ import annotations

import re
from pathlib import Path
from typing import NoReturn

from leafturn.base.faults import Fault, Unreadable
from leafturn.garden.reading.place_table import TWO_LINES
from leafturn.toml.guard import MOST_BYTES

_PLACE = re.compile(rb"^[ \t]*(?:\[[ \t]*place[ \t]*\]|place[ \t]*[=.])", re.MULTILINE)


def find_garden_file(path: Path) -> Path:
    """The garden file that `path` means; Unreadable if there is none or more than one."""
    try:
        if not path.exists():
            _refuse(path, "There is no such file or folder.", "Check the name.")
        if not path.is_dir():
            return path
        usual = path / "garden.toml"
        if usual.is_file():
            return usual
        gardens = [file for file in sorted(path.glob("*.toml")) if file.is_file() and _has_place(file)]
    except (OSError, ValueError) as error:
        _refuse(path, f"It cannot be read: {_reason(error)}.")
    if not gardens:
        _refuse(path, "This folder holds no garden.toml.", f"Make one. {TWO_LINES}")
    if len(gardens) > 1:
        names = ", ".join(file.name for file in gardens[:5])
        _refuse(path, f"This folder holds several garden files: {names}.", "Name one of them.")
    return gardens[0]


def _has_place(file: Path) -> bool:
    return _PLACE.search(bytes_of(file)) is not None


def bytes_of(file: Path) -> bytes:
    """What a file holds, or one byte more than is ever read; devices and pipes are not waited for."""
    try:
        if not file.is_file():
            _refuse(file, "This is not a file.", "Name a garden file or its folder.")
        with file.open("rb") as stream:
            return stream.read(MOST_BYTES + 1)
    except OSError as error:
        _refuse(file, f"It cannot be read: {_reason(error)}.")


def _reason(error: Exception) -> str:
    if isinstance(error, OSError):
        return (error.strerror or "unknown reason").lower()
    return "no file can have this name"


def _refuse(path: Path, message: str, hint: str = "") -> NoReturn:
    raise Unreadable(Fault(file=path.name or str(path), line=None, message=message, hint=hint))
