"""The steward's own jobs, `[[job]]` in the garden file, made into rules."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterator

from leafturn.garden.model import OwnJob, Plant
from leafturn.journal.job_id import OWN_JOB
from leafturn.season.axis import SeasonAxis
from leafturn.tasks.garden_rules import BASIS, IF_SKIPPED, SOURCE
from leafturn.tasks.rule_model import Applies, Rule
from leafturn.tasks.season_model import SeasonModel
from leafturn.tasks.subjects import Subject

# Words of one's own job that tell of wounds to be made.
CUTTING = frozenset((
    "prune", "pruning", "cut", "cutting", "saw", "sawing", "lop", "limb", "limbs", "branch", "branches",
    "trim", "clip", "coppice", "pollard", "shape", "shorten",
))  # fmt: skip


def jobs_as_rules(season: SeasonModel) -> Iterator[tuple[OwnJob, Rule, Subject]]:
    """Each own job of this season as a rule with its subject; jobs dated in seasons to come are left out."""
    for job in season.day.garden.jobs:
        plant = season.day.garden.plant(job.plant) if job.plant else None
        when = opening(job, season.axis)
        if when is None:
            continue
        until = f"{job.within_days} d after {when}"
        rule = Rule(
            id=f"own:{job.id}",
            verb=OWN_JOB,
            title=job.what,
            applies=Applies(),
            open=when,
            best=until,
            close=until,
            minutes=job.minutes,
            demands=job.demands,
            holds=_holds(job, plant, season),
            because=job.why or "A job of your own, from the garden file.",
            if_skipped=IF_SKIPPED,
            too_late="still",
            basis=BASIS,
            source=SOURCE,
        )
        yield (
            job,
            rule,
            Subject(
                id=job.id or job.what.replace(" ", "-"),
                name=job.what,
                plants=(plant,) if plant else (),
                kind=season.kind(plant) if plant else None,
                point=plant.point if plant else None,
            ),
        )


def _holds(job: OwnJob, plant: Plant | None, season: SeasonModel) -> tuple[str, ...]:
    """Reasons to wait where a job cuts a plant: those of the way its kind is pruned, such as oak wilt."""
    words = set(re.findall(r"[\w-]+", job.what.lower()))
    if not words & CUTTING:
        return ()
    named = plant or next((p for p in season.day.garden.plants if p.id.lower() in words), None)
    way = season.way(named.kind, named.cultivar) if named is not None else None
    return () if way is None else tuple({hold: None for cut in way.cuts.values() for hold in cut.holds})


def is_dated(job: OwnJob) -> bool:
    """Whether a job has one day of one year, and so comes once."""
    head = job.when.partition("-")[0]
    return len(head) == 4 and head.isdigit()


def is_left_over(job: OwnJob, axis: SeasonAxis) -> bool:
    """Whether a job is dated in a season before."""
    return (
        is_dated(job) and SeasonAxis.holding(dt.date.fromisoformat(job.when), axis.southern).year < axis.year
    )


def opening(job: OwnJob, axis: SeasonAxis) -> str | None:
    """The moment an own job opens in a season; None if it is dated in one to come.

    A month and day is the steward's own calendar, also in the south.
    """
    head = job.when.partition("-")[0]
    if is_dated(job):
        date = dt.date.fromisoformat(job.when)
        return job.when if SeasonAxis.holding(date, axis.southern).year <= axis.year else None
    if head.isdigit() and len(head) == 2:
        year = axis.year + 1 if axis.southern and int(head) < 7 else axis.year
        return f"{year}-{'02-28' if job.when == '02-29' else job.when}"
    return job.when
