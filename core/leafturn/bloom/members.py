"""From what is known of a level to a day in every draw of the season."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache

import numpy as np

from leafturn.base.arrays import FloatArray, median
from leafturn.base.value import Value
from leafturn.bloom.draws import draws_of
from leafturn.bloom.notes.level_notes import Level
from leafturn.bloom.priors.response import Timing
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.season.ensemble import REPEATS

ON_AXIS = 0.5  # a day number of the axis is its whole day: what is reached at noon falls into it


class ByDates(Value):
    """A plant whose own dates tell more than warmth: with what chance, when, and how far it strays [d]."""

    share: float
    day: float
    sd: float


class Target(Value, kw_only=False):
    """What levels are drawn for: a plant of a kind, and how much wider than computed its levels lie."""

    plant: str
    kind: str
    level: Level
    widening: float


def level_draws(targets: Sequence[Target], draws: int) -> FloatArray:
    """Levels of several plants, (plants, draws); what they share is the same in each draw of all of them."""

    def column(values: Iterable[float]) -> FloatArray:
        return np.array(list(values))[:, None]

    levels = [target.level for target in targets]
    own = (max(level.variance - level.common - level.of_kind, 0.0) for level in levels)
    apart = (
        np.sqrt(column(level.common for level in levels)) * draws_of(draws, "spring")
        + np.sqrt(column(level.of_kind for level in levels))
        * np.stack([draws_of(draws, f"kind {target.kind}") for target in targets])
        + np.sqrt(column(own)) * np.stack([draws_of(draws, f"plant {target.plant}") for target in targets])
    )
    apart -= apart.mean(axis=1, keepdims=True)
    sd = apart.std(axis=1, keepdims=True)
    wanted = np.sqrt(column(level.variance for level in levels))
    exact = apart * np.where(sd == 0, 1.0, wanted / np.where(sd == 0, 1.0, sd))
    return np.asarray(column(level.mean for level in levels) + column(t.widening for t in targets) * exact)


def open_days(
    weather: SeasonWeather, timing: Timing, levels: FloatArray, widening_ahead: FloatArray
) -> FloatArray:
    """Days on which plants of one response open, (plants, draws) [day number of the axis]; inf: they do not.

    Parameters
    ----------
    weather : SeasonWeather
    timing : Response or ShortDays
    levels : (plants, draws)
        From `level_draws`.
    widening_ahead : (plants,)
        How much further than computed ensemble members lie from their middle.
    """
    days = weather.warmth.day_reached(timing, levels) + ON_AXIS
    middle = weather.warmth.day_reached(timing, levels.mean(axis=1, keepdims=True))
    known = np.isfinite(middle)
    usual = np.array(
        [median(row[told]) if told.any() else 0.0 for row, told in zip(middle, known, strict=True)]
    )
    # what is over cannot turn out otherwise
    still = known & (middle > weather.now.observed_to)
    ahead = np.where(still, np.where(known, middle, 0.0) - usual[:, None], 0.0)
    return np.asarray(days + (widening_ahead[:, None] - 1) * np.repeat(ahead, REPEATS, axis=1))


def with_dates(days: FloatArray, dates: ByDates, plant: str) -> FloatArray:
    """Days of one plant with the share of draws that go by its own dates, (draws,).

    Parameters
    ----------
    days : (draws,) [day number of the axis]
    dates : ByDates
    plant : str
        Names the draws that follow the dates.
    """
    by_date = dates.day + ON_AXIS + dates.sd * draws_of(len(days), f"dates {plant}")
    return np.where(_uniform(len(days), f"which {plant}") < dates.share, by_date, days)


@lru_cache(maxsize=4096)
def _uniform(draws: int, name: str) -> FloatArray:
    """Shares of the way from 0 to 1 in an order fixed by a name."""
    return (np.argsort(np.argsort(draws_of(draws, name))) + 0.5) / draws
