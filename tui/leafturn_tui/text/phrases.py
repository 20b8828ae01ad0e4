"""Dates, chances, times and amounts in words, the same on every page and in plain text.

Dates are written out with English month names, never in the order of one country's figures.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection
from typing import TYPE_CHECKING

from leafturn.base import prose, quantities
from leafturn.base.day_words import day as day
from leafturn.base.day_words import likely as likely
from leafturn.base.day_words import long_day as long_day
from leafturn.base.day_words import stretch as stretch
from leafturn.base.prose import HARDLY_EVER, NEARLY_ALWAYS, RARE, in_ten, of_ten, of_ten_range, rarely
from leafturn.base.prose import count as count
from leafturn_tui.safe_text import safe_text

if TYPE_CHECKING:
    from leafturn.answers.frost import Frost
    from leafturn.base.date_range import Likely
    from leafturn.bloom.model import SeasonEvent
    from leafturn.tasks.model import Job
    from leafturn.tasks.week.model import Line, Round


def chance(share: float) -> str:
    """How often, of springs: "3 of 10 springs"."""
    return of_ten(share, "spring")


def works_words(year: int, share: float, on: dt.date) -> str:
    """From when a help works, and how often: "works from 2030, in 7 of 10 springs"."""
    if year == on.year:
        return f"works this spring, {in_ten(share, '')}"
    return f"works from {year}, {in_ten(share, 'spring')}"


def frost_day(when: Likely, years: float, on: dt.date) -> str:
    """When a frost comes, or how seldom: "in 2 of 10 years".

    Parameters
    ----------
    when : Likely
        This year's dates of it.
    years : float
        Share of usual years that have it at all.
    """
    return likely(when, on) if when.likely is not None else rarely(years) or likely(when, on)


def frost_rare(years: float) -> str:
    """How seldom frost comes to a place where most years have none; `years` is the share that has it."""
    return f"frost {in_ten(years)}" if 0 < years < RARE else "no frost likely"


def chance_range(low: float, high: float) -> str:
    """Two chances as "3 to 6 of 10 springs"; one alone if both read the same."""
    return of_ten_range(low, high, "spring")


def tenths(share: float, low: float, high: float) -> str:
    """A share of many with its range, "3 of 10 (1 to 6)"; "hardly any" where it rounds to nothing."""
    likely, least, most = (round(10 * s) for s in (share, low, high))
    said = f"{likely} of 10" if likely else "hardly any"
    if least == most:
        return said
    return (
        f"{said} (up to {most} of 10)" if _only_more(likely, least, most) else f"{said} ({least} to {most})"
    )


def tenths_in_table(share: float, low: float, high: float) -> str:
    """The same under a head that says "of 10": "3 (1 to 6)", "0 (up to 6)"."""
    likely, least, most = (round(10 * s) for s in (share, low, high))
    if least == most:
        return str(likely)
    return f"{likely} (up to {most})" if _only_more(likely, least, most) else f"{likely} ({least} to {most})"


def _only_more(likely: int, least: int, most: int) -> bool:
    """Whether a range tells only how many it may be at most: it may be none, and is likely fewer."""
    return not (least and likely) and likely < most


def two_figures(number: float) -> str:
    """A number with two figures and no needless zeros: 4.5, 12, 160."""
    if abs(number) < 0.05:
        return "0"
    text = f"{float(f'{number:.2g}'):.10f}".rstrip("0").rstrip(".")
    return text


def minutes(amount: float) -> str:
    """Minutes as "35 min" or "2 h 57"; "no time" for company rather than work."""
    return prose.minutes(amount) or "no time"


def hours(amount: float) -> str:
    """Hours as "2 h 57"."""
    return minutes(amount * 60)


def metres(distance: float) -> str:
    """A distance as "164 m", or "4.5 m" below ten; in feet where they are spoken."""
    if quantities.spoken() == "us":
        return quantities.metres(distance)
    return f"{two_figures(distance)} m" if abs(distance) < 10 else f"{round(distance)} m"


def celsius(degrees: float) -> str:
    """A limit of temperature as "-2.2 C", "0 C"; in Fahrenheit where that is spoken."""
    return quantities.celsius(degrees) if quantities.spoken() == "us" else f"{two_figures(degrees)} C"


def line_whose(line: Line, on: dt.date, beyond: Collection[str] = ()) -> str:
    """Who does what a line tells; for what can wait, until when."""
    if line.state == "can wait":
        until = line.jobs[0].wait_until
        return f"till {day(until, on)}" if until is not None and line.jobs[0].title not in beyond else ""
    if len(line.jobs) == 1:
        return whose(line.jobs[0], on, beyond)
    said = {whose(job, on, beyond) for job in line.jobs}
    if len(said) == 1:
        return said.pop()
    return "" if line.state in ("held", "passed") else line.who or ""


def whose(job: Job, on: dt.date, beyond: Collection[str] = ()) -> str:
    """Who does it, or why nobody does it now; `beyond` holds the titles of jobs nobody here can do."""
    if job.state == "held" and job.hold is not None:
        return f"until {day(job.hold.until, on)}" if job.hold.until else job.hold.reason
    if job.state == "passed":
        return f"next {day(job.reasons.next_open, on)}" if job.reasons.next_open else "not now"
    if job.state in ("done", "let go"):
        return ""
    if job.who is None and (job.state == "soon" or job.title in beyond):
        return f"wants {job.wants}" if job.wants else "nobody here can"
    return job.who or ""


def first_reason(job: Job) -> str:
    """The first sentence of why, and that its date is no more than a guess or a rule of thumb.

    Of a job that is done, what tells when and by whom is no guess.
    """
    return _with_basis(job, job.reasons.why[0] if job.reasons.why else "")


def reason_alike(job: Job) -> str:
    """The same as it is shared by jobs that are over alike: without what tells of this one's plant."""
    return _with_basis(job, job.reasons.over) if job.reasons.over else first_reason(job)


def _with_basis(job: Job, said: str) -> str:
    if job.state == "done":
        return said
    rests = {"guess": "A guess.", "rule of thumb": "By rule of thumb."}.get(job.basis, "")
    return " ".join(part for part in (said, rests) if part)


def hours_sum(the_round: Round) -> tuple[str, str]:
    """The week's work and the hours at hand, "59 min of work", "12 h at hand"."""
    at_hand = f"{hours(the_round.hours_available)} at hand"
    if the_round.hours_needed * 60 < 0.5:
        return "nothing now", at_hand
    return f"{hours(the_round.hours_needed)} of work", at_hand


def hours_line(the_round: Round) -> str:
    """The week's work against the hours at hand, and each helper's share."""
    return hours_lines(the_round)[0]


def hours_lines(the_round: Round) -> list[str]:
    """The same in ever fewer words."""
    if the_round.hours_needed * 60 < 0.5:
        return [f"nothing needs hands now; {hours(the_round.hours_available)} at hand"]
    said = "; ".join(hours_sum(the_round))
    loads = [load for load in the_round.helpers if load.minutes > 0]
    whole = [
        f"{safe_text(load.name)} {minutes(load.minutes)} of {hours(load.hours_available)}" for load in loads
    ]
    short = [f"{safe_text(load.name)} {minutes(load.minutes)}" for load in loads]
    return [f"{said}: {', '.join(shares)}" for shares in (whole, short) if shares] + [said]


def reach_line(the_round: Round) -> str:
    """What nobody here can do; empty where there is nothing."""
    if not the_round.beyond_reach:
        return ""
    return "beyond anyone's reach: " + ", ".join(safe_text(name) for name in the_round.beyond_reach)


def walk_line(the_round: Round) -> str:
    """The way round and its length."""
    if len(the_round.walk.stops) < 2:
        return ""
    apart = "; " if any(", " in stop for stop in the_round.walk.stops) else ", "
    stops = apart.join(safe_text(stop) for stop in the_round.walk.stops)
    return f"walk {metres(the_round.walk.metres)}: {stops}"


def ahead(days: int | None, *, short: bool = False) -> str:
    """How something stands against the usual, "9 days early", or `short` "9 d early"."""
    if days is None:
        return ""
    if days == 0:
        return "as usual"
    far = f"{abs(days)} d" if short else count(abs(days), "day")
    return f"{far} {'early' if days > 0 else 'late'}"


def next_frost(frost: Frost, on: dt.date) -> str:
    """The frost that is next: the last of spring, then the first of autumn; empty once that has come."""
    over = last_frost_over(frost, on)
    if frost.last.likely is None or (over and frost.first.likely is None):
        return frost_rare(max(frost.last_years, frost.first_years))
    if not over:
        return f"last frost {likely(frost.last, on)}, {frost_gone(frost.last_gone)}"
    come = frost.first.late is not None and frost.first.late < on
    return "" if come else f"first frost {likely(frost.first, on)}"


def last_frost_over(frost: Frost, on: dt.date) -> bool:
    """Whether the last frost of spring is as good as past: only then is the first of autumn the next."""
    late = frost.last.late or frost.last.likely
    return frost.last_gone >= NEARLY_ALWAYS or (late is not None and late < on)


def frost_gone(share: float) -> str:
    """The chance that the last frost is past, in words."""
    if share >= NEARLY_ALWAYS:
        return "last frost past"
    if share < HARDLY_EVER:
        return "still to come"
    return f"{of_ten(share)} that it is past"


def against_usual(event: SeasonEvent) -> str:
    """How an event stands against the usual year, "9 days early"."""
    return ahead(None if event.days_from_normal is None else -event.days_from_normal)


def event_day(event: SeasonEvent, on: dt.date) -> str:
    """When an event was noted, "noted 11 Apr", or else is likely."""
    return f"noted {day(event.observed, on)}" if event.observed else likely(event.when, on)
