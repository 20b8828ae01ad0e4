"""Ids of notes: a day, a number and four letters drawn at random; which note a withdrawal means."""

from __future__ import annotations

import datetime as dt
import re
from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from itertools import islice

from msgspec import structs

from leafturn.base.faults import MOST_FAULTS, Fault, clipped, did_you_mean
from leafturn.base.patterns import pattern
from leafturn.journal.entries import Entry, Withdrawal
from leafturn.journal.store.sealing import mark_of

LETTERS = "abcdefghjkmnpqrstuvwxyz23456789"  # none that is easily taken for another
DRAWN = 4  # 31 ** 4: that two writers of one day and number draw the same is one chance in 900,000
MOST_HINTS = 20  # looking for the nearest id costs a little each time
HIGHEST = 1_000_000  # a number above it is a slip of the hand and does not move the next

_COPY = "Delete the id of the copy; a note written by hand needs none."
_GIVEN = pattern(
    rb"""^(?:[ \t]*|note = \{ )id[ \t]*=[ \t]*["']([0-9]{4}-[0-9]{2}-[0-9]{2})"""
    rb"""\.([0-9]{1,7})(?:\.[0-9a-z]+)?["']""",
    re.MULTILINE,
)


def drawn() -> str:
    """Letters that tell an id from one that another writer gives on the same day."""
    import secrets

    return "".join(secrets.choice(LETTERS) for _ in range(DRAWN))


def given_numbers(data: bytes) -> dict[dt.date, int]:
    """The highest number given on each day in a journal file.

    Looks at the bytes, not at the notes read from them, so that a note that is left out for a fault
    keeps its id too.
    """
    highest: dict[dt.date, int] = {}
    for day_text, number in _GIVEN.findall(data):
        try:
            day = dt.date.fromisoformat(day_text.decode())
        except ValueError:
            continue
        if int(number) <= HIGHEST:
            highest[day] = max(highest.get(day, 0), int(number))
    return highest


def next_ids(
    count: int,
    written: dt.date,
    year: int,
    files: Sequence[tuple[int, bytes]],
) -> list[str]:
    """Ids for `count` notes, later than every id in the files of `year`.

    The day is the day written, or that of the newest id if the clock has stepped back since. The letters
    make an id the writer's own: two copies of a journal, written to apart, give no id twice.

    Parameters
    ----------
    count : int
        How many.
    written : date
        Today, as the face knows it.
    year : int
        The year of the file they go into.
    files : sequence of (year, bytes)
        The journal's files that may hold ids of that day. Ids of another year than their file's are
        slips of the hand; they do not move the day.
    """
    numbers = [(file_year, given_numbers(data)) for file_year, data in files]
    days = [day for file_year, given in numbers for day in given if file_year == year == day.year]
    day = max([written, *days])
    last = max((given.get(day, 0) for _, given in numbers), default=0)
    return [f"{day.isoformat()}.{last + more}.{drawn()}" for more in range(1, count + 1)]


def settled(entries: Iterable[Entry], copies: Iterable[Entry] = ()) -> tuple[tuple[Entry, ...], list[Fault]]:
    """The notes, each once and with an id of its own, withdrawals aimed at the notes they mean; and faults.

    A note that stands twice, word for word and with the same id, is one note. Two that differ are two: the
    second goes by another id. A note written by hand without an id gets one from its day and from what it
    says, such as "2027-04-11.h1c9e02ab", so that it stays the same whatever is written around it.

    Parameters
    ----------
    entries : iterable of Entry
        As they stand in the journal's files.
    copies : iterable of Entry
        As they stand in copies of those files: what is in the files already is passed over.
    """
    notes = _Notes()
    notes.add(entries)
    for place, entry in enumerate(copies):
        if place == 0:
            notes.end_of_files()
        notes.add_copied(entry)
    return notes.aimed(), notes.faults


class _Notes:
    """Notes being gathered."""

    def __init__(self) -> None:
        self.kept: list[Entry] = []
        self.faults: list[Fault] = []
        self._goes_by: dict[str, int] = {}  # place in `kept` by the id that a note goes by
        self._also: defaultdict[str, list[int]] = defaultdict(list)  # places of more written under an id
        self._numbers: Counter[str] = Counter()
        self._unnamed: Counter[str] = Counter()  # by mark: notes without a written id that copies repeat

    def add(self, entries: Iterable[Entry]) -> None:
        """Take the notes of the journal's own files."""
        goes_by, kept = self._goes_by, self.kept
        for entry in entries:
            if entry.id and entry.id not in goes_by:  # as nearly all, of which there may be very many
                goes_by[entry.id] = len(kept)
                kept.append(entry)
            elif not self._is_repeated(entry):
                self._keep(entry)

    def _is_repeated(self, entry: Entry) -> bool:
        """Whether a note stands in the files already; says so where it does, or another has its id."""
        if not entry.id:
            return False
        again = self._stands(entry)
        if again:
            said = f"The note {clipped(entry.id)} stands here once more, word for word; it counts once."
        else:
            said = f"The id {clipped(entry.id)} stands on an earlier note too, so this note goes by another."
        self._say(entry, said, _COPY)
        return again

    def end_of_files(self) -> None:
        """From here on come notes of copies."""
        self._unnamed = Counter(
            mark_of(entry) for entry in self.kept if entry.id.partition(".")[2][:1] == "h"
        )

    def add_copied(self, entry: Entry) -> None:
        """Take a note of a copy, unless it is in the files already."""
        if entry.id and self._stands(entry):
            return
        if not entry.id and self._unnamed[mark := mark_of(entry)] > 0:
            self._unnamed[mark] -= 1
            return
        self._keep(entry)

    def aimed(self) -> tuple[Entry, ...]:
        """All notes, each withdrawal with the id by which the note it means now goes."""
        return tuple(
            self._aim(place, entry) if isinstance(entry, Withdrawal) else entry
            for place, entry in enumerate(self.kept)
        )

    def _written_under(self, given: str) -> list[int]:
        """Places of the notes that go by an id or were written under it, in order."""
        first = self._goes_by.get(given)
        return [] if first is None else [first, *self._also.get(given, ())]

    def _stands(self, entry: Entry) -> bool:
        places = self._written_under(entry.id)
        return bool(places) and mark_of(entry) in {mark_of(self.kept[place]) for place in places}

    def _keep(self, entry: Entry) -> None:
        place = len(self.kept)
        if not entry.id or entry.id in self._goes_by:
            if entry.id:
                self._also[entry.id].append(place)
            entry = structs.replace(entry, id=self._own_id(entry))
        self._goes_by[entry.id] = place
        self.kept.append(entry)

    def _own_id(self, entry: Entry) -> str:
        plain = f"{entry.on.isoformat()}.h{mark_of(entry)}"
        while True:
            self._numbers[plain] += 1
            number = self._numbers[plain]
            chosen = plain if number == 1 else f"{plain}-{number}"
            if chosen not in self._goes_by:
                return chosen

    def _aim(self, place: int, entry: Withdrawal) -> Entry:
        """A withdrawal aimed at the note it means: that of its mark; without one, the nearest before it."""
        meant = [p for p in self._written_under(entry.entry) if p != place]
        if entry.mark is not None:
            meant = [p for p in meant if mark_of(self.kept[p]) == entry.mark] or self._mended(meant, entry)
        if not meant:
            self._say_lost(entry)
            return structs.replace(entry, entry=f"{entry.entry} ({entry.was or 'not there'})")
        nearest = max((p for p in meant if p < place), default=meant[0])
        return structs.replace(entry, entry=self.kept[nearest].id)

    def _mended(self, meant: list[int], entry: Withdrawal) -> list[int]:
        """The one note of the id if its own check sum is what the mark says: a hand mended it since."""
        return [p for p in meant if self.kept[p].sum == entry.mark]

    def _say_lost(self, entry: Withdrawal) -> None:
        near = ""
        if len(self.faults) < MOST_HINTS:
            same_day = (known for known in self._goes_by if known[:10] == entry.entry[:10])
            near = did_you_mean(clipped(entry.entry), islice(same_day, MOST_FAULTS))
        was = f" that said: {clipped(entry.was, 200)}" if entry.was else ""
        self._say(
            entry, f"This takes back the note {clipped(entry.entry)}{was}, but no note has that id.", near
        )

    def _say(self, entry: Entry, message: str, hint: str) -> None:
        self.faults.append(Fault(file=entry.file, line=entry.line, message=message, hint=hint))
