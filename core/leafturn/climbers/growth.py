"""How far a climber has grown since it was cut: metres by heat, from leaf-out on."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable

import numpy as np

from leafturn.base.arrays import FloatArray, median
from leafturn.base.tunables import Numbers
from leafturn.base.value import Value
from leafturn.bloom.leafing import leaf_need, leaf_out_days
from leafturn.bloom.priors.stated import LeafNeed
from leafturn.garden.model import Plant
from leafturn.journal.entries import Done
from leafturn.kinds.fact import value_of
from leafturn.kinds.model import Kind
from leafturn.season.axis import SeasonAxis
from leafturn.season.ensemble import Ensemble
from leafturn.season.heat import HeatSums
from leafturn.season.heat_count import BASE_C

MOST_SEASONS = 3  # guess: shoots older than this are a crown, and its load says more than their metres
GROWTH_ENDS = "10-01"  # guess: shoots have stopped by then, frost or not

# Metres of new shoot per 100 degree-days above 5, and the most in one season, by vigour. Guesses, for
# kinds whose own rate is not known.
RATE = {"weak": 0.15, "middling": 0.25, "strong": 0.4, "rampant": 0.45}
MOST_A_SEASON = {"weak": 3.0, "middling": 4.0, "strong": 7.0, "rampant": 9.0}


def growth_ends(axis: SeasonAxis) -> dt.date:
    """The day by which shoots have stopped in a season."""
    return axis.date(axis.month_day(GROWTH_ENDS))


class LastCut(Value):
    """When a climber was last cut; assumed where no note tells."""

    on: dt.date
    recorded: bool


class Shoots(Value):
    """How a kind's shoots grow: metres per 100 degree-days above 5 degC, and the most in a season [m]."""

    rate: float
    most: float
    leaf: LeafNeed

    @classmethod
    def of(cls, kind: Kind, numbers: Numbers) -> Shoots:
        """The kind's own rate where the library has one, else a guess by vigour; leaf-out as everywhere."""
        vigour = vigour_of(kind)
        rate = kind.vine.metres_per_100_heat
        return cls(
            rate=value_of(rate, RATE[vigour]),
            most=MOST_A_SEASON[vigour],
            leaf=leaf_need(kind, numbers),
        )


def vigour_of(kind: Kind) -> str:
    """How strongly it grows; "middling" where the library does not say."""
    return value_of(kind.vine.vigour, "middling")


def last_cut(plant: Plant, cuts: Iterable[tuple[str, Done]], axis: SeasonAxis) -> LastCut:
    """The latest noted cut of a climber; without one it is taken as cut at the start of the season.

    Parameters
    ----------
    cuts : iterable of (subject, Done)
        Jobs done that count as a cut, ``day.done("cut")``.
    """
    days = [done.on for subject, done in cuts if subject == plant.id]
    return LastCut(on=max(days), recorded=True) if days else LastCut(on=axis.start, recorded=False)


def seasons_uncut(cut: LastCut, axis: SeasonAxis) -> int:
    """Whole growing seasons between the cut and this season, 0 to 3."""
    held = SeasonAxis.holding(cut.on, axis.southern)
    late = cut.on >= held.date(held.month_day("07-01"))
    return int(np.clip(axis.year - held.year - (1 if late else 0), 0, MOST_SEASONS))


def growing_from(shoots: Shoots, cut: LastCut, heat: HeatSums) -> FloatArray:
    """Day on which shoots start: leaf-out, or the cut if that came later, (members,) [day number]."""
    axis = heat.ensemble.axis
    out = leaf_out_days(heat.ensemble, shoots.leaf)
    return np.asarray(np.maximum(out, axis.day(cut.on)))


def metres_grown(shoots: Shoots, cut: LastCut, heat: HeatSums, day: int) -> FloatArray:
    """New shoot since the cut by the end of a day, (members,) [m].

    Notes
    -----
    ``rate x degree-days / 100`` from leaf-out to October, capped at the most in a season. What grew in
    earlier seasons since the cut is added, by the heat of this one: the rest of the cut's own season and
    each whole one after it. A guess, as the rates are: nobody has published shoot lengths of these climbers
    by heat.
    """
    axis = heat.ensemble.axis
    start = growing_from(shoots, cut, heat)
    this = _in_a_season(shoots, heat, start, min(day, axis.month_day(GROWTH_ENDS)))
    return np.asarray(this + _earlier(shoots, cut, heat))


def _earlier(shoots: Shoots, cut: LastCut, heat: HeatSums) -> float:
    """Shoot of the seasons before this one since the cut, at most three of them [m]."""
    axis = heat.ensemble.axis
    held = SeasonAxis.holding(cut.on, axis.southern)
    seasons = axis.year - held.year
    if seasons < 1:
        return 0.0
    out, end = leaf_out_days(heat.ensemble, shoots.leaf), axis.month_day(GROWTH_ENDS)
    full = median(_in_a_season(shoots, heat, out, end))
    if seasons > MOST_SEASONS:
        return MOST_SEASONS * full
    rest = median(_in_a_season(shoots, heat, np.maximum(out, held.day(cut.on)), end))
    return rest + (seasons - 1) * full


def _in_a_season(shoots: Shoots, heat: HeatSums, start: FloatArray, end: int) -> FloatArray:
    """Shoot of one season from each member's start to the end of a day, (members,) [m]."""
    sums = heat.cumulative(BASE_C, 0)
    grown = _between(sums, start, min(end, sums.shape[1] - 1)) * shoots.rate / 100.0
    return np.asarray(np.minimum(grown, shoots.most))


def day_grown(shoots: Shoots, cut: LastCut, heat: HeatSums, metres: float) -> FloatArray:
    """Day on which new shoot since the cut reaches so many metres, (members,) [day number]; inf: never."""
    ensemble: Ensemble = heat.ensemble
    axis = ensemble.axis
    before = metres_grown(shoots, cut, heat, axis.day(axis.start))
    left = metres - median(before)
    if left <= 0:
        return np.full(ensemble.members, float(axis.day(max(cut.on, axis.start))))
    if left > shoots.most:
        return np.full(ensemble.members, np.inf)
    start = growing_from(shoots, cut, heat)
    finite = np.where(np.isfinite(start), start, ensemble.tmin.shape[1] - 1)
    days = heat.day_reached_from(BASE_C, finite, left / shoots.rate * 100.0)
    return np.where(np.isfinite(start) & (days <= axis.month_day(GROWTH_ENDS)), days, np.inf)


def _between(sums: FloatArray, start: FloatArray, end: int) -> FloatArray:
    """Heat from each member's start to the end of a day, never below 0 [degC d]."""
    last = sums.shape[1] - 1
    first = np.clip(np.where(np.isfinite(start), start, last), 0, last).astype(int)
    rows = np.arange(len(sums))
    before = np.where(first > 0, sums[rows, np.maximum(first - 1, 0)], 0.0)
    return np.asarray(np.maximum(sums[:, max(end, 0)] - before, 0.0))
