"""The week sheet: made, numbered, kept in the journal; and its ticks entered afterwards."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Iterator, Sequence
from typing import TYPE_CHECKING

import msgspec

from leafturn.base.faults import Unreadable
from leafturn.base.value import Value
from leafturn.journal.entries import Done, Entry
from leafturn.papers.sheet_numbers import (
    KeptSheet,
    NotOnSheet,
    is_kept,
    kept_sheets,
    number_for,
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
    almanac: AlmanacFace, today: dt.date, beside: Collection[str] = ()
) -> tuple[AlmanacFace, WeekSheet]:
    """The sheet of the almanac's week, kept in the journal under its number, which is written today.

    `beside` holds numbers of other gardens' sheets, printed with it, that it must not have.

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
        return almanac, week_sheet(occasion, almanac.round(), on, None, safe_text)
    made = week_sheet(occasion, almanac.round(), on, numbering, safe_text)
    if not made.number or is_kept(sheets(almanac), made.number, made.jobs, on):
        return almanac, made
    try:
        noted, _ = almanac.note(sheet_note(made.number, made.jobs, on), today)
    except (OSError, Unreadable):
        return almanac, week_sheet(occasion, almanac.round(), on, None, safe_text)
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
    """The notes for the ticked lines of a sheet, as "53-AA 1 3", or "53-AA 1 3 by Ann 90".

    Minutes are shared out over the jobs as they were reckoned to take.

    Raises
    ------
    NotUnderstood
        With one plain sentence, if any of it cannot be ticked; then nothing of it is.
    """
    typed, _, hands = typed.partition(" by ")
    by, minutes = job_notes.who_and_minutes(hands)
    try:
        sheet, lines = ticked(typed, sheets(almanac), almanac.on)
    except NotOnSheet as why:
        raise NotUnderstood(str(why)) from None
    entries: list[Entry] = []
    done: list[str] = []
    already: list[str] = []
    seen: list[str] = []
    for line in lines:
        job_id = sheet.jobs[line - 1]
        job = almanac.job(job_id)
        if job is not None and job.id == job_id and job.state == "done":
            already.append(f"{line} {job.title}")
        elif job is not None and job.id == job_id:
            entries.append(job_notes.done(almanac, job, by, job.minutes))
            done.append(f"{line} {job.title}")
            if job.counts_as == "note":
                seen.append(str(line))
        else:
            # Not among the season's jobs any more (its plant was renamed, say), yet done all the same.
            entries.append(Done(on=almanac.on, task=job_id, by=by))
            done.append(f"{line} {job_id}")
    said = [f"done: {', '.join(done)}"] if done else []
    if already:
        said.append(f"noted before: {', '.join(already)}")
    if seen:
        said.append(f"what was seen ({names(seen)}) is still to be noted, with b or n")
    if entries and sheet.on.isocalendar()[:2] != almanac.on.isocalendar()[:2]:
        said.append(f"noted on {day(almanac.on)}, though the sheet is of {day(sheet.on)}")
    return Ticks(
        entries=tuple(_shared_out(entries, minutes)), said=f"sheet {sheet.number}: {'; '.join(said)}"
    )


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
