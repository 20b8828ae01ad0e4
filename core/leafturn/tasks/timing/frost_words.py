"""Sentences on frost where a moment depends on it: the last, the first, and how rare it is."""

from __future__ import annotations

import numpy as np

from leafturn.base import day_words, prose
from leafturn.base.arrays import FloatArray
from leafturn.base.prose import RARE, SOME
from leafturn.season.frost import FrostShares
from leafturn.tasks.season_model import SeasonModel


def last_frost_words(name: str, days: FloatArray, shares: FrostShares, season: SeasonModel) -> str:
    """When the last frost comes and how likely it is past, or how rare it is.

    Parameters
    ----------
    name : str
        "frost", or "frost of -2.2 C".
    days : (draws,) array
        Day numbers of the last one.
    shares : FrostShares
        How often such a frost comes at all.
    """
    if shares.last < RARE:
        often = shares.first < RARE
        return rare_words(name, max(shares) if often else shares.last, "" if often else " after midwinter")
    gone = float(np.mean(days <= season.today))
    if gone >= 0.95:
        return f"The last {name} is past in nearly every version of this year."
    when = day_words.about(season.weather.now.likely(days), season.day.on)
    tenths = round(gone * 10)
    if tenths == 0:
        return f"The last {name} is {when}; it is past in hardly any version of this year."
    return f"The last {name} is {when}; chances are {tenths} in 10 that it is past."


def rare_words(name: str, share: float, when: str = "") -> str:
    """That a frost is rare in a place, and how rare: "Frost rarely comes here (about 1 year in 5)."."""
    if share == 0:
        return f"No version of the year brings {name} here{when}."
    often, years = prose.seldom(share), prose.in_years(share)
    clause = f"comes here{when} {often}" if share >= SOME else f"{often} comes here{when}"
    return f"{name[0].upper()}{name[1:]} {clause} (about {years})."


def first_frost_words(season: SeasonModel) -> str:
    """When the first frost comes, or how rare it is."""
    cold = season.cold
    if cold.rare:
        return rare_words("frost", cold.shares().first)
    return (
        f"The first frost here comes {day_words.about(season.weather.now.likely(cold.first), season.day.on)}."
    )


def growth_end_words(season: SeasonModel) -> str:
    """What ends growth: the first frost, or short days."""
    cold = season.cold
    if not cold.short_days:
        return first_frost_words(season)
    likely = season.weather.now.likely(cold.growth_end)
    when = day_words.about(likely, season.day.on)
    if likely.early == likely.late:
        when = f"by about {when}"
    return (
        f"{rare_words('frost', cold.shares().first)} Short days end growth {when}."
        if cold.rare
        else (f"Short days end growth {when}, before the usual first frost.")
    )
