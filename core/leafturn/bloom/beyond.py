"""Where forecasting ends: climates unlike those a kind was learnt in, and years without seasons."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np

from leafturn.base import quantities
from leafturn.bloom.priors.prior import KindHere
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.season.climate import EVEN_SEASONS

# [degC] so far outside, dates are missed by weeks and more: none is given. Stated dates of Japanese cherries
# hold to 3.5 degrees milder and are missed by three months at 6; no record lies between.
NOTHING_MILDER, NOTHING_COLDER = 5.0, 9.0
NOTHING_COOLER = 7.0  # the same of summers, under which hardly anything ripens; guess
# [degC] nearer than that ranges are hardly wider: of winters, of summers
WORTH_SAYING, WORTH_SAYING_OF_SUMMERS = 1.5, 0.25
SHORT_CHILL = 0.2  # spread added to ln warmth where a winter's chill falls short in every year; guess


def tells_nothing(here: KindHere, weather: SeasonWeather) -> bool:
    """Whether nothing can be said of when a kind opens here without notes of it."""
    beyond = NOTHING_MILDER if weather.winter > 0 else NOTHING_COLDER
    too_far = here.winter_outside > beyond or here.summer_outside > NOTHING_COOLER
    return too_far or without_winter(weather)


def without_winter(weather: SeasonWeather) -> bool:
    """Whether the months of the year are so alike that there is no winter to count from."""
    return weather.seasons < EVEN_SEASONS


def beyond_words(
    here: Mapping[str, KindHere], noted: frozenset[str], weather: SeasonWeather
) -> Iterator[str]:
    """What is to be said of kinds that the forecast is out of its depth with.

    Parameters
    ----------
    here : mapping of kind to KindHere
    noted : frozenset of str
        Kinds noted here: their own notes tell.
    weather : SeasonWeather
    """
    if unbound := sorted(kind for kind, one in here.items() if one.any_month):
        names = ", ".join(unbound)
        yield f"Flowers of these come in any month, so no date is given until they open: {names}."
    told = {kind: one for kind, one in here.items() if kind not in noted and not one.any_month}
    silent = sorted(kind for kind, one in told.items() if tells_nothing(one, weather))
    if silent and without_winter(weather):
        given = "so no date of bloom or picking is given until one is noted in flower"
        yield f"The year here has no winter to count from, {given}: {', '.join(silent)}."
    elif silent:
        yield (
            f"{_climate(weather)} so far from those these kinds were learnt in "
            f"that no bloom date is given until some are noted: {', '.join(silent)}."
        )
    known = {kind: one for kind, one in told.items() if kind not in silent}
    winter = f"Winters here (mean {quantities.celsius(weather.winter, 0)})"
    side = "milder" if weather.winter > 0 else "colder"
    by_winter = {kind: one.winter_outside for kind, one in known.items()}
    yield from _wider(f"{winter} are {side}", by_winter, WORTH_SAYING)
    summer = f"Summers here (mean {quantities.celsius(weather.summer, 0)})"
    by_summer = {kind: one.summer_outside for kind, one in known.items()}
    yield from _wider(f"{summer} are cooler", by_summer, WORTH_SAYING_OF_SUMMERS)


def _climate(weather: SeasonWeather) -> str:
    """Winters and summers here, as the subject of a sentence."""
    means = quantities.celsius(weather.winter, 0), quantities.celsius(weather.summer, 0)
    return f"Winters (mean {means[0]}) and summers (mean {means[1]}) here are"


def _wider(what: str, outside: Mapping[str, float], least: float) -> Iterator[str]:
    """That ranges are wider, and of which kinds, by how far [degC] the climate lies outside theirs."""
    wide = sorted(kind for kind, degrees in outside.items() if degrees >= least)
    if wide:
        ranges = "so their ranges are wider"
        yield f"{what} than where these kinds were learnt, {ranges}: {', '.join(wide)}."


def short_chill_variance(short: float | None) -> float:
    """Variance of ln warmth that a winter adds whose chill falls short in this share of its members."""
    return 0.0 if short is None else float(np.square(SHORT_CHILL * short))
