"""The garden that is shown: read again when its files change, and written to."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TypeVar

from leafturn.base.faults import Unreadable
from leafturn.journal.entries import Entry
from leafturn_tui.almanac_face import AlmanacFace
from leafturn_tui.notes import grammar

Kept = TypeVar("Kept")
RECKONED = "The week is being reckoned anew; go on meanwhile."
AT_ONCE = 300  # plants; the week of so many is reckoned before a hand comes back to the keys, a guess


class ShownGarden:
    """The almanac of the day that is shown, and whether its files can still be read.

    In a garden of many plants what was noted is written at once, and shown once its week is reckoned: until
    then `newest` is another almanac than the one that is shown.

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

    @property
    def almanac(self) -> AlmanacFace:
        """The garden as it is shown."""
        return self._almanac

    @almanac.setter
    def almanac(self, almanac: AlmanacFace) -> None:
        self._almanac = self.newest = almanac
        self._more: Callable[[AlmanacFace], str] = lambda almanac: ""
        self._written: list[Entry] = []  # since the almanac that is shown

    def now_known(self, newest: AlmanacFace) -> str:
        """What is to be said once an almanac is reckoned: nothing where a newer one was written meanwhile."""
        return f"noted, and the week is reckoned anew{self._more(newest)}" if newest is self.newest else ""

    @property
    def state(self) -> tuple[AlmanacFace, str]:
        """What is shown of it, to see whether that has changed."""
        return self.almanac, self.lost

    def look_again(self) -> None:
        """Read the files again if they changed, and let the day move on."""
        today = self._clock().date()
        if self._follow and today != self.almanac.on:
            self.almanac = self.newest.at(today)
        try:
            if self.lost or self.newest.stale():
                self.almanac = self.newest.reread()
                self.lost, self.read_at = "", self._clock()
        except Unreadable as why:
            self.lost = why.fault.sentence()

    def read_again(self) -> None:
        """Read all files again, which were just written.

        Raises
        ------
        Unreadable
            If they can no longer be read.
        """
        self.almanac = self.newest.reread()
        self.lost, self.read_at = "", self._clock()

    @property
    def today(self) -> dt.date:
        """The day on which notes are written, whatever day they are of."""
        return self._clock().date()

    def set_day(self, on: dt.date) -> None:
        """Show another day, which stays."""
        self._follow = False
        self.almanac = self.newest.at(on)

    def keep(self, entry: Entry, more: Callable[[AlmanacFace], str]) -> str:
        """Write a note; what is to be said of it, with what `more` adds from what is now known."""
        kept, wrong = self.note(entry)
        if kept is None:
            return wrong
        if self.newest is self.almanac:
            return f"noted: {self._words(kept)}{more(self.almanac)}"
        self._more = more
        return f"noted: {self._words(kept)}. {RECKONED}"

    def note(self, entry: Entry) -> tuple[Entry | None, str]:
        """Write a note; the note with its id, or None and why not."""
        return self._write(lambda newest: newest.note(entry, self.today), [entry])

    def keep_all(self, entries: Sequence[Entry], said: str) -> str:
        """Write the notes of one act; `said`, or why nothing was noted."""
        kept, wrong = self._write(lambda newest: newest.note_many(entries, self.today), entries)
        return wrong if kept is None else said

    def take_back(self, entry: Entry) -> str:
        """Take a note back; what is to be said of it."""
        kept, wrong = self._write(lambda newest: newest.take_back(entry.id, self.today), [])
        return wrong if kept is None else f"taken back: {self._words(entry)}"

    def _words(self, entry: Entry) -> str:
        return grammar.entry_words(entry, self.almanac.on, self.almanac.garden)

    def _write(
        self, write: Callable[[AlmanacFace], tuple[AlmanacFace, Kept]], entries: Sequence[Entry]
    ) -> tuple[Kept | None, str]:
        """Let the newest almanac write; what was kept, or None and why not."""
        if self.newest.read_only:
            return None, "Nothing is noted: the journal cannot be written (leafturn check says why)."
        if any(entry in self._written for entry in entries):
            return None, f"That is noted already. {RECKONED}"
        try:
            written, kept = write(self.newest)
        except Unreadable as why:
            return None, f"Not noted: {why}"
        if len(written.garden.plants) <= AT_ONCE:
            self.almanac = written
        else:
            self.newest = written
            self._written += entries
        self.lost, self.read_at = "", self._clock()
        return kept, ""
