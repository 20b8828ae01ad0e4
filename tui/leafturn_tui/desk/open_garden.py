"""The garden that is shown: read again when its files change, and written to."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TypeVar

from msgspec.structs import replace

from leafturn.base.faults import Unreadable
from leafturn.garden.editing.edits import Edit
from leafturn.journal.entries import Entry
from leafturn_tui.almanac_face import AlmanacFace
from leafturn_tui.desk.once import Once, Patience
from leafturn_tui.notes import NotUnderstood, grammar
from leafturn_tui.text.phrases import long_day

Kept = TypeVar("Kept")
RECKONED = "The week is being reckoned anew; go on meanwhile."
WEEK_ANEW = "The week is reckoned anew."
ANEW = "noted, and the week is reckoned anew"
AT_ONCE = 300  # plants; the week of so many is reckoned before a hand comes back to the keys, a guess
PATIENCE_S = 0.01  # so long does a key wait in a garden of more: with the drawing a fiftieth of a second


class ShownGarden:
    """The almanac of the day that is shown, and whether its files can still be read.

    In a garden of many plants what was noted is written at once, and shown once its week is reckoned; so is
    another day, and what another program has written. Until then `newest` is another almanac than the one
    that is shown.

    Parameters
    ----------
    clock : callable
        The time now.
    follow : bool
        Whether the day is today's and moves on at midnight.
    named : Path or None
        How it was named, under which the week is kept for the next start; None keeps none.
    """

    def __init__(
        self,
        almanac: AlmanacFace,
        clock: Callable[[], dt.datetime],
        *,
        follow: bool,
        named: Path | None = None,
    ) -> None:
        self.almanac = almanac
        self.named = named
        self.lost = ""  # why the garden can no longer be read; empty if it can
        self.read_at = clock()
        self._clock = clock
        self._follow = follow
        self._read_anew: tuple[AlmanacFace, Once[AlmanacFace]] | None = None  # of which almanac

    @property
    def almanac(self) -> AlmanacFace:
        """The garden as it is shown."""
        return self._almanac

    @almanac.setter
    def almanac(self, almanac: AlmanacFace) -> None:
        self._almanac = self.newest = almanac
        self._then_said: Callable[[AlmanacFace], str] = lambda almanac: ""
        self._day_said = ""  # of another day, once it is reckoned

    def _turn(self, newest: AlmanacFace, said: Callable[[AlmanacFace], str]) -> None:
        """Show another almanac: of few plants at once, else once it is reckoned; then that is said."""
        if len(newest.garden.plants) <= AT_ONCE:
            self.almanac = newest
        else:
            self.newest, self._then_said = newest, said

    def now_known(self, newest: AlmanacFace) -> str:
        """What is to be said once an almanac is reckoned: nothing where a newer one was written meanwhile."""
        if newest is not self.newest:
            return ""
        said, day = self._then_said(newest), self._day_said
        return f"{said.removesuffix('.')}. {day}" if said and day else said or day

    @property
    def patience(self) -> float | None:
        """How long [s] a key waits for what it asks; None as long as it takes."""
        return None if len(self.almanac.garden.plants) <= AT_ONCE else PATIENCE_S

    @property
    def state(self) -> tuple[AlmanacFace, str]:
        """What is shown of it, to see whether that has changed."""
        return self.almanac, self.lost

    @property
    def is_reading(self) -> bool:
        """Whether files are read behind the screen, or are to be."""
        return self._read_anew is not None

    def look_again(self, patience: Patience) -> None:
        """Read the files again if they changed, and let the day move on."""
        today = self._clock().date()
        if self._follow and today != self.newest.on:
            self._turn(self.newest.at(today), self._then_said)
        if self._read_anew is None and (self.lost or self.newest.stale()):
            self._read_anew = self.newest, Once(self.newest.reread)
        if self._read_anew is None or not self._read_anew[1].is_there(patience):
            return
        (read, anew), self._read_anew = self._read_anew, None
        if read is not self.newest:  # a note was written since, with what was known then
            self.look_again(patience)
            return
        try:
            self._turn(anew.wait(), self._then_said)
            self.lost, self.read_at = "", self._clock()
        except Unreadable as why:
            self.lost = why.fault.sentence()

    def read_again(self) -> None:
        """Read all files again, which were just written; of many plants behind the screen, by `look_again`.

        Raises
        ------
        Unreadable
            If they can no longer be read.
        """
        if self.patience is not None:
            self._read_anew = self.newest, Once(self.newest.reread)
            self._then_said = lambda newest: WEEK_ANEW
            return
        self._turn(self.newest.reread(), lambda newest: WEEK_ANEW)
        self.lost, self.read_at = "", self._clock()

    @property
    def today(self) -> dt.date:
        """The day on which notes are written, whatever day they are of."""
        return self._clock().date()

    def set_day(self, on: dt.date) -> str:
        """Show another day, which stays; what is to be said of it."""
        self._follow = False
        said = f"Everything is shown as on {long_day(on)}; what is noted now gets that day."
        self._turn(self.newest.at(on), self._then_said)
        if self.newest is self.almanac:
            return said
        self._day_said = said
        return f"{long_day(on)} is being reckoned; go on meanwhile, with the day that is shown."

    def keep(self, entry: Entry, more: Callable[[AlmanacFace], str]) -> str:
        """Write a note; what is to be said of it, with what `more` adds from what is now known."""
        kept = self.note(entry)
        if self.newest is self.almanac:
            return f"noted: {self._words(kept)}{more(self.almanac)}"
        self._then_said = lambda newest: f"{ANEW}{more(newest)}"
        return self._said(f"noted: {self._words(kept)}")

    def note(self, entry: Entry, edit: Edit | None = None) -> Entry:
        """Write a note; the note with its id.

        With it what the same act changes in the garden file, which is then to be read again.

        Raises
        ------
        NotUnderstood
            With why nothing was noted, as all that write here do.
        NotTaken, OSError
            If the garden file is not changed, as `Almanac.note`.
        """
        return self._write(lambda newest: newest.note(entry, self.today, edit), [entry])

    def keep_all(self, entries: Sequence[Entry], said: str) -> str:
        """Write the notes of one act; `said`, with a word on the week where it is still to be reckoned."""
        self._write(lambda newest: newest.note_many(entries, self.today), entries)
        return self._said(said)

    def take_back(self, entry: Entry) -> str:
        """Take a note back; what is to be said of it."""
        self.withdraw(entry)
        return self._said(self.taken_back(entry))

    def withdraw(self, entry: Entry, edit: Edit | None = None) -> Entry:
        """Take a note back, with a change of the garden file as in `note`; the note that says so."""
        return self._write(lambda newest: newest.take_back(entry.id, self.today, edit), [])

    def taken_back(self, entry: Entry) -> str:
        """That a note was taken back, in words."""
        return f"taken back: {self._words(entry)}"

    def _said(self, done: str) -> str:
        """What was done, and where its week is still to be reckoned a word on that."""
        return done if self.newest is self.almanac else f"{done}. {RECKONED}"

    def _words(self, entry: Entry) -> str:
        return grammar.entry_words(entry, self.almanac.on, self.almanac.garden)

    def _write(
        self, write: Callable[[AlmanacFace], tuple[AlmanacFace, Kept]], entries: Sequence[Entry]
    ) -> Kept:
        """Let the newest almanac write; what was kept."""
        if self.newest.read_only:
            raise NotUnderstood("Nothing is noted: the journal cannot be written (leafturn check says why).")
        if any(map(self._is_noted, entries)):
            raise NotUnderstood(f"That is noted already. {RECKONED}")
        try:
            written, kept = write(self.newest)
        except Unreadable as why:
            raise NotUnderstood(f"Not noted: {why}") from None
        self._turn(written, lambda newest: ANEW)
        if not self.lost:
            self.read_at = self._clock()
        return kept

    def _is_noted(self, entry: Entry) -> bool:
        """Whether a note of a job stands in the journal, which the week that is shown does not know of."""
        if not entry.closes or self.newest is self.almanac:
            return False
        standing = (line.entry for line in self.newest.book() if not line.taken_back)
        return any(_words_of(noted) == _words_of(entry) for noted in standing)


def _words_of(entry: Entry) -> Entry:
    """A note without its id and where it stands."""
    return replace(entry, id="", file="", line=0, sum="")
