"""A garden lived through day by day by a steward who does what the round says, and keeps to the hours.

    lived = live(folder, dt.date(2026, 1, 1), dt.date(2026, 12, 31))
    assert not lived.flips()

Every Saturday the week's jobs are done as far as the hours go; on other days only what cannot wait for the
next one. What is noted goes through the journal on disk; bloom and harvest are noted on the days on which the
whole year's weather, known afterwards, has them.
"""

from __future__ import annotations

import calendar
import csv
import datetime as dt
import gc
import time
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from itertools import pairwise
from pathlib import Path

import numpy as np
from msgspec.structs import replace

from leafturn.almanac import Almanac
from leafturn.assembly.sources import read_sources
from leafturn.journal.entries import BloomNote, CrownNote, Done, Entry, FruitSetNote, HarvestNote
from leafturn.tasks.model import OVER, Job
from leafturn.tasks.week.model import Round
from tests.samples.jobs import job_alone

DAY = dt.timedelta(days=1)
SATURDAY = 5
STEP = {"not yet": 0, "soon": 1, "due": 2, "held": 2, "late": 2, "passed": 4, "done": 5, "let go": 5}
OPEN = ("due", "late", "held")
LOOKED_THROUGH_EVERY = 20  # days looked at


@dataclass(frozen=True)
class Flip:
    """A job that went backwards, without a note that could have moved it."""

    job: str
    on: dt.date
    before: str
    after: str


def _is_explained(before: Job, after: Job) -> bool:
    """Whether a job went back to a later time of its own, or was put off, and says so.

    Of two windows of one cut the second comes when the first has closed; rain puts a watering off, and so may
    the usual rain where none is noted: in some of the years that might be it has fallen.
    """
    closed, opens = before.close.likely, after.open.likely
    if closed is not None and opens is not None and opens > closed and after.state != "soon":
        return True
    ahead = after.verb == "water" and after.state in ("soon", "not yet")
    usual_rain = any("usual rain is reckoned with" in why for why in after.why)
    return ahead and (before.state == "soon" or "Rain has put it off" in after.why[0] or usual_rain)


def _hangs_on_a_night(job: Job) -> bool:
    """Whether a job stands only while a cold night threatens: covers are readied, used and put away again."""
    return job.verb == "cover"


@dataclass
class Lived:
    """What was seen: every job's states by day, every day's round, and what was done.

    Parameters
    ----------
    seen : mapping of job id to (date, job), oldest first
    rounds : mapping of date to Round
    done : list of (date, Job)
    minutes : mapping of the week's Monday to minutes worked
    notes : days on which something was noted of a plant
    said : what was found by looking at each day's almanac
    """

    seen: dict[str, list[tuple[dt.date, Job]]] = field(default_factory=lambda: defaultdict(list))
    rounds: dict[dt.date, Round] = field(default_factory=dict)
    done: list[tuple[dt.date, Job]] = field(default_factory=list)
    minutes: dict[dt.date, float] = field(default_factory=lambda: defaultdict(float))
    notes: dict[dt.date, set[str]] = field(default_factory=lambda: defaultdict(set))
    said: list[str] = field(default_factory=list)
    seconds: list[float] = field(default_factory=list)

    def flips(self) -> list[Flip]:
        """Jobs that went back to an earlier state though nothing had been noted."""
        return [
            Flip(job_id, after[0], before[1].state, after[1].state)
            for job_id, days in self.seen.items()
            for before, after in pairwise(days)
            if STEP[after[1].state] < STEP[before[1].state]
            and not self._noted(before[0], after[1])
            and not _is_explained(before[1], after[1])
            and not (before[1].state == "soon" and self._taught(before[0]))
            and not _hangs_on_a_night(after[1])
        ]

    def _noted(self, on: dt.date, job: Job) -> bool:
        """Whether something was noted that day of what the job is about."""
        return not {job.plant, *job.plants}.isdisjoint(self.notes.get(on, set()))

    def _taught(self, on: dt.date) -> bool:
        """Whether a bloom was noted that day: it teaches of the whole spring, and what is to come moves."""
        return any(day == on and job.verb == "note bloom" for day, job in self.done)

    def lost(self) -> list[tuple[str, dt.date, str]]:
        """Jobs once shown that went within their time without an end: id, last day and last state.

        What hangs on a cold night goes when none threatens any more. A job that was done is not lost if what
        was noted beside it leaves no cause for it.
        """
        next_look = dict(pairwise(sorted(self.rounds)))
        done = {job.id for _, job in self.done}
        return [
            (job_id, days[-1][0], days[-1][1].state)
            for job_id, days in self.seen.items()
            if days[-1][0] in next_look
            and (days[-1][1].close.likely or dt.date.max) >= next_look[days[-1][0]]
            and job_id not in done
            and days[-1][1].state not in OVER
            and not _hangs_on_a_night(days[-1][1])
            and any(job.state in ("soon", *OPEN) for _, job in days)
        ]

    def gaps(self) -> list[tuple[str, dt.date, dt.date]]:
        """Jobs that were shown, gone for some days and came back: id, last day before, first day after."""
        next_look = dict(pairwise(sorted(self.rounds)))
        return [
            (job_id, before[0], after[0])
            for job_id, days in self.seen.items()
            for before, after in pairwise(days)
            if after[0] > next_look[before[0]]
            and before[1].state != "not yet"
            and not _hangs_on_a_night(before[1])
        ]

    def repeated(self) -> list[tuple[str, dt.date]]:
        """Jobs that were done and stood open again under the same id."""
        return [
            (job_id, after[0])
            for job_id, days in self.seen.items()
            for before, after in pairwise(days)
            if before[1].state == "done" and after[1].state not in OVER
        ]

    def born_late(self) -> list[tuple[str, dt.date, str]]:
        """Jobs that were late or over when the round first had them, though they opened a look before."""
        first_day, looks = min(self.rounds), sorted(self.rounds)
        look_before = dict(zip(looks[1:], looks, strict=False))
        born: dict[str, tuple[dt.date, str]] = {}
        for on, the_round in self.rounds.items():
            for job in (*the_round.jobs, *the_round.waiting):
                born.setdefault(job.id, (on, job.state))
        return [
            (job_id, on, state)
            for job_id, (on, state) in born.items()
            if on > first_day
            and state in ("late", "passed")
            and self.seen[job_id][0][0] == on
            and (self.seen[job_id][0][1].open.likely or dt.date.min) <= look_before[on]
        ]

    def unexplained(self) -> list[tuple[str, dt.date]]:
        """Windows that closed without a sentence that says so."""
        return [
            (job_id, on)
            for job_id, days in self.seen.items()
            for on, job in days
            if job.state == "passed" and not (job.why and job.why[0].endswith("."))
        ]


def live(
    folder: Path,
    first: dt.date,
    last: dt.date,
    *,
    work: bool = True,
    every: int = 1,
    look: Callable[[Almanac], Iterable[str]] | None = None,
) -> Lived:
    """Live in a garden from one day to another.

    Parameters
    ----------
    folder : Path
        A copy of a garden: notes are written into its journal.
    work : bool
        Whether anything is done at all, or the steward only looks.
    every : int
        Days from one look to the next.
    look : callable or None
        What is to be found in each day's almanac, in sentences.
    """
    sources = read_sources(folder)
    whole = Almanac(sources, last)
    truth = {
        plant: {
            "first open": whole.axis.date(float(np.median(forecast.first_open))),
            "petal fall": whole.axis.date(float(np.median(forecast.end))),
        }
        for plant, forecast in whole.forecasts.items()
        if np.isfinite(np.median(forecast.first_open))
    }
    lived = Lived()
    on = first
    while on <= last:
        began = time.perf_counter()
        almanac = Almanac(sources, on)
        the_round = almanac.round()
        lived.seconds.append(time.perf_counter() - began)
        lived.rounds[on] = _round_alone(the_round)
        for job in almanac.jobs():
            lived.seen[job.id].append((on, _job_alone(job)))
        lived.said += [f"{on}: {found}" for found in (look(almanac) if look else ())]
        if work:
            entries = list(_worked(the_round, on, lived, truth))
            if entries:
                sources.store.append_many(entries, on)
                sources = replace(sources, journal=sources.store.read())
        on += DAY * every
        if len(lived.seconds) % LOOKED_THROUGH_EVERY == 0:
            gc.collect()  # seasons hold each other, and Python counts them, not the arrays in them
    return lived


def _job_alone(job: Job) -> Job:
    """A job without its season, with its sentences where they are looked at afterwards."""
    return job_alone(job, told=job.state == "passed" or job.verb == "water")


def _round_alone(the_round: Round) -> Round:
    """The same for all jobs of a round."""

    def alone(jobs: Iterable[Job]) -> tuple[Job, ...]:
        return tuple(map(_job_alone, jobs))

    lines = (
        replace(line, jobs=alone(line.jobs), dearest=_job_alone(line.dearest)) for line in the_round.lines
    )
    return replace(
        the_round, jobs=alone(the_round.jobs), waiting=alone(the_round.waiting), lines=tuple(lines)
    )


def _worked(
    the_round: Round, on: dt.date, lived: Lived, truth: dict[str, dict[str, dt.date]]
) -> Iterator[Entry]:
    """The notes of a day's work; the round says how many hours of the week are left."""
    worked = 0.0
    monday = on - DAY * on.weekday()
    saturday = monday + DAY * SATURDAY
    jobs = sorted((j for j in the_round.jobs if j.state in ("due", "late")), key=lambda j: -j.cost_of_delay)
    for job in jobs:
        closes = job.close.likely
        waits = on != saturday and (closes is None or closes >= saturday + DAY * 7 * (on > saturday))
        if waits or worked + job.minutes > the_round.hours_available * 60:
            continue
        entries = list(_notes_of(job, on, truth))
        if entries:
            worked += job.minutes
            lived.minutes[monday] += job.minutes
            lived.done.append((on, _job_alone(job)))
            lived.notes[on].update({job.plant, *job.plants})
            yield from entries


def _notes_of(job: Job, on: dt.date, truth: dict[str, dict[str, dt.date]]) -> Iterator[Entry]:
    """What a steward notes once a job is done; nothing where there was nothing to see yet."""
    match job.verb:
        case "note bloom":
            for plant in job.plants:
                opened = truth.get(plant, {}).get("first open", dt.date.max)
                if opened <= on:
                    yield BloomNote(on=opened, plant=plant, stage="first open", by="steward")
        case "pick":
            for plant in job.plants or (job.plant,):
                yield HarvestNote(on=on, plant=plant, amount="a basket", by="steward")
        case "note set":
            for plant in job.plants:
                yield FruitSetNote(on=on, plant=plant, set="fair", by="steward")
        case "look at crown":
            yield CrownNote(on=on, plant=job.plant, live_percent=30, by="steward")
        case _:
            yield Done(on=on, task=job.id, minutes=job.minutes or None, by="steward")


def with_weather_like(folder: Path, year: int, like: int) -> None:
    """Write another year's weather into a garden's record as that of a year to come, after what is there."""
    file = folder / "weather.csv"
    lines = file.read_text(encoding="utf-8").splitlines()
    rows = [row for row in csv.reader(lines) if row and row[0][:1].isdigit()]
    known = {row[0] for row in rows}
    for row in rows:
        if row[0].startswith(str(like)):
            day = f"{year}{row[0][4:]}"
            if day not in known and (calendar.isleap(year) or not day.endswith("-02-29")):
                lines.append(",".join([day, *row[1:]]))
    file.write_text("\n".join(lines) + "\n", encoding="utf-8")
