"""The week sheet: made, numbered, kept in the journal; and its ticks entered afterwards."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import msgspec

from leafturn.base.faults import Unreadable
from leafturn.base.value import Value
from leafturn.journal.entries import Done, Entry
from leafturn.papers.page_layout import LENGTH
from leafturn.papers.sheet_numbers import (
    KeptSheet,
    NotOnSheet,
    is_kept,
    kept_sheets,
    number_for,
    number_in,
    sheet_note,
    ticked,
)
from leafturn.papers.week_sheet import Occasion, WeekSheet, week_sheet
from leafturn.papers.words import names, season_words
from leafturn_tui.notes import NotUnderstood, job_notes
from leafturn_tui.papers.printed import Printed, foot_of
from leafturn_tui.safe_text import safe_text
from leafturn_tui.text.phrases import day

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace


def sheets(almanac: AlmanacFace, *, with_taken_back: bool = False) -> tuple[KeptSheet, ...]:
    """The sheets written up to the day, oldest first."""
    lines = reversed(almanac.book())
    return kept_sheets(line.entry for line in lines if with_taken_back or not line.taken_back)


def make_sheet(
    almanac: AlmanacFace, today: dt.date, beside: Collection[str] = (), most: int = LENGTH
) -> tuple[AlmanacFace, WeekSheet]:
    """The sheet of the almanac's week, kept in the journal under its number, which is written today.

    `beside` holds numbers of other gardens' sheets, printed with it, that it must not have; `most`
    is how many lines it may take.

    Where the journal cannot be written the sheet has no number, as its lines could not be found again.
    A sheet that is the same as the week's last keeps that one's number, and nothing is noted.
    """
    on = almanac.on
    written = sheets(almanac, with_taken_back=True)

    def numbering(jobs: Sequence[str]) -> str:
        return number_for(written, jobs, on, beside) if jobs else ""

    occasion = Occasion(
        place=almanac.garden.place.name,
        season=season_words(almanac.heading()),
        helpers=almanac.garden.all_helpers,
    )

    if almanac.read_only:
        return almanac, week_sheet(occasion, almanac.round(), on, None, safe_text, most)
    made = week_sheet(occasion, almanac.round(), on, numbering, safe_text, most)
    if not made.number or is_kept(sheets(almanac), made.number, made.jobs, on):
        return almanac, made
    try:
        noted, _ = almanac.note(sheet_note(made.number, made.jobs, on), today)
    except (OSError, Unreadable):
        return almanac, week_sheet(occasion, almanac.round(), on, None, safe_text, most)
    return noted, made


def printed(almanac: AlmanacFace, made: WeekSheet) -> Printed:
    """A sheet as a paper of one page."""
    what = f"week sheet {made.number}" if made.number else "week sheet"
    return Printed(paper=made.paper, foot=foot_of(almanac, what), on=almanac.on, one_page=True)


class Ticks(Value):
    """What typed line numbers come to: the notes to write, and what is to be said."""

    entries: tuple[Entry, ...]
    said: str


def ticks(almanac: AlmanacFace, typed: str) -> Ticks:
    """The notes for the ticked lines of a sheet: "53-AA 1 3", "53-AA 1 3 by Ann 90", "1 by Ann; 3 by Ben 20".

    Minutes of several lines are shared out over the jobs as they were reckoned to take.

    Raises
    ------
    NotUnderstood
        With one plain sentence, if any of it cannot be ticked; then nothing of it is.
    """
    sheet, parts = _parts(almanac, typed)
    told = _Told()
    entries: list[Entry] = []
    for part in parts:
        notes = [_note(almanac, sheet, line, part.by, told) for line in part.lines]
        entries += _shared_out([note for note in notes if note is not None], part.minutes)
    said = [f"done: {', '.join(told.done)}"] if told.done else []
    if told.already:
        said.append(f"noted before: {', '.join(told.already)}")
    if told.seen:
        said.append(f"what was seen ({names(told.seen)}) is still to be noted, with b or n")
    if entries and sheet.on.isocalendar()[:2] != almanac.on.isocalendar()[:2]:
        said.append(f"noted on {day(almanac.on)}, though the sheet is of {day(sheet.on)}")
    return Ticks(entries=tuple(entries), said=f"sheet {sheet.number}: {'; '.join(said)}")


class _Part(Value):
    """Lines of a sheet that the same people did in so many minutes together."""

    lines: tuple[int, ...]
    by: str | None
    minutes: float | None


@dataclass
class _Told:
    """What becomes of the lines, in words."""

    done: list[str] = field(default_factory=list)
    already: list[str] = field(default_factory=list)
    seen: list[str] = field(default_factory=list)


def _parts(almanac: AlmanacFace, typed: str) -> tuple[KeptSheet, list[_Part]]:
    """The sheet, and its lines by who did them, parted by semicolons; its number stands before the first."""
    known = sheets(almanac)
    number = number_in(typed)
    parts: list[_Part] = []
    taken: set[int] = set()
    for n, words in enumerate(typed.split(";")):
        lines_typed, _, hands = words.partition(" by ")
        by, minutes = job_notes.who_and_minutes(hands)
        if n and number is not None:
            lines_typed = f"{number} {lines_typed}"
        try:
            sheet, lines = ticked(lines_typed, known, almanac.on)
        except NotOnSheet as why:
            raise NotUnderstood(str(why)) from None
        for line in lines:
            if line in taken:
                raise NotUnderstood(f"line {line} stands there twice; say once who did it")
            taken.add(line)
        parts.append(_Part(lines=lines, by=by, minutes=minutes))
    return sheet, parts


def _note(almanac: AlmanacFace, sheet: KeptSheet, line: int, by: str | None, told: _Told) -> Entry | None:
    """The note of one ticked line; none where it was noted before."""
    job_id = sheet.jobs[line - 1]
    job = almanac.job(job_id)
    if job is None or job.id != job_id:
        # Not among the season's jobs any more (its plant was renamed, say), yet done all the same.
        told.done.append(f"{line} {job_id}")
        return Done(on=almanac.on, task=job_id, by=by)
    if job.state == "done":
        told.already.append(f"{line} {job.title}")
        return None
    told.done.append(f"{line} {job.title}")
    if job.counts_as == "note":
        told.seen.append(str(line))
    return job_notes.about(almanac, [job], Done, by=by, minutes=job.minutes)


def _shared_out(entries: Sequence[Entry], minutes: float | None) -> Iterator[Entry]:
    """Notes with the minutes that were typed, in the shares that each was reckoned to take."""
    reckoned = sum(e.minutes or 0.0 for e in entries if isinstance(e, Done))
    for entry in entries:
        if not isinstance(entry, Done):
            yield entry
            continue
        took = None
        if minutes is not None:
            took = minutes * (entry.minutes or 0.0) / reckoned if reckoned else minutes / len(entries)
        yield msgspec.structs.replace(entry, minutes=took)
