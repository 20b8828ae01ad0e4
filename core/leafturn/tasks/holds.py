"""Reasons to wait: nests, wet bark, hard frost, rising sap."""

from __future__ import annotations

import datetime as dt
import math

from leafturn.garden.regions import proper_name, region_named
from leafturn.tasks.model import Hold
from leafturn.tasks.rule_model import HoldRule, Rule, RuleBook
from leafturn.tasks.season_model import SeasonModel
from leafturn.tasks.subjects import Subject
from leafturn.tasks.timing.phrases import read_moment
from leafturn.tasks.timing.resolve import resolve

DAYS_A_YEAR = 365
ASKS = (
    'No region is written down, so the usual dates are kept meanwhile: region = "germany" (or yours, or '
    '"elsewhere") under [place] settles it.'
)


def hold_on(rule: Rule, book: RuleBook, subject: Subject, season: SeasonModel) -> Hold | None:
    """The hold in force today that ends last, or None."""
    active = [h for name in rule.holds if (h := _active(book.holds[name], subject, season)) is not None]
    return max(active, key=lambda h: h.until or dt.date.max) if active else None


def next_hold(rule: Rule, book: RuleBook, subject: Subject, season: SeasonModel, close_day: float) -> float:
    """The day number on which a coming hold begins that outlasts the window; inf if none does."""
    today, begins = season.today, math.inf
    for name in rule.holds:
        days = _days(book.holds[name], subject, season)
        if days is None:
            continue
        first, last = days
        if today < first <= close_day and (last >= close_day or last < first):
            begins = min(begins, first)
    return begins


def _active(hold: HoldRule, subject: Subject, season: SeasonModel) -> Hold | None:
    days = _days(hold, subject, season)
    if days is not None:
        first, last = days
        if first <= last:
            return _until(hold, last + 1, season) if first <= season.today <= last else None
        # From autumn into the next spring: of the winter before this season only the end lies in it.
        if season.today <= last:
            return _until(hold, last + 1, season)
        return _until(hold, last + 1 + DAYS_A_YEAR, season) if season.today >= first else None
    if hold.rain_mm is not None:
        for ago in range(hold.dry_days):
            day = season.day.on - dt.timedelta(days=ago)
            # A day without a record holds nothing: the steward can see the bark.
            if season.weather.observed("rain", day) >= hold.rain_mm:
                return Hold(reason=hold.reason, until=day + dt.timedelta(days=hold.dry_days))
    if hold.colder_than_c is not None:
        coldest = season.weather.observed("tmin", season.day.on) + season.day.garden.place.frost_pocket_c
        if coldest < hold.colder_than_c:
            return Hold(reason=hold.reason, until=season.day.on + dt.timedelta(days=1))
    return None


def _days(hold: HoldRule, subject: Subject, season: SeasonModel) -> tuple[float, float] | None:
    """First and last day of a hold as usual day numbers of the season; None where it has no dates."""
    dates = _dates(hold, season)
    if dates is None:
        return None
    first, last = (resolve(read_moment(p), subject, season, winter=False, done=None).middle for p in dates)
    return first, last


def _dates(hold: HoldRule, season: SeasonModel) -> tuple[str, str] | None:
    """Its first and last moment: the steward's own, else the region's, else the usual; None without any.

    Without a region stated the usual dates hold meanwhile, in the parts of the world the rule names.
    """
    if not hold.start or not hold.end:
        return None
    here = region_named(season.day.garden.place.region) if hold.by_region else None
    days = here.days(hold.name) if here is not None else None
    if here is not None and days is None and not hold.everywhere:
        return None
    if here is None and hold.regions and season.world_part not in hold.regions:
        return None
    start, end = days or (_usual_start(hold, season), hold.end)
    own_start, own_end = hold.own_days
    return season.rule_text(own_start, start), season.rule_text(own_end, end)


def _usual_start(hold: HoldRule, season: SeasonModel) -> str:
    """The first day where no region tells it: later where winters are cold, if the rule says so."""
    cold = "cold winters" in season.climate and season.world_part not in hold.cold_but_in
    return (hold.start_in_cold if cold else None) or hold.start or ""


def _until(hold: HoldRule, day: float, season: SeasonModel) -> Hold:
    return Hold(reason=hold.reason, until=season.axis.date(day), asks=_asks(hold, season))


def _asks(hold: HoldRule, season: SeasonModel) -> str:
    """What the garden file could say where the usual dates are kept; empty where it says it or need not."""
    place, (own_start, own_end) = season.day.garden.place, hold.own_days
    if not hold.by_region or own_start in season.day.garden.rules:
        return ""
    region = region_named(place.region)
    if place.region is None:
        return ASKS
    if region is None or region.days(hold.name) is not None:
        return ""
    return (
        f"No {hold.name} dates are known for {proper_name(place.region)}, so the usual ones are kept: "
        f'{own_start} = "04-15" and {own_end} = "07-31" under [rule], with yours, settle it.'
    )
