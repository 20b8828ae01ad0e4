"""Reasons to wait: nests, wet bark, hard frost, rising sap."""

from __future__ import annotations

import datetime as dt

from leafturn.tasks.anchors import Anchors
from leafturn.tasks.model import Hold
from leafturn.tasks.moments import read_moment
from leafturn.tasks.rules import HoldRule, Rule, RuleBook
from leafturn.tasks.season_state import SeasonState
from leafturn.tasks.subjects import Subject

DAYS_A_YEAR = 365


def hold_on(rule: Rule, book: RuleBook, subject: Subject, anchors: Anchors) -> Hold | None:
    """The hold in force today that ends last, or None."""
    active = [
        h for name in rule.holds if (h := _active(book.holds[name], rule, subject, anchors)) is not None
    ]
    return max(active, key=lambda h: h.until or dt.date.max) if active else None


def _active(hold: HoldRule, rule: Rule, subject: Subject, anchors: Anchors) -> Hold | None:
    season = anchors.season
    if hold.start and hold.end:
        key = hold.name.replace(" ", "_")
        start = season.rule_text(f"{key}_from", hold.start)
        end = season.rule_text(f"{key}_to", hold.end)
        first, last = (
            anchors.resolve(read_moment(p), subject, winter=False, done=None).middle for p in (start, end)
        )
        if first <= last:
            return _until(hold, last + 1, season) if first <= season.today <= last else None
        # From autumn into the next spring: of the winter before this season only the end lies in it.
        if season.today <= last:
            return _until(hold, last + 1, season)
        return _until(hold, last + 1 + DAYS_A_YEAR, season) if season.today >= first else None
    if hold.rain_mm is not None:
        for ago in range(hold.dry_days):
            day = season.on - dt.timedelta(days=ago)
            # A day without a record holds nothing: the steward can see the bark.
            if season.weather.observed("rain", day) >= hold.rain_mm:
                return Hold(reason=hold.reason, until=day + dt.timedelta(days=hold.dry_days))
    if hold.colder_than_c is not None:
        coldest = season.weather.observed("tmin", season.on) + season.garden.place.frost_pocket_c
        if coldest < hold.colder_than_c:
            return Hold(reason=hold.reason, until=season.on + dt.timedelta(days=1))
    return None


def _until(hold: HoldRule, day: float, season: SeasonState) -> Hold:
    return Hold(reason=hold.reason, until=season.axis.date(day))
