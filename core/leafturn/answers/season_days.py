"""The season day by day: how likely each plant is in bloom or ripe, and whether frost still comes."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence

import numpy as np

from leafturn.base.arrays import FloatArray
from leafturn.base.date_range import Likely
from leafturn.base.name_order import name_order
from leafturn.base.value import Value
from leafturn.bloom.model import BloomForecast
from leafturn.partners.bloom_overlap.flowering_age import OLD_ENOUGH
from leafturn.partners.model import TreeReview
from leafturn.season.axis import AXIS_DAYS
from leafturn.season.ensemble import Ensemble
from leafturn.season.frost import MIDSUMMER_DAY, first_frost, last_frost

MEET = 0.5  # share of draws in which both of a pair are open, from which on a day counts as common


class PlantDays(Value, eq=False):
    """Shares of draws, (days,), in which a plant flowers, is in full bloom, and can be picked.

    `full` and `ripe` are the dates of full bloom and of the first picking.
    """

    plant: str
    in_bloom: FloatArray
    in_full_bloom: FloatArray
    picking: FloatArray
    full: Likely
    ripe: Likely | None


class BloomGroup(Value):
    """Plants that serve each other with pollen, or could.

    Parameters
    ----------
    plants : tuple of str
        By day of full bloom.
    days : float
        Days on which the pair that meets longest is open, as the review of partners counts them; 0 if no
        pair of them meets.
    first, last : date or None
        The days on which that pair is open in half of the draws.
    """

    plants: tuple[str, ...]
    days: float
    first: dt.date | None = None
    last: dt.date | None = None


class SeasonDays(Value, eq=False):
    """A season from `first` on, a value a day.

    Parameters
    ----------
    first : date
        The day of the first value.
    frost : (days,)
        In spring the share of members in which a frost is still to come on that day or later, from
        midsummer on the share in which one has come.
    plants : tuple of PlantDays
        In order of full bloom; those that neither flower nor are picked are left out.
    groups : tuple of BloomGroup
        Of two plants or more.
    """

    first: dt.date
    frost: FloatArray
    plants: tuple[PlantDays, ...]
    groups: tuple[BloomGroup, ...]


def season_days(
    ensemble: Ensemble,
    pocket_c: float,
    forecasts: Mapping[str, BloomForecast],
    reviews: Sequence[TreeReview],
) -> SeasonDays:
    """Lay the season out by days.

    Parameters
    ----------
    ensemble : Ensemble
    pocket_c : float [degC]
        How much warmer the garden is than the weather station.
    forecasts : mapping of plant id to BloomForecast
    reviews : sequence of TreeReview
        Which plants serve each other.
    """
    days = np.arange(AXIS_DAYS, dtype=float)
    found = [_plant(forecast, days, ensemble) for forecast in forecasts.values()]
    plants = sorted(
        (plant for plant in found if plant.in_bloom.any() or plant.picking.any()),
        key=lambda plant: (plant.full.likely or dt.date.max, name_order(plant.plant)),
    )
    return SeasonDays(
        first=ensemble.axis.first,
        frost=_frost(ensemble, pocket_c, days),
        plants=tuple(plants),
        groups=_groups(plants, reviews, ensemble.axis.first),
    )


def _frost(ensemble: Ensemble, pocket_c: float, days: FloatArray) -> FloatArray:
    last = last_frost(ensemble, 0.0, pocket_c)[:, None]
    first = first_frost(ensemble, 0.0, pocket_c)[:, None]
    to_come, has_come = (last >= days).mean(axis=0), (first <= days).mean(axis=0)
    return np.asarray(np.where(days < MIDSUMMER_DAY, to_come, has_come))


def _plant(forecast: BloomForecast, days: FloatArray, ensemble: Ensemble) -> PlantDays:
    nothing = np.zeros(len(days))
    picks = forecast.ripe is not None and forecast.picked is not None
    # Full bloom lasts from its day until half of the time to petal fall is over.
    fades = (forecast.full + forecast.end) / 2
    return PlantDays(
        plant=forecast.plant,
        in_bloom=_between(forecast.first_open, forecast.end, days),
        in_full_bloom=_between(forecast.full, fades, days),
        picking=_between(forecast.ripe, forecast.picked, days) if picks else nothing,
        full=ensemble.likely(forecast.full),
        ripe=ensemble.likely(forecast.ripe) if forecast.ripe is not None else None,
    )


def _between(start: FloatArray | None, end: FloatArray | None, days: FloatArray) -> FloatArray:
    """Share of draws in which each day lies from `start` to before `end`."""
    if start is None or end is None:
        return np.zeros(len(days))
    begun = np.searchsorted(np.sort(start, axis=None), days, side="right")
    over = np.searchsorted(np.sort(end, axis=None), days, side="right")
    return np.asarray((begun - over) / start.size).clip(0.0, 1.0)


def _groups(
    plants: Sequence[PlantDays], reviews: Sequence[TreeReview], first: dt.date
) -> tuple[BloomGroup, ...]:
    """Plants linked by pollen that suits, as connected sets."""
    rows = {plant.plant: plant for plant in plants}
    pairs = {
        (review.plant, partner.plant): partner.days_overlap
        if min(review.flowers, partner.flowering) >= OLD_ENOUGH
        else 0.0
        for review in reviews
        for partner in review.partners
        if partner.compatible > 0 and review.plant in rows and partner.plant in rows
    }
    group_of = {plant: {plant} for pair in pairs for plant in pair}
    for one, other in pairs:
        joined = group_of[one] | group_of[other]
        group_of |= dict.fromkeys(joined, joined)
    made = []
    for names in {frozenset(group) for group in group_of.values()}:
        within = {pair: met for pair, met in pairs.items() if pair[0] in names}
        pair = max(within, key=lambda pair: (within[pair], pair))
        both = np.minimum(rows[pair[0]].in_bloom, rows[pair[1]].in_bloom) >= MEET
        common = np.flatnonzero(both)
        ends = [first + dt.timedelta(days=int(n)) for n in (common[0], common[-1])] if len(common) else []
        ordered = tuple(plant.plant for plant in plants if plant.plant in names)
        made.append(
            BloomGroup(
                plants=ordered,
                days=within[pair],
                first=ends[0] if ends else None,
                last=ends[1] if ends else None,
            )
        )
    order = {plant.plant: n for n, plant in enumerate(plants)}
    return tuple(sorted(made, key=lambda group: order[group.plants[0]]))
