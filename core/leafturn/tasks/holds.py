"""Reasons to wait: nests, wet bark, hard frost, rising sap."""

from __future__ import annotations

import datetime as dt

import numpy as np

from leafturn.tasks.anchors import Anchors
from leafturn.tasks.model import Hold
from leafturn.tasks.moments import read_moment
from leafturn.tasks.rules import HoldRule, Rule, RuleBook
from leafturn.tasks.subjects import Subject


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
            float(np.median(anchors.resolve(read_moment(p), subject, winter=rule.winter, done=None).days))
            for p in (start, end)
        )
        if first <= season.today <= last:
            return Hold(reason=hold.reason, until=season.axis.date(last + 1))
        return None
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
