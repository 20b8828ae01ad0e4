"""Sentences on frost where a moment depends on it: the last, the first, and how rare it is."""

from __future__ import annotations

import datetime as dt

import numpy as np

from leafturn.base import day_words, prose
from leafturn.base.arrays import FloatArray
from leafturn.base.prose import RARE
from leafturn.season.frost import FrostShares
from leafturn.tasks.season_model import SeasonModel

NEAR = dt.timedelta(days=7)  # a frost that may come so soon is told by its last day alone; a guess


def last_frost_words(name: str, days: FloatArray, shares: FrostShares, season: SeasonModel) -> str:
    """When the last frost comes and how likely it is past, or how rare it is.

    Parameters
    ----------
    name : str
        "frost", or "night of -2.2 C".
    days : (draws,) array
        Day numbers of the last one.
    shares : FrostShares
        How often such a frost comes at all.
    """
    if shares.last < RARE:
        often = shares.first < RARE
        return rare_words(name, max(shares) if often else shares.last, "" if often else " after midwinter")
    gone = float(np.mean(days <= season.today))
    if gone >= prose.NEARLY_ALWAYS:
        return f"The last {name} is most likely past."
    likely, on = season.weather.now.likely(days), season.day.on
    last = f"most likely by {day_words.day(likely.late, on)}" if likely.late else "at a day not foreseen"
    if gone >= prose.HARDLY_EVER:
        return f"The last {name} is past: {prose.of_ten(gone)}; if not, it comes {last}."
    if likely.early is not None and likely.early > on + NEAR:
        return f"The last {name} is {day_words.about(likely, on)}."
    return f"One more {name} is still to come, {last}."


def rare_words(name: str, share: float, when: str = "") -> str:
    """How rare a frost is in a place: "Frost comes here in 2 of 10 years."."""
    often = prose.in_ten(share)
    clause = f"comes here{when} {often}" if prose.is_counted(share) else f"{often} comes here{when}"
    return f"{prose.capital(name)} {clause}."


def first_frost_words(season: SeasonModel) -> str:
    """When the first frost comes, or how rare it is."""
    cold = season.cold
    if cold.rare:
        return rare_words("frost", cold.shares(0.0).first)
    likely, on = season.weather.now.likely(cold.first), season.day.on
    return f"The first frost here {day_words.comes('comes', 'came', likely, on)}."


def by_short_days(days: FloatArray, season: SeasonModel) -> str:
    """A day that comes with short days: with its range, or the one by which it has come at the latest."""
    likely = season.weather.now.likely(days)
    when = day_words.about(likely, season.day.on)
    return f"by about {when}" if likely.early == likely.late else when


def growth_end_words(season: SeasonModel) -> str:
    """When short days end growth, where they do so before the first frost."""
    cold = season.cold
    when = by_short_days(cold.growth_end, season)
    return (
        f"{rare_words('frost', cold.shares(0.0).first)} Short days end growth {when}."
        if cold.rare
        else (f"Short days end growth {when}, before the usual first frost.")
    )
