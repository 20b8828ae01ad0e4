"""Harvests that hang over the turn of the season: ripe in one, picked until some day of the next."""

from __future__ import annotations

import math

from leafturn.base.arrays import median
from leafturn.base.kept import kept
from leafturn.tasks.rule_model import Rule
from leafturn.tasks.season_model import SeasonModel
from leafturn.tasks.subjects import Subject


@kept
def overhangs(season: SeasonModel) -> dict[str, int]:
    """By how many days the usual picking of a plant goes on into the next season, where it does [d]."""
    after = season.axis.day(season.axis.next.start)
    ends = {
        plant: median(forecast.picked)
        for plant, forecast in season.expected.items()
        if forecast.picked is not None
    }
    return {plant: int(end - after) for plant, end in ends.items() if after < end < math.inf}


def may_hang_over(rule: Rule) -> bool:
    """Whether a rule is of a harvest that may; what is lifted in winter is of the season that it begins."""
    return rule.closed_by == "harvest" and not rule.winter


def hangs_over(rule: Rule, subject: Subject, season: SeasonModel) -> int:
    """By how many days a rule's job at a subject does so; 0 of all that is no harvest [d]."""
    if not may_hang_over(rule):
        return 0
    days = overhangs(season)
    return max((days.get(plant.id, 0) for plant in subject.plants), default=0)
