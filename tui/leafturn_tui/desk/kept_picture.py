"""The week as the pages last showed it, kept so that the next start has something to show at once.

What is kept holds only for the bytes of the garden's files as they were; where one has changed, or the
window has another size, nothing of it is shown. A kept picture that is lost or spoilt costs the time of
reckoning and nothing else.
"""

from __future__ import annotations

import contextlib
import datetime as dt
import hashlib
import json
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import NamedTuple

from leafturn import __version__
from leafturn.base.day_words import day
from leafturn.files.cache_folder import cache_folder
from leafturn.files.reading import file_bytes
from leafturn.files.writing import write_whole
from leafturn_tui.text.layout import Piece, Row, fit
from leafturn_tui.text.styles import PAGE

FOLDER = "leafturn/pictures"
MOST_BYTES = 4_000_000  # of a kept picture; a window of 500 columns and 200 lines has under 1 MB
MOST_OF_A_FILE = 1 << 30


class Stretch(NamedTuple):
    """A part of a line: its pieces, the tone of the ground they stand on, and its cells."""

    pieces: tuple[Piece, ...]
    ground: str
    width: int

    @property
    def row(self) -> Row:
        """The pieces as a row."""
        return Row(self.pieces)


Line = tuple[Stretch, ...]


def across(rows: Sequence[Row], width: int) -> list[Line]:
    """Rows over the whole width."""
    return [(Stretch(row.pieces, PAGE, width),) for row in rows]


class KeptPicture(NamedTuple):
    """A whole window.

    Parameters
    ----------
    on : date
        The day it tells of.
    season : str
        The season of that day, which gives the accent its colour.
    lines : tuple of Line
        From top to bottom, each from left to right.
    """

    on: dt.date
    season: str
    lines: tuple[Line, ...]

    def seen_on(self, on: dt.date) -> KeptPicture:
        """As it is shown on a day: one of another day is dim, and its last line but the keys says so."""
        if self.on == on:
            return self
        dimmed = [tuple(map(_dim, line)) for line in self.lines]
        width = sum(part.width for part in self.lines[-1])
        words = f" As it stood on {day(self.on)}; today is being reckoned."
        if len(dimmed) > 1:
            dimmed[-2] = (Stretch((Piece(fit(words, width), "*ink"),), PAGE, width),)
        return self._replace(lines=tuple(dimmed))


def _dim(part: Stretch) -> Stretch:
    return Stretch((Piece(part.row.text, "dim"),), PAGE, part.width)


class Window(NamedTuple):
    """What a picture was made for: columns, lines, and whether there are colours."""

    width: int
    height: int
    colours: bool


def keep(picture: KeptPicture, window: Window, garden: Path, read: Iterable[Path]) -> None:
    """Keep a picture; where that cannot be done nothing is kept, and nothing is said.

    Parameters
    ----------
    garden : Path
        Folder or file, as `leafturn` was told.
    read : iterable of Path
        Every file and folder that the picture rests on, there or not.
    """
    folder = cache_folder()
    if folder is None:
        return
    held = {
        "version": __version__,
        "window": window,
        "rests on": {str(path.absolute()): _bytes_seal(path) for path in read},
        "on": picture.on.isoformat(),
        "season": picture.season,
        "lines": picture.lines,
    }
    with contextlib.suppress(OSError, ValueError):
        folder.mkdir(parents=True, exist_ok=True)
        write_whole(folder, _name(garden), json.dumps(held).encode()).chmod(0o600)


def kept(garden: Path, window: Window) -> KeptPicture | None:
    """The picture that was kept of a garden, if it is for this window and the files are as they were."""
    folder = cache_folder()
    if folder is None:
        return None
    try:
        held = json.loads(file_bytes(folder / _name(garden), MOST_BYTES, within=folder))
        if (held["version"], held["window"]) != (__version__, list(window)):
            return None
        if any(_bytes_seal(Path(path)) != seal for path, seal in held["rests on"].items()):
            return None
        lines = tuple(
            tuple(
                Stretch(tuple(Piece(*map(str, piece)) for piece in pieces), str(ground), int(width))
                for pieces, ground, width in line
            )
            for line in held["lines"]
        )
        return KeptPicture(dt.date.fromisoformat(held["on"]), str(held["season"]), lines)
    except (OSError, ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return None


def _name(garden: Path) -> str:
    return f"{FOLDER}/{hashlib.blake2b(bytes(garden.absolute()), digest_size=16).hexdigest()}.json"


def _bytes_seal(path: Path) -> str:
    """A hash over what a file holds, or over the names in a folder; empty where there is neither."""
    try:
        if path.is_dir():
            data = "\n".join(sorted(file.name for file in path.glob("*.toml"))).encode()
        else:
            data = file_bytes(path, MOST_OF_A_FILE)
    except (OSError, ValueError):
        return ""
    return hashlib.blake2b(data, digest_size=16).hexdigest()
