"""Where forecasting ends: climates unlike those a kind was learnt in, and years without seasons."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np

from leafturn.base import quantities
from leafturn.bloom.priors.prior import KindHere
from leafturn.bloom.season_weather import SeasonWeather

# [degC] so far outside, dates are missed by weeks and more: none is given. Stated dates of Japanese cherries
# hold to 3.5 degrees milder and are missed by three months at 6; no record lies between.
NOTHING_MILDER, NOTHING_COLDER = 5.0, 9.0
LEAST_SEASONS = 6.0  # [degC] range of the year's means under which there is no winter to count from; guess
WORTH_SAYING = 1.5  # [degC] nearer than that ranges are hardly wider
SHORT_CHILL = 0.2  # spread added to ln warmth where a winter's chill falls short in every year; guess


def tells_nothing(here: KindHere, weather: SeasonWeather) -> bool:
    """Whether nothing can be said of when a kind opens here without notes of it."""
    beyond = NOTHING_MILDER if weather.winter > 0 else NOTHING_COLDER
    return here.degrees_outside > beyond or weather.seasons < LEAST_SEASONS


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
    silent = sorted(kind for kind, one in here.items() if kind not in noted and tells_nothing(one, weather))
    wide = sorted(
        kind
        for kind, one in here.items()
        if one.degrees_outside >= WORTH_SAYING and kind not in silent and kind not in noted
    )
    winters = f"Winters here (mean {quantities.celsius(weather.winter, 0)})"
    if silent and weather.seasons < LEAST_SEASONS:
        yield f"The year here has no winter to count from, so no bloom date is given: {', '.join(silent)}."
    elif silent:
        yield (
            f"{winters} are so far from those these kinds were learnt in "
            f"that no bloom date is given until some are noted: {', '.join(silent)}."
        )
    if wide:
        side = "milder" if weather.winter > 0 else "colder"
        yield (
            f"{winters} are {side} than where these kinds were learnt, so "
            f"their ranges are wider: {', '.join(wide)}."
        )


def short_chill_variance(short: float | None) -> float:
    """Variance of ln warmth that a winter adds whose chill falls short in this share of its members."""
    return 0.0 if short is None else float(np.square(SHORT_CHILL * short))
