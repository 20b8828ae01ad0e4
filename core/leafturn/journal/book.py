"""Notes in words, as the Book shows them."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Sequence
from functools import cached_property, partial

from leafturn.base import day_words, prose, quantities
from leafturn.base.value import Value
from leafturn.journal.answer_words import read_said
from leafturn.journal.entries import (
    AnsweredNote,
    BloomNote,
    ColdNightNote,
    CrownNote,
    DamageNote,
    Done,
    Entry,
    FruitSetNote,
    Given,
    HarvestNote,
    HeapReading,
    HoldLifted,
    JudgedNote,
    LetGo,
    LossNote,
    PlainNote,
    PutOff,
    SheetNote,
    WeatherNote,
    Withdrawal,
)
from leafturn.journal.withdrawals import withdrawals


class BookLine(Value, eq=False):
    """One note as the Book shows it; `target` and `things` are those of `in_words`."""

    entry: Entry
    taken_back: bool = False
    target: Entry | None = None
    things: Collection[str] | None = None

    @cached_property
    def words(self) -> str:
        """The note in words, made when they are first read: a long book is hardly ever read whole."""
        return in_words(self.entry, self.target, self.things)


def book_lines(
    written: Sequence[Entry], on: dt.date, things: Collection[str] | None = None
) -> tuple[BookLine, ...]:
    """All notes up to a day, the newest first and of one day the last written first.

    Parameters
    ----------
    written : sequence of Entry
        In the order they were written, withdrawals and what they take back among them.
    on : date
    things : collection of str or None
        Ids of the plants and heaps of the garden.
    """
    taken_back, by_id = withdrawals(written), {entry.id: entry for entry in written}
    lines = [
        BookLine(
            entry=entry,
            taken_back=entry.id in taken_back,
            target=by_id.get(entry.entry) if isinstance(entry, Withdrawal) else None,
            things=things,
        )
        for entry in reversed(written)
        if entry.on <= on
    ]
    return tuple(sorted(lines, key=lambda line: line.entry.on, reverse=True))


def in_words(entry: Entry, target: Entry | None = None, things: Collection[str] | None = None) -> str:
    """One line that can be read aloud: what was noted, of what, how much, by whom.

    `target` is the note that a withdrawal takes back, if it is known; `things` the ids of all plants and
    heaps, for a job of anything else is done to a group.
    """
    parts = [_what(entry, things)]
    if target is not None:
        parts = [f"taken back: {_what(target, things)} of {day_words.day(target.on)}"]
    if entry.text and not isinstance(entry, PlainNote):
        parts.append(entry.text)
    if entry.minutes:
        parts.append(f"{entry.minutes:.0f} min")
    if entry.by:
        parts.append(f"by {entry.by}")
    return ", ".join(part for part in parts if part)


def _what(entry: Entry, things: Collection[str] | None) -> str:
    jobs = ", ".join(job.words(things) for job in entry.jobs)
    match entry:
        case Done():
            return f"done: {jobs}"
        case LetGo():
            return f"let go: {jobs}"
        case PutOff():
            return f"put off until {day_words.day(entry.until)}: {jobs}"
        case Given():
            return f"given to {entry.to or 'anyone'}: {jobs}"
        case HoldLifted():
            return f"hold lifted: {jobs}"
        case SheetNote():
            return f"week sheet {entry.sheet} written, {prose.count(len(entry.closes), 'line')}"
        case Withdrawal():
            return f"taken back: note {entry.entry}"
        case WeatherNote():
            return f"weather: {_weather(entry)}"
        case ColdNightNote():
            night = "cold night"
            return night if entry.tmin_c is None else f"{night} given: {_celsius(entry.tmin_c)}"
        case _:
            about, seen = entry.plant or entry.heap or "", _observation(entry)
            return f"{about}: {seen}" if about else seen


def _observation(entry: Entry) -> str:
    """What a note says of the plant or heap it is about."""
    match entry:
        case BloomNote():
            return entry.stage or "in bloom"
        case HarvestNote():
            amount = entry.amount or ""
            if entry.kg is not None and not (entry.amount and quantities.spoken() == "us"):
                amount = quantities.kilograms(entry.kg)
            return f"picked {amount}".rstrip()
        case FruitSetNote():
            return f"set {entry.set}"
        case HeapReading():
            return f"{_celsius(entry.temp_c)} inside"
        case CrownNote():
            return f"{entry.live_percent:g} % of the crown alive"
        case AnsweredNote():
            # Of a remedy the text that follows names it in full.
            said = read_said(entry.answer)
            named = entry.text and said is not None and said.is_remedy
            return "fix chosen" if named else entry.answer or "answered"
        case LossNote() | DamageNote():
            return f"{entry.what} by {entry.cause}" if entry.cause else entry.what
        case JudgedNote():
            return f"judged {entry.plan}" if entry.plan else entry.what
        case PlainNote():
            return entry.text or "note"
        case _:
            return entry.what


_celsius = partial(quantities.celsius, digits=None)  # with the figures it was noted with
_millimetres = partial(quantities.millimetres, digits=None)


def _weather(note: WeatherNote) -> str:
    measured = (
        ("min", note.tmin_c, _celsius),
        ("max", note.tmax_c, _celsius),
        ("rain", note.rain_mm, _millimetres),
    )
    amounts = [f"{label} {say(value)}" for label, value, say in measured if value is not None]
    named = [word for word, was in (("wind", note.wind), ("snow", note.snow)) if was]
    return ", ".join([*amounts, *named]) or "noted"
