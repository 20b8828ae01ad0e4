"""Long lists of which only what is in sight is laid."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import TypeVar, overload

from rich.cells import cell_len

from leafturn_tui.text.layout import Piece, piece

T = TypeVar("T")


class AsNeeded(Sequence[T]):
    """So many things, each made when it is wanted.

    Parameters
    ----------
    count : int
    make : callable
        Gives one of them by its place.
    """

    def __init__(self, count: int, make: Callable[[int], T]) -> None:
        self._places, self._make = range(count), make

    def __len__(self) -> int:
        return len(self._places)

    @overload
    def __getitem__(self, at: int) -> T: ...
    @overload
    def __getitem__(self, at: slice) -> Sequence[T]: ...
    def __getitem__(self, at: int | slice) -> T | Sequence[T]:
        if isinstance(at, slice):
            return [self._make(place) for place in self._places[at]]
        return self._make(self._places[at])


def widest(columns: Iterable[Iterable[str]]) -> list[Piece]:
    """The widest text of each column, with which one row can be laid in columns as among all of them."""
    return [max(map(piece, set(texts)), key=lambda one: cell_len(one.text)) for texts in columns]
