"""Finding one of many by the first letters of its name."""

from __future__ import annotations

import functools
from collections.abc import Callable, Iterable, Sequence
from functools import partial
from typing import NamedTuple

from leafturn.garden.model import Plant
from leafturn_tui.host import Offer
from leafturn_tui.notes import NotUnderstood
from leafturn_tui.panels.base import Panel
from leafturn_tui.text.as_needed import AsNeeded, widest
from leafturn_tui.text.layout import Column, Row, columns, piece, row

LETTERS = "   letters: "


class Named(NamedTuple):
    """Something with a name: its id, other words it may be sought by, and what is shown for its id."""

    id: str
    words: str = ""
    label: str = ""

    @property
    def shown(self) -> str:
        """What stands in the list for it."""
        return self.label or self.id


def plants_by_name(plants: Iterable[Plant]) -> list[Named]:
    """Plants by their ids; name, kind and cultivar find them too."""
    return [Named(p.id, ", ".join(x for x in (p.name, p.kind, p.cultivar) if x)) for p in plants]


def sought(letters: str, among: Sequence[Named]) -> list[Named]:
    """Those whose name begins with the letters, then those that hold them anywhere."""
    letters = letters.strip().lower()
    if not letters:
        return list(among)
    begins: list[Named] = []
    holds: list[Named] = []
    for n in among:
        if n.shown.lower().startswith(letters) or n.id.lower().startswith(letters):
            begins.append(n)
        elif letters in f"{n.id} {n.shown} {n.words}".lower():
            holds.append(n)
    return begins + holds


class Finding(Panel):
    """Letters narrow the list, Enter takes what is under the bar.

    Parameters
    ----------
    title : str
        The question.
    among : sequence of Named
    take : callable
        Called with the id that was chosen; may ask on.
    enter : str
        What Enter does, for the foot.
    """

    label = LETTERS

    def __init__(
        self, title: str, among: Sequence[Named], take: Callable[[str], None], enter: str = "open"
    ) -> None:
        self.title = title
        self.enter = enter
        self._among = among
        self._take = take
        self._found = functools.lru_cache(maxsize=16)(self._find)  # offers and what is told ask for the same

    def _find(self, letters: str) -> list[Named]:
        return sought(letters, self._among)

    def offers(self, typed: str, width: int) -> Sequence[Offer]:
        """What the letters find."""
        found = self._found(typed)
        longest = widest(zip(*((n.shown, n.words) for n in found), strict=True))

        def offer(place: int) -> Offer:
            n = found[place]
            cells = (piece(n.shown), piece(n.words, "quiet"))
            laid = columns([longest, cells], (Column(24), Column()), width)
            return Offer(laid[1], partial(self._take, n.id), name=n.id)

        return AsNeeded(len(found), offer)

    def below(self, typed: str, width: int) -> list[Row]:
        """That nothing is found."""
        return [] if self._found(typed) else [row("   nothing here has these letters")]

    def take(self, typed: str) -> None:
        """There is nothing to take."""
        raise NotUnderstood("nothing here has these letters")
