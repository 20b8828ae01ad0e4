"""What is said of frost where a moment hangs on it: the last, how rare it is, what tonight may bring."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from leafturn import wording
from leafturn.season.frost import RARE, FrostShares
from leafturn.tasks.cold import Cold
from leafturn.tasks.season_state import SeasonState
from leafturn.tasks.subjects import Subject, frost_chance

FROST_NIGHTS = 5


def last_frost_words(name: str, days: NDArray[np.float64], shares: FrostShares, season: SeasonState) -> str:
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
    when = wording.about(season.weather.now.likely(days), season.on)
    tenths = round(gone * 10)
    if tenths == 0:
        return f"The last {name} is {when}; it is past in hardly any version of this year."
    return f"The last {name} is {when}; chances are {tenths} in 10 that it is past."


def rare_words(name: str, share: float, when: str = "") -> str:
    """That a frost is rare in a place, and how rare: "Frost rarely comes here (about 1 year in 5)."."""
    if share == 0:
        return f"No version of the year brings {name} here{when}."
    often, years = wording.seldom(share), wording.in_years(share)
    told = f"comes here{when} {often}" if often.startswith("in ") else f"{often} comes here{when}"
    return f"{name[0].upper()}{name[1:]} {told} (about {years})."


def first_frost_words(cold: Cold, season: SeasonState) -> str:
    """When the first frost comes, or how rare it is."""
    if cold.rare:
        return rare_words("frost", cold.shares().first)
    return f"The first frost here comes {wording.about(season.weather.now.likely(cold.first), season.on)}."


def growth_end_words(cold: Cold, season: SeasonState) -> str:
    """What ends growth: the first frost, or short days."""
    if not cold.short_days:
        return first_frost_words(cold, season)
    likely = season.weather.now.likely(cold.growth_end)
    when = wording.about(likely, season.on)
    if likely.early == likely.late:
        when = f"by about {when}"
    return (
        f"{rare_words('frost', cold.shares().first)} Short days end growth {when}."
        if cold.rare
        else (f"Short days end growth {when}, before the usual first frost.")
    )


def frost_threat_words(subject: Subject, season: SeasonState) -> str:
    """What the coming nights may bring; empty where nothing is known of the plant or the nights."""
    nights = season.weather.now.tmin[:, season.today + 1 : season.today + 2]
    if not subject.plants or subject.kind is None or nights.size == 0:
        return ""
    tonight = float(np.median(nights)) + season.garden.place.frost_pocket_c
    chance = frost_chance(subject.plants[0], subject.kind, season, FROST_NIGHTS)
    odds = "nearly sure" if chance >= 0.95 else f"{max(round(chance * 10), 1)} in 10"
    told = f"Tonight may reach {tonight:.0f} C here; a killing night within {FROST_NIGHTS} days is {odds}"
    limits = subject.kind.frost.full_bloom
    kills = f": a tenth of open flowers die at {limits.value[0]:.1f} C" if limits else ""
    return f"{told}{kills}."
