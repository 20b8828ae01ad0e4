"""The short number on a week sheet, and finding a sheet again by it.

A number such as "16-B" is the week (ISO 8601) and a letter for each sheet of that week. The journal keeps
each sheet as a note with its number and its jobs in the order of its lines, and nothing else remembers it.
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Collection, Iterable, Sequence

from leafturn.base import day_words
from leafturn.base.faults import clipped
from leafturn.base.patterns import pattern
from leafturn.base.value import Value
from leafturn.journal.entries import Entry, SheetNote
from leafturn.journal.noted import of_kind

MOST_DAYS = 10  # a sheet's week, and a few days until muddy hands come to a table; a guess

_NUMBER = pattern(r"(\d{1,2})-?([A-Za-z]{1,2})(?![A-Za-z])")


class NotOnSheet(ValueError):
    """What was typed cannot be ticked. The message is one plain sentence for the person."""


class KeptSheet(Value):
    """A sheet as the journal keeps it: its number, its day, and its jobs in the order of its lines."""

    number: str
    on: dt.date
    jobs: tuple[str, ...]


def kept_sheets(entries: Iterable[Entry]) -> tuple[KeptSheet, ...]:
    """The sheets among some notes, in the same order."""
    return tuple(
        KeptSheet(number=note.sheet, on=note.on, jobs=note.closes)
        for note in of_kind(entries, SheetNote)
        if note.sheet
    )


def number_for(
    sheets: Sequence[KeptSheet], jobs: Sequence[str], on: dt.date, beside: Collection[str] = ()
) -> str:
    """The number of a sheet with these jobs: that of the week's last sheet if it has the same too.

    Parameters
    ----------
    sheets : sequence of KeptSheet
        All that were ever written, oldest first; also those taken back, whose paper may still be about.
    jobs : sequence of str
        Ids of the jobs in the order of the lines.
    on : date
        The day of the sheet.
    beside : collection of str
        Numbers of other gardens' sheets that are printed with it, which it must not have.
    """
    ours = [s for s in sheets if _week(s.on) == _week(on)]
    if ours and ours[-1].jobs == tuple(jobs) and ours[-1].number not in beside:
        return ours[-1].number
    taken = {*(s.number for s in ours), *beside}
    n = 0
    while (number := f"{on.isocalendar().week}-{_letter(n)}") in taken:
        n += 1
    return number


def is_kept(sheets: Iterable[KeptSheet], number: str, jobs: Sequence[str], on: dt.date) -> bool:
    """Whether a sheet of this number, week and jobs is among those the journal keeps."""
    return any((s.number, s.jobs, _week(s.on)) == (number, tuple(jobs), _week(on)) for s in sheets)


def number_in(typed: str) -> str | None:
    """The number of the sheet that typed lines begin with; None where none is named."""
    found = _NUMBER.match(typed.strip())
    return f"{int(found[1])}-{found[2].upper()}" if found else None


def sheet_note(number: str, jobs: Sequence[str], on: dt.date) -> SheetNote:
    """The note by which the journal keeps a sheet."""
    return SheetNote(on=on, sheet=number, tasks=tuple(jobs))


def ticked(typed: str, sheets: Sequence[KeptSheet], on: dt.date) -> tuple[KeptSheet, tuple[int, ...]]:
    """Which lines of which sheet a person ticked.

    Parameters
    ----------
    typed : str
        Line numbers with blanks or commas between: "3 5 8". The sheet's number may stand before them.
    sheets : sequence of KeptSheet
        Those written up to the day, oldest first.
    on : date
        The day of entering.

    Returns
    -------
    sheet : KeptSheet
        Without a number the last one written.
    lines : tuple of int
        Counted from 1, each once, in the order typed.

    Raises
    ------
    NotOnSheet
        If there is no such sheet, it is more than `MOST_DAYS` old, there is no such line, or something is
        no number. Nothing is ticked then.
    """
    if not sheets:
        raise NotOnSheet("no sheet has been written yet; p writes one")
    text = typed.strip()
    sheet = sheets[-1]
    if (number := number_in(text)) is not None:
        sheet = _named(number, sheets)
        text = _NUMBER.sub("", text, count=1)
    _not_too_old(sheet, on)
    words = re.sub(r"\band\b", " ", text.replace(",", " ")).split()
    lines = [_line(word, sheet) for word in words]
    if not lines:
        raise NotOnSheet(f"type the ticked lines of sheet {sheet.number}, such as 3 5 8")
    return sheet, tuple(dict.fromkeys(lines))


def _named(number: str, sheets: Sequence[KeptSheet]) -> KeptSheet:
    known = next((s for s in reversed(sheets) if s.number == number), None)
    if known is None:
        last = sheets[-1]
        raise NotOnSheet(
            f"there is no sheet {number}; the last one is {last.number} of {day_words.day(last.on)}"
        )
    return known


def _not_too_old(sheet: KeptSheet, on: dt.date) -> None:
    """Refuse a sheet whose jobs were hardly done about today: they belong to days of their own."""
    days = (on - sheet.on).days
    if days > MOST_DAYS:
        raise NotOnSheet(
            f"sheet {sheet.number} is of {day_words.near_day(sheet.on, on)}, {days} days ago; "
            f"to enter it, first go to its day {sheet.on.isoformat()}"
        )


def _line(word: str, sheet: KeptSheet) -> int:
    if not (word.isascii() and word.isdigit()):
        raise NotOnSheet(f"{clipped(word)!r} is no line number; type them with blanks between, such as 3 5 8")
    number = int(word[:6])
    if not 1 <= number <= len(sheet.jobs):
        raise NotOnSheet(f"no line {word[:6]} on sheet {sheet.number}; {_lines_of(sheet)}")
    return number


def _lines_of(sheet: KeptSheet) -> str:
    if not sheet.jobs:
        return "it has no lines"
    return "it has only line 1" if len(sheet.jobs) == 1 else f"lines are 1 to {len(sheet.jobs)}"


def _week(day: dt.date) -> tuple[int, int]:
    return day.isocalendar()[:2]


def _letter(n: int) -> str:
    """A, B ... Z, AA, AB ... as columns of a table are lettered."""
    word = ""
    n += 1
    while n:
        n, rest = divmod(n - 1, 26)
        word = chr(ord("A") + rest) + word
    return word
