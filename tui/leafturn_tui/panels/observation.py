"""Noting a bloom or a picking on the spot, in as few keys as can be."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from leafturn.bloom.model import LikelyStage
from leafturn.journal.entries import Entry, PlainNote
from leafturn_tui.notes import grammar, quantities
from leafturn_tui.panels.base import Panel, keys_row, title_row
from leafturn_tui.panels.find import Named, sought, window
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import Column, Piece, Row, columns, piece, row
from leafturn_tui.text.typed_line import TypedLine


@dataclass(frozen=True)
class Candidate:
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
    first = [
        Candidate(g.plant, kinds.get(g.plant, ""), g.stage, g.words, phrases.chance(g.chance))
        for g in guesses
    ]
    named = {c.plant for c in first}
    others = [Candidate(p, kind, stage) for p, kind in sorted(plants) if p not in named]
    return sorted([*first, *others], key=lambda candidate: candidate.plant != first_of_all)


class SeenList(Panel):
    """A list to pick from: digits pick a line, letters seek a name, Left and Right change the day."""

    heading = ""
    empty = ""

    def __init__(self, among: Sequence[Candidate], on: dt.date, note: Callable[[Entry], None]) -> None:
        self.among = among
        self.on = on
        self.days = 0
        self.at = 0
        self.letters = ""
        self._note = note

    @property
    def day(self) -> dt.date:
        """The day it was seen."""
        return self.on + dt.timedelta(days=self.days)

    def found(self) -> list[Candidate]:
        """The lines that the letters leave."""
        named = [Named(c.plant, c.kind) for c in self.among]
        by_name: dict[Named, list[Candidate]] = {}
        for name, candidate in zip(named, self.among, strict=True):
            by_name.setdefault(name, []).append(candidate)
        return [c for name in dict.fromkeys(sought(self.letters, named)) for c in by_name[name]]

    def chosen(self) -> Candidate | None:
        """The line under the bar."""
        found = self.found()
        return found[min(self.at, len(found) - 1)] if found else None

    def cells(self, candidate: Candidate) -> list[Piece]:
        """The columns of one line."""
        raise NotImplementedError

    def take(self, candidate: Candidate) -> bool:
        """Enter, or for some lists a digit: note the line or ask on. False closes."""
        raise NotImplementedError

    def take_words(self, letters: str) -> None:
        """Enter on a name that nothing here has: keep it in words."""
        raise NotImplementedError

    def hint(self) -> str:
        """What the keys do, in a line above the foot."""
        return ""

    def _day_words(self) -> str:
        near = {0: "today", -1: "yesterday"}
        return (
            f"{near[self.days]}, {phrases.day(self.day)}" if self.days in near else phrases.long_day(self.day)
        )

    def lines(self, width: int, height: int) -> list[Row]:
        """Title with the day, the numbered lines, the hint, the keys."""
        found = self.found()
        room = max(1, height - (4 if self.letters else 3))
        first = window(self.at, room, len(found))
        shown = found[first : first + room]
        numbers = [f"{first + i + 1}" if first + i < 9 else " " for i in range(len(shown))]
        laid = columns(
            [[piece(n, "key"), *self.cells(c)] for n, c in zip(numbers, shown, strict=True)],
            [Column(1, 1), Column(22), Column(18), Column(16, 10), Column(), Column(12, 8)][
                : 1 + len(self.cells(shown[0])) if shown else 1
            ],
            width - 4,
        )
        rows = [
            Row((Piece(" > " if first + i == self.at else "   ", "bar"), *pieces))
            for i, pieces in enumerate(laid)
        ]
        if self.letters:
            rows.insert(0, row(piece(f"   letters: {self.letters}"), Piece(" ", "cursor")))
        if not found:
            rows.append(row(piece(f"   {self.empty}")))
        return [
            title_row(f"{self.heading}: {self._day_words()}"),
            *rows,
            row(piece(f" {self.hint()}", "quiet")),
            keys_row(("Enter", self.enter_words()), ("Esc", "leave it")),
        ]

    def enter_words(self) -> str:
        """What Enter does."""
        return "note it"

    def key(self, name: str, character: str | None) -> bool:
        """Digits pick, letters seek, arrows move the bar and the day, Enter takes."""
        found = self.found()
        if name == "escape":
            return False
        if name == "enter":
            chosen = self.chosen()
            if chosen is None:
                self.take_words(self.letters)
                return False
            return self.take(chosen)
        if name in ("left", "right"):
            self.days = min(self.days + (1 if name == "right" else -1), 0)
        elif name in ("up", "down", "pageup", "pagedown"):
            step = {"up": -1, "down": 1, "pageup": -8, "pagedown": 8}[name]
            self.at = min(max(self.at + step, 0), max(0, len(found) - 1))
        elif name == "backspace":
            self.letters, self.at = self.letters[:-1], 0
        elif character is not None and character in "123456789":
            if int(character) <= len(found):
                self.at = int(character) - 1
                return self.picked(found[self.at])
        elif character is not None and (character.isalpha() or character in "-' ") and len(self.letters) < 60:
            self.letters, self.at = (self.letters + character).lstrip(), 0
        return True

    def picked(self, candidate: Candidate) -> bool:
        """A digit was pressed for this line."""
        return True

    def paste(self, text: str) -> None:
        """Pasted letters seek too."""
        self.letters, self.at = (self.letters + text.strip())[:60], 0


class BloomSeen(SeenList):
    """What is in flower today."""

    heading = "Seen in flower"
    empty = "nothing here has these letters: Enter keeps them as a note in words"

    def __init__(self, among: Sequence[Candidate], on: dt.date, note: Callable[[Entry], None]) -> None:
        super().__init__(among, on, note)
        self._stages: dict[Candidate, str] = {}

    def stage(self, candidate: Candidate) -> str:
        """The stage to be noted for a line."""
        return self._stages.get(candidate, candidate.stage)

    def cells(self, candidate: Candidate) -> list[Piece]:
        """Plant, kind, stage, when, how likely."""
        return [
            piece(candidate.plant), piece(candidate.kind), piece(self.stage(candidate), "due"),
            piece(candidate.words), piece(candidate.chance),
        ]  # fmt: skip

    def hint(self) -> str:
        """The keys of this list."""
        return "a number picks, letters seek a name, Tab: the stage, Left and Right: the day"

    def key(self, name: str, character: str | None) -> bool:
        """As in every list, and Tab steps the stage."""
        chosen = self.chosen()
        if name in ("tab", "shift+tab") and chosen is not None:
            now = self.stage(chosen)
            at = grammar.STAGES.index(now) if now in grammar.STAGES else -1
            self._stages[chosen] = grammar.STAGES[(at + (1 if name == "tab" else -1)) % len(grammar.STAGES)]
            return True
        return super().key(name, character)

    def take(self, candidate: Candidate) -> bool:
        """Note the stage."""
        self._note(grammar.bloom(candidate.plant, self.stage(candidate), self.day))
        return False

    def take_words(self, letters: str) -> None:
        """A plant that is not in the garden file: kept in words, to be matched later."""
        self._note(PlainNote(on=self.day, text=f"in flower: {letters}"))


class Picked(SeenList):
    """What was picked, and how much."""

    heading = "Picked"
    empty = "nothing here has these letters: Enter goes on with them in words"

    def __init__(self, among: Sequence[Candidate], on: dt.date, note: Callable[[Entry], None]) -> None:
        super().__init__(among, on, note)
        self.of: Candidate | None = None
        self.amount = TypedLine()

    def cells(self, candidate: Candidate) -> list[Piece]:
        """Plant, kind, when, how likely."""
        return [
            piece(candidate.plant),
            piece(candidate.kind),
            piece(candidate.words),
            piece(candidate.chance),
        ]

    def hint(self) -> str:
        """The keys of this list."""
        return "a number picks and goes on to the amount, letters seek a name, Left and Right: the day"

    def enter_words(self) -> str:
        """What Enter does."""
        return "go on to the amount"

    def picked(self, candidate: Candidate) -> bool:
        """A digit goes straight on to the amount."""
        return self.take(candidate)

    def take(self, candidate: Candidate) -> bool:
        """Go on to the amount."""
        self.of = candidate
        return True

    def take_words(self, letters: str) -> None:
        """Something that is not in the garden file."""
        self._note(PlainNote(on=self.day, text=f"picked: {letters}"))

    def lines(self, width: int, height: int) -> list[Row]:
        """The list, or the line for the amount."""
        if self.of is None:
            return super().lines(width, height)
        return [
            title_row(f"How much of {self.of.plant}? ({self._day_words()})"),
            Row((Piece(" > ", "bar"), *self.amount.pieces(width - 4))),
            row(f"   {self._understood()}"),
            keys_row(("Enter", "note it"), ("Esc", "back to the list")),
        ]

    def _understood(self) -> str:
        got = quantities.amount(self.amount.text)
        if not got.words:
            return "4.5 kg, 10 lb, 2 baskets; or nothing, and only the day is noted"
        if got.kg is None:
            return f"{got.words}, kept in these words"
        return f"{phrases.two_figures(got.kg)} kg"

    def key(self, name: str, character: str | None) -> bool:
        """The list's keys, or those of the amount."""
        if self.of is None:
            return super().key(name, character)
        if name == "escape":
            self.of = None
        elif name == "enter":
            self._note(grammar.harvest(self.of.plant, self.amount.text, self.day))
            return False
        else:
            self.amount.key(name, character)
        return True

    def paste(self, text: str) -> None:
        """Into the amount, or letters to seek by."""
        if self.of is None:
            super().paste(text)
        else:
            self.amount.insert(text)
