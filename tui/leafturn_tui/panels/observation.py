"""Noting a bloom or a picking on the spot, in as few keys as can be."""

from __future__ import annotations

import datetime as dt
import functools
from collections.abc import Callable, Sequence
from functools import partial

from leafturn.base.prose import of_ten
from leafturn.base.quantities import kilograms
from leafturn.base.value import Value
from leafturn.bloom.model import LikelyStage
from leafturn.journal.entries import Entry, PlainNote
from leafturn_tui.host import Offer, PanelFace, PanelKey
from leafturn_tui.notes import dates, grammar, quantities
from leafturn_tui.panels.base import Panel
from leafturn_tui.panels.find import LETTERS, Named, sought
from leafturn_tui.panels.line import Typing
from leafturn_tui.text import phrases
from leafturn_tui.text.as_needed import AsNeeded, widest
from leafturn_tui.text.layout import Column, Piece, Row, columns, paragraph, piece, row

DIGITS = 9  # lines that a digit picks
PLANT, KIND, CHANCE = Column(30, 8, gives=1), Column(30, 8, gives=2), Column(13, 8)
ALL_TOLD = 68  # cells in which every column can be read; with less, kind and chance are left out


class Candidate(Value, kw_only=False):
    """A plant that may be noted: the likeliest stage, and how likely, in words."""

    plant: str
    kind: str
    stage: str
    words: str = ""
    chance: str = ""


def candidates(
    guesses: Sequence[LikelyStage], plants: Sequence[tuple[str, str]], stage: str, first_of_all: str = ""
) -> list[Candidate]:
    """The guesses, likeliest first, then every other plant by name; one plant may stand before them all."""
    kinds = dict(plants)
    first = [Candidate(g.plant, kinds.get(g.plant, ""), g.stage, g.words, of_ten(g.chance)) for g in guesses]
    named = {c.plant for c in first}
    others = [Candidate(p, kind, stage) for p, kind in sorted(plants) if p not in named]
    return sorted([*first, *others], key=lambda candidate: candidate.plant != first_of_all)


class ObservationList(Panel):
    """A list to pick from: digits pick a line, letters seek a name, Left and Right change the day.

    Parameters
    ----------
    among : sequence of Candidate
        The lines, likeliest first.
    on : date
        Today.
    note : callable
        Keeps a note.
    """

    label = LETTERS
    enter = "note it"
    escape = "leave it"
    empty = ""
    hint = ""
    shape: tuple[Column, ...] = ()
    tones: tuple[str, ...] = ()

    def __init__(self, among: Sequence[Candidate], on: dt.date, note: Callable[[Entry], None]) -> None:
        self.among = among
        self.on = on
        self.days = 0
        self._note = note
        self._found = functools.lru_cache(maxsize=16)(self._find)  # offers and what is told ask for the same

    @property
    def day(self) -> dt.date:
        """The day it was seen."""
        return self.on + dt.timedelta(days=self.days)

    def heading(self) -> str:
        """What is seen, and the day."""
        return f"{self.title}: {self.day_words()}"

    def day_words(self) -> str:
        """The day, by its name where it is near."""
        near = {0: "today", -1: "yesterday"}
        return (
            f"{near[self.days]}, {phrases.day(self.day)}" if self.days in near else phrases.long_day(self.day)
        )

    def keys(self) -> tuple[PanelKey, ...]:
        """The day."""
        return (PanelKey("left", "", partial(self._step, -1)), PanelKey("right", "", partial(self._step, 1)))

    def _step(self, days: int, offer: Offer | None) -> None:
        self.days = min(self.days + days, 0)

    def offers(self, typed: str, width: int) -> Sequence[Offer]:
        """The numbered lines that the letters leave."""
        found = self._found(typed)
        if not found:
            return ()
        told = [n for n, c in enumerate(self.shape) if width >= ALL_TOLD or c not in (KIND, CHANCE)]
        longest = widest(zip(*(self.told(c) for _, c in found), strict=True))
        shape = (Column(1, 1), *(self.shape[n] for n in told))

        def offer(place: int) -> Offer:
            at, c = found[place]
            digit = str(place + 1) if place < DIGITS else ""
            cells = list(map(piece, self.told(c), self.tones))
            table = [
                [Piece("9"), *(longest[n] for n in told)],
                [piece(digit or " ", "key"), *(cells[n] for n in told)],
            ]
            return Offer(columns(table, shape, width)[1], partial(self.pick, c), digit, str(at))

        return AsNeeded(len(found), offer)

    @functools.cached_property
    def _places(self) -> dict[Named, list[int]]:
        """Where the lines of each name stand."""
        at: dict[Named, list[int]] = {}
        for n, c in enumerate(self.among):
            at.setdefault(Named(c.plant, c.kind), []).append(n)
        return at

    def _find(self, letters: str) -> list[tuple[int, Candidate]]:
        """The lines that the letters leave, each with its place among all."""
        at = self._places
        return [(n, self.among[n]) for name in sought(letters, list(at)) for n in at[name]]

    def told(self, candidate: Candidate) -> tuple[str, ...]:
        """What one line tells, a text a column; `tones` are theirs."""
        raise NotImplementedError

    def pick(self, candidate: Candidate) -> None:
        """Enter, or for some lists a digit: note the line or ask on."""
        raise NotImplementedError

    def below(self, typed: str, width: int) -> list[Row]:
        """That nothing is found, and what the keys do."""
        hint = paragraph(self.hint, width, "quiet", indent=1, hang=0)
        return hint if self._found(typed) else [row(f"   {self.empty}"), *hint]


class BloomObservation(ObservationList):
    """What is in flower today."""

    title = "Seen in flower"
    empty = "nothing here has these letters: Enter keeps them as a note in words"
    hint = "a number picks, letters seek a name, Tab: the stage, Left and Right: the day"
    keys_take = False
    shape = (PLANT, KIND, Column(16, 10), Column(), CHANCE)
    tones = ("", "", "due", "", "")

    def __init__(self, among: Sequence[Candidate], on: dt.date, note: Callable[[Entry], None]) -> None:
        super().__init__(among, on, note)
        self._stages: dict[Candidate, str] = {}

    def stage(self, candidate: Candidate) -> str:
        """The stage to be noted for a line."""
        return self._stages.get(candidate, candidate.stage)

    def told(self, candidate: Candidate) -> tuple[str, ...]:
        """Plant, kind, stage, when, how likely."""
        c = candidate
        return (c.plant, c.kind, self.stage(c), c.words, c.chance)

    def keys(self) -> tuple[PanelKey, ...]:
        """The day and the stage."""
        return (
            *super().keys(),
            PanelKey("tab", "", partial(self._turn_stage, 1)),
            PanelKey("shift+tab", "", partial(self._turn_stage, -1)),
        )

    def _turn_stage(self, steps: int, offer: Offer | None) -> None:
        if offer is not None:
            chosen = self.among[int(offer.name)]
            now = self.stage(chosen)
            at = grammar.STAGES.index(now) if now in grammar.STAGES else -1
            self._stages[chosen] = grammar.STAGES[(at + steps) % len(grammar.STAGES)]

    def pick(self, candidate: Candidate) -> None:
        """Note the stage."""
        self._note(grammar.bloom(candidate.plant, self.stage(candidate), self.day))

    def take(self, typed: str) -> None:
        """A plant that is not in the garden file: kept in words, to be matched later."""
        self._note(PlainNote(on=self.day, text=f"in flower: {typed}"))


class HarvestObservation(ObservationList):
    """What was picked, and how much.

    `ask_next` asks for the amount; Esc there steps back to the list.
    """

    title = "Picked"
    enter = "go on to the amount"
    empty = "nothing here has these letters: Enter goes on with them in words"
    hint = "a number picks, letters seek a name, Left and Right: the day"
    shape = (PLANT, KIND, Column(), CHANCE)
    tones = ("", "", "", "")

    def __init__(
        self,
        among: Sequence[Candidate],
        on: dt.date,
        note: Callable[[Entry], None],
        ask_next: Callable[[PanelFace], None],
    ) -> None:
        super().__init__(among, on, note)
        self._ask_next = ask_next

    def told(self, candidate: Candidate) -> tuple[str, ...]:
        """Plant, kind, when, how likely."""
        return (candidate.plant, candidate.kind, candidate.words, candidate.chance)

    def pick(self, candidate: Candidate) -> None:
        """Go on to the amount."""
        self._ask_next(
            Typing(
                f"How much of {candidate.plant}? ({self.day_words()})",
                lambda text: self._note(self._picked(candidate.plant, text)),
                preview=self._amount,
                escape="back to the list",
            )
        )

    def take(self, typed: str) -> None:
        """Something that is not in the garden file."""
        self._note(PlainNote(on=self.day, text=f"picked: {typed}"))

    def _picked(self, plant: str, text: str) -> Entry:
        """The note of an amount, of the day that is typed behind it or else of the one chosen before."""
        how_much, day = self._of_day(text)
        return grammar.harvest(plant, how_much, day)

    def _of_day(self, text: str) -> tuple[str, dt.date]:
        how_much, day = dates.day_at_end(text, self.on)
        return how_much, self.day if how_much == text else day

    def _amount(self, text: str) -> str:
        """What an amount is understood as."""
        how_much, day = self._of_day(text)
        got = quantities.amount(how_much)
        if not got.words and day == self.day:
            return (
                "4.5 kg, 10 lb, 2 baskets, a day behind it, as 12 Apr; or nothing, and only the day is noted"
            )
        said = f"{got.words}, kept in these words"
        if got.kg is not None or not got.words:
            said = kilograms(float(phrases.two_figures(got.kg))) if got.kg is not None else "only the day"
        return said if day == self.day else f"{said}, {phrases.day(day, self.on)}"
