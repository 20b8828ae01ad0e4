"""The away sheet of an almanac."""

from __future__ import annotations

import datetime as dt
import re
from typing import TYPE_CHECKING

from leafturn.papers.away import Bloom, TimeAway, away_plan
from leafturn.papers.away_sheet import away_sheet
from leafturn_tui.notes.dates import date
from leafturn_tui.papers.printed import Printed, foot_of
from leafturn_tui.safe_text import safe_text

if TYPE_CHECKING:
    from collections.abc import Iterator

    from leafturn_tui.almanac_face import AlmanacFace

LONGEST = 366  # days; beyond a year no window is known


def make_away(almanac: AlmanacFace, leave: dt.date, back: dt.date, absent: tuple[str, ...]) -> Printed:
    """The away sheet.

    Parameters
    ----------
    leave, back : date
        The day of leaving and the day of return.
    absent : tuple of str
        Names of the helpers who go.
    """
    leaving, returning = almanac.at(leave), almanac.at(back)
    plan = away_plan(
        TimeAway(leave=leave, back=back, absent=absent),
        leaving.jobs(),
        returning.jobs(),
        almanac.garden.all_helpers,
        leaving.season().frost,
        tuple(_blooms(leaving)),
    )
    paper = away_sheet(plan, almanac.garden.place.name, almanac.on, safe_text)
    return Printed(paper=paper, foot=foot_of(almanac, "away sheet"), on=almanac.on)


def wrong_dates(on: dt.date, leave: dt.date, back: dt.date) -> str:
    """What is wrong with two dates, in one sentence; empty if nothing is."""
    if back <= leave:
        order = "give the day of leaving, then the day of return"
        return f"{back.isoformat()} is not after {leave.isoformat()}; {order}"
    if leave < on:
        return f"{leave.isoformat()} is before {on.isoformat()}; a time that has begun cannot be planned"
    if (back - on).days > LONGEST:
        return f"{back.isoformat()} is more than a year off; no windows are known so far ahead"
    return ""


def day_back(text: str, leave: dt.date) -> dt.date:
    """The day of return as typed; a day and month without a year is the next one after leaving.

    Raises
    ------
    NotUnderstood
        If it is no date.
    """
    day = date(text, leave)
    if day <= leave and not re.search(r"\d{4}", text):
        return date(f"{day:%d %b} {day.year + 1}", leave)
    return day


def who_goes(almanac: AlmanacFace) -> tuple[str, ...]:
    """Who is taken to go where nobody is named: the helper called steward, else the first."""
    names = [h.name for h in almanac.garden.all_helpers]
    return (next((n for n in names if n.lower() == "steward"), names[0]),)


def _blooms(almanac: AlmanacFace) -> Iterator[Bloom]:
    losses = almanac.frost_losses()
    days: dict[str, list[dt.date]] = {}
    for event in almanac.season().events:
        if event.plant in losses and event.bbch in (61, 69):
            days.setdefault(event.plant, []).extend(
                day for day in (event.observed, event.when.early, event.when.late) if day is not None
            )
    for plant, found in days.items():
        if found:
            yield Bloom(
                plant=plant, first=min(found), last=max(found), frost_chance=losses[plant].chance_of_a_tenth
            )
