"""Words that several papers share."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from leafturn.answers.season import Heading
from leafturn.base import day_words, prose
from leafturn.tasks.model import Job


def names(said: Sequence[str]) -> str:
    """Several names as "a, b and c"; "anyone" for none."""
    return prose.joined(said) if said else "anyone"


def wanting(job: Job) -> str:
    """Who is missing here to do a job; empty if nobody is."""
    return f"wants {job.wants}" if job.wants else ""


def window_word(job: Job, on: dt.date) -> str:
    """When to do a job of the week, short: "Today", "From 23 Apr", "Late 3 days", "Best by 21 Apr"."""
    opens, best, closes = job.open.likely, job.best.likely, job.close.likely
    if job.reasons.tonight is not None and on in (best, closes):
        return ""  # "Today: Tonight may fall to -3 C" would say the day twice
    if closes == on:
        return "Today"
    if job.state == "late" and job.days_late > 0:
        return f"Late {prose.count(job.days_late, 'day')}"
    if opens is not None and opens > on:
        return f"From {day_words.near_day(opens, on)}" + (
            f" to {day_words.near_day(closes, on)}" if closes else ""
        )
    if best is not None and best >= on:
        return f"Best by {day_words.near_day(best, on)}" if best != on else "Best today"
    return f"Before {day_words.near_day(closes, on)}" if closes else ""


def season_words(heading: Heading) -> str:
    """How the season stands, in one sentence."""
    days, last = heading.heat.days_ahead, heading.frost.last
    pace = "" if days is None else "The season is as usual; "
    if days:
        pace = f"The season is {prose.count(abs(days), 'day')} {'early' if days > 0 else 'late'}; "
    if last.likely is None:
        years = max(heading.frost.last_years, heading.frost.first_years)
        rare = prose.rarely(years) if years > 0 else ""
        frost = f"frost comes here {rare}" if rare else "no frost is likely"
    elif heading.frost.last_gone >= prose.NEARLY_ALWAYS:
        frost = "the last frost is past"
    else:
        frost = f"last frost {day_words.about(last, heading.on)}"
    said = f"{pace}{frost}."
    return prose.capital(said)
