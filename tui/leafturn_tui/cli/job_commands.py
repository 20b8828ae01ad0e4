"""The commands about jobs, named as people name them: `leafturn done`, `let-go` and `put-off`."""

from __future__ import annotations

import argparse
import datetime as dt
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Any

from leafturn.base import prose
from leafturn.base.faults import clipped, did_you_mean
from leafturn.base.told_times import span_told
from leafturn.journal.entries import Done, LetGo, OfJobs, PutOff
from leafturn.papers.sheet_numbers import NotOnSheet, number_in, ticked
from leafturn_tui.cli.arguments import Parser, day_of, parser_for, split_named
from leafturn_tui.cli.notes import keep
from leafturn_tui.cli.opening import open_garden
from leafturn_tui.cli.statuses import FINE
from leafturn_tui.notes import job_notes
from leafturn_tui.notes.job_notes import CLOSED
from leafturn_tui.papers.week import sheets
from leafturn_tui.safe_text import safe_text
from leafturn_tui.text import phrases

if TYPE_CHECKING:
    from leafturn.tasks.model import Job
    from leafturn_tui.almanac_face import AlmanacFace

NAMED = (
    'JOB is what the round says, or some of its words, in any order: "turn bay-2", "bay-2 turn". '
    "Numbers are lines of the last sheet. Several jobs may be given."
)
OTHER_WORK = "leafturn round tells the jobs; leafturn note keeps other work in your words"
TOO_SOON_DAYS = 45  # guess: who does a job so many days before it is due has hardly meant another
MOST_TOLD = 5  # jobs that are listed where several are meant


def done(words: list[str], today: dt.date) -> int:
    """`leafturn done [GARDEN] JOB ...`."""
    parser = _parser("done", "Note jobs as done.", "[--by WHO] [--minutes N]")
    parser.add_argument("--by", metavar="WHO", help="who did it")
    parser.add_argument("--minutes", type=_minutes, metavar="N", help="how long it took, all together")
    given, almanac, jobs = _asked(parser, words, today)
    open_jobs = _without(("done",), jobs)
    if not open_jobs:
        return FINE
    entry = job_notes.about(almanac, open_jobs, Done, by=given.by, minutes=given.minutes)
    return keep(almanac, entry, today, question=_too_soon(open_jobs, almanac.on)).status


def _without(states: Iterable[str], jobs: Sequence[Job]) -> list[Job]:
    """The jobs that are in none of these states; of the others it is said that nothing was noted."""
    for job in (one for one in jobs if one.state in states):
        print(safe_text(f"{job.title}: {job.state} already; nothing was noted."))
    return [job for job in jobs if job.state not in states]


def _too_soon(jobs: Sequence[Job], on: dt.date) -> str | None:
    """A question where a job that is said to be done is one of months still to come; else None."""

    def is_far_off(job: Job) -> bool:
        likely = job.open.likely
        return job.state == "not yet" and (likely is None or (likely - on).days > TOO_SOON_DAYS)

    job = next(filter(is_far_off, jobs), None)
    if job is None:
        return None
    until = f"before about {phrases.day(job.open.likely, on)}" if job.open.likely else "now"
    return f"{prose.capital(job.title)}: it is not due {until}. Was it done on {phrases.day(on, on)}?"


def let_go(words: list[str], today: dt.date) -> int:
    """`leafturn let-go [GARDEN] JOB ...`."""
    parser = _parser(
        "let-go", "Let jobs go this time: they come again with their next season.", "[--why WORDS]"
    )
    parser.add_argument("--why", metavar="WORDS", help="why, in a word: heat")
    given, almanac, jobs = _asked(parser, words, today)
    return _keep(almanac, _without(CLOSED, jobs), today, LetGo, text=given.why)


def put_off(words: list[str], today: dt.date) -> int:
    """`leafturn put-off [GARDEN] JOB ... --until DATE`."""
    parser = _parser("put-off", "Put jobs off until a day.", "--until DATE")
    parser.add_argument("--until", metavar="DATE", required=True, help="the day, as 2027-05-01, 1 May or +7")
    given, almanac, jobs = _asked(parser, words, today)
    until = day_of(given.until, parser, almanac.on)
    if until <= almanac.on:
        parser.error(f"{phrases.long_day(until)} is not after {phrases.long_day(almanac.on)}")
    return _keep(almanac, _without(CLOSED, jobs), today, PutOff, until=until)


def _parser(command: str, about: str, more: str) -> Parser:
    parser = parser_for(command, f"{about}\n\n{NAMED}", garden=False)
    parser.usage = f"leafturn {command} [GARDEN] JOB ... [--on DATE] {more}"
    parser.add_argument("words", nargs="+", metavar="JOB", help="the garden (default: here), then the jobs")
    return parser


def _asked(
    parser: Parser, words: list[str], today: dt.date
) -> tuple[argparse.Namespace, AlmanacFace, list[Job]]:
    """What was given, the garden, and the jobs that are meant."""
    given = parser.parse_intermixed_args(words)
    garden, rest = split_named(given.words, parser)
    almanac = open_garden(garden, day_of(given.on, parser, today))
    return given, almanac, _meant(almanac, rest, parser)


def _keep(almanac: AlmanacFace, jobs: Sequence[Job], today: dt.date, kind: type[OfJobs], **more: Any) -> int:
    return keep(almanac, job_notes.about(almanac, jobs, kind, **more), today).status if jobs else FINE


def _meant(almanac: AlmanacFace, words: Sequence[str], parser: Parser) -> list[Job]:
    """The jobs that words name: lines of a sheet, one job in several words, or one job a word."""
    if number_in(words[0]) or all(word.isdigit() for word in words):
        return _of_sheet(almanac, words, parser)
    together = almanac.jobs_meant(" ".join(words))
    if len(words) > 1 and len(together) != 1:
        apart = [almanac.jobs_meant(word) for word in words]
        if all(len(found) == 1 for found in apart):
            return [found[0] for found in apart]
        if not together:
            missed = next(n for n, found in enumerate(apart) if len(found) != 1)
            return [_one(apart[missed], words[missed], almanac, parser)]
    return [_one(together, " ".join(words), almanac, parser)]


def _one(found: Sequence[Job], typed: str, almanac: AlmanacFace, parser: Parser) -> Job:
    if not found:
        near = did_you_mean(typed, [job.title for job in almanac.jobs()])
        parser.error(f"there is no job {clipped(typed)!r} this season. {near or OTHER_WORK}")
    if len(found) > 1:
        titles = list(dict.fromkeys(job.title for job in found))
        more = f"; and {len(titles) - MOST_TOLD} more" if len(titles) > MOST_TOLD else ""
        parser.error(f"which job is meant by {clipped(typed)!r}: {'; '.join(titles[:MOST_TOLD])}{more}?")
    return found[0]


def _of_sheet(almanac: AlmanacFace, words: Sequence[str], parser: Parser) -> list[Job]:
    try:
        sheet, lines = ticked(" ".join(words), sheets(almanac), almanac.on)
    except NotOnSheet as why:
        parser.error(str(why))
    jobs = {job.id: job for job in almanac.jobs()}
    gone = next((line for line in lines if sheet.jobs[line - 1] not in jobs), None)
    if gone is not None:
        parser.error(f"line {gone} of sheet {sheet.number} is no job of this season any more")
    return [jobs[sheet.jobs[line - 1]] for line in lines]


def _minutes(text: str) -> float:
    told = span_told(text, bare="min")
    number = -1.0 if told is None or told.before or told.after else told.minutes
    if not 0 <= number <= 10_000:
        raise argparse.ArgumentTypeError(f"{clipped(text)!r} is no number of minutes; write 35")
    return number
