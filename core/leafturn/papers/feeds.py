"""What stands in the calendar files: each helper's jobs, and expected bloom."""

from __future__ import annotations

import datetime as dt
import uuid
from collections.abc import Iterable, Iterator, Sequence

from leafturn.base import day_words, prose
from leafturn.base.bloom_stages import FIRST_OPEN
from leafturn.base.value import Value
from leafturn.bloom.model import SeasonEvent
from leafturn.garden.model import STEWARD, Helper
from leafturn.garden.reading.names import plain_id
from leafturn.papers.calendar import Event
from leafturn.papers.page_layout import Clean
from leafturn.papers.words import names
from leafturn.tasks.model import OPEN, Job
from leafturn.tasks.week.labour import day_for, helpers_for

WANTED = "wants other hands"  # the feed of what nobody here can do


class Feed(Value):
    """One calendar file: its name without ending, what it is called, and its events by day."""

    file: str
    name: str
    events: tuple[Event, ...]


def job_feeds(
    jobs: Iterable[Job], helpers: Sequence[Helper], garden: str, on: dt.date, clean: Clean = str
) -> tuple[Feed, ...]:
    """One feed for each helper with the open jobs that fall, or likely fall, to them.

    Each job stands on the day it is best done by, or on the last before it on which its helpers come. A job
    for two stands in both feeds. What nobody here can do stands in a feed of its own, if there is any.

    Parameters
    ----------
    jobs : iterable of Job
        Of the round for those of the week, as the round says whom they fall to; else of the season.
    helpers : sequence of Helper
        Empty means the steward alone.
    garden : str
        What tells this garden's events from another's.
    on : date
    clean : callable
        Every string passes it.
    """
    helpers_here = tuple(helpers or (STEWARD,))
    dealt: dict[str, list[Event]] = {h.name: [] for h in helpers_here}
    for job in jobs:
        if job.state in OPEN and job.best.likely is not None:
            who = helpers_for(job, helpers_here, on)
            team = [h for h in helpers_here if h.name in who]
            day = (day_for(team, job, on) if any(h.days for h in team) else None) or job.best.likely
            event = _job_event(job, who, day, garden, on, clean)
            for name in [h.name for h in team] or [WANTED]:
                dealt.setdefault(name, []).append(event)
    files = _file_names(tuple(dealt))
    return tuple(
        Feed(file=files[name], name=clean(f"{garden}: {name}"), events=tuple(_by_day(events)))
        for name, events in dealt.items()
    )


def bloom_feed(events: Iterable[SeasonEvent], garden: str, on: dt.date, clean: Clean = str) -> Feed:
    """The first open flowers of every plant, on the day seen or else the likeliest day.

    Parameters
    ----------
    events : iterable of SeasonEvent
        Of a season.
    garden : str
        What tells this garden's events from another's.
    on : date
    clean : callable
        Every string passes it.
    """
    found = list(events)
    rest: dict[str, list[SeasonEvent]] = {}
    for event in found:
        rest.setdefault(event.plant, []).append(event)
    made = [
        _bloom_event(event, rest[event.plant], day, garden, on, clean)
        for event in found
        if event.bbch == FIRST_OPEN.bbch and (day := event.observed or event.when.likely) is not None
    ]
    return Feed(file="bloom", name=clean(f"{garden}: bloom"), events=tuple(_by_day(made)))


def uid_of(garden: str, thing: str) -> str:
    """An id that is the same from file to file and differs between gardens (RFC 7986, 5.3: a UUID)."""
    return str(uuid.uuid5(uuid.NAMESPACE_URL, f"leafturn:{garden}:{thing}"))


def _job_event(job: Job, who: Sequence[str], day: dt.date, garden: str, on: dt.date, clean: Clean) -> Event:
    opens, ends = day_words.likely(job.open), day_words.about(job.close)
    took = prose.minutes(job.minutes)
    lines = [
        f"From {opens}, best by {day_words.day(job.best.likely)}, ends {ends}.",
        f"Why: {job.reasons.cause}" if job.reasons.cause else "",
        job.places,
        f"Held: {job.hold.reason}." if job.state == "held" and job.hold is not None else "",
        f"{names(who)}{f', {took}' if took else ''}." if who else _nobody(job),
        *job.cautions,
        f"As foreseen on {day_words.full_day(on)}. Basis: {job.basis}.",
    ]
    return Event(
        uid=uid_of(garden, job.id),
        on=day,
        title=clean(job.title),
        description="\n".join(clean(line) for line in lines if line),
        place=clean(job.where),
    )


def _nobody(job: Job) -> str:
    """That nobody here can do it, and who is missing."""
    return (
        f"Nobody here can do it: it wants {job.wants}."
        if job.wants
        else "Nobody here can do it: ask for help."
    )


def _bloom_event(
    first: SeasonEvent,
    all_of_plant: Sequence[SeasonEvent],
    day: dt.date,
    garden: str,
    on: dt.date,
    clean: Clean,
) -> Event:
    seen = first.observed is not None
    lines = [
        f"First flowers seen on {day_words.day(day)}."
        if seen
        else f"First flowers {day_words.about(first.when)}.",
        *(
            f"{e.event.capitalize()} {day_words.day(e.observed) if e.observed else day_words.about(e.when)}."
            for e in all_of_plant
            if e.bbch in (65, 69)
        ),
        f"Basis: {first.basis}.",
    ]
    expected = "may open" if day >= on else "may have opened"
    title = f"{first.plant} {'opened' if seen else expected}"
    return Event(
        uid=uid_of(garden, f"{first.plant}:first-open:{_season_of(all_of_plant, day)}"),
        on=day,
        title=clean(title),
        description="\n".join(clean(line) for line in lines),
    )


def _season_of(events: Sequence[SeasonEvent], day: dt.date) -> int:
    """The year of a plant's full bloom: it names the season also where flowers open before New Year."""
    full = next((e.observed or e.when.likely for e in events if e.bbch == 65), None)
    return (full or day).year


def _by_day(events: Iterable[Event]) -> list[Event]:
    return sorted(events, key=lambda e: (e.on, e.uid))


def _file_names(called: Sequence[str]) -> dict[str, str]:
    """A file name for each helper: letters, digits and hyphens, none twice and none too long."""
    found: dict[str, str] = {}
    for name in called:
        word = plain_id(name).encode("ascii", errors="ignore").decode().strip("-")[:40] or "helper"
        candidates: Iterator[str] = (
            f"jobs-{word}{f'-{n}' if n > 1 else ''}" for n in range(1, len(called) + 2)
        )
        found[name] = next(c for c in candidates if c not in found.values())
    return found
