"""The week as the pages last showed it, kept so that the next start has something to show at once.

What is kept (`files/resting.py`) holds only for the bytes of the garden's files as they were; where one has
changed, or the window has another size, nothing of it is shown. A kept picture that is lost or spoilt costs
the time of reckoning and nothing else.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import NamedTuple

import msgspec

from leafturn import __version__
from leafturn.base.day_words import day
from leafturn.files.resting import keep_resting, place_of, resting
from leafturn_tui.text.layout import Piece, Row, fit
from leafturn_tui.text.styles import PAGE

FOLDER = "leafturn/pictures"


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
    keep_resting(_place(garden), _made_for(window), msgspec.json.encode(picture), read)


def kept(garden: Path, window: Window) -> KeptPicture | None:
    """The picture that was kept of a garden, if it is for this window and the files are as they were."""
    data = resting(_place(garden), _made_for(window))
    return None if data is None else msgspec.json.decode(data, type=KeptPicture)


def _made_for(window: Window) -> tuple[bytes, ...]:
    """What decides the picture beside the garden's files."""
    return __version__.encode(), msgspec.json.encode(window)


def _place(garden: Path) -> Path | None:
    return place_of(FOLDER, bytes(garden.absolute()))
