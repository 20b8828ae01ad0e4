"""Decline of an old tree: the trend of its crown, when it gives no shade, and when it may be down.

Bare and down are kept apart: a dead tree can stand for years, and a green one can fall.
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Sequence

import numpy as np

from leafturn.base.date_range import SHARES
from leafturn.base.tunables import Numbers
from leafturn.base.value import Value
from leafturn.garden.model import State

# One-sided 90 % points of Student's t by degrees of freedom, so 80 % lies between minus and plus: any
# statistical table.
_T90 = (3.078, 1.886, 1.638, 1.533, 1.476, 1.440, 1.415, 1.397, 1.383, 1.372, 1.363, 1.356, 1.350, 1.345)
_NORMAL90 = 1.2816
_FARTHEST_YEARS = 100


class CrownAssessment(Value):
    """One assessment of a crown: the day and how much of the crown was alive [%]."""

    on: dt.date
    live_percent: float


class YearRange(Value):
    """A year with its range; None where it is not reached within a hundred years."""

    early: int | None
    likely: int | None
    late: int | None


class Trend(Value):
    """A straight line through the assessments of one crown.

    Parameters
    ----------
    per_year : float [points a year]
        Below 0 the crown is dying back.
    middle_year, middle_percent : float
        The line's own middle.
    scatter : float [points]
        How far assessments lie from the line, never less than two people differ.
    spread : float [years squared]
        Sum of squares of the assessments' times about their middle.
    last : float
        Time of the last assessment, as a year with its part.
    """

    per_year: float
    middle_year: float
    middle_percent: float
    scatter: float
    spread: float
    assessments: int
    last: float

    def live(self, year: float) -> float:
        """Live part of the crown [%] on the line, within 0 and 100."""
        return min(max(self.middle_percent + self.per_year * (year - self.middle_year), 0.0), 100.0)

    def half_width(self, year: float) -> float:
        """Half of the 80 % prediction range [points] of one look in a year."""
        freedom = self.assessments - 2
        factor = _T90[freedom - 1] if 1 <= freedom <= len(_T90) else _NORMAL90
        if freedom < 1:
            factor = _T90[0]
        away = (year - self.middle_year) ** 2 / self.spread
        return factor * self.scatter * math.sqrt(1 + 1 / self.assessments + away)

    def crossing(self, percent: float, side: float = 0.0) -> float | None:
        """When the line, moved by `side` half widths of its range, falls to `percent`; None if never.

        Times before the last assessment count as the last assessment.
        """
        times = self.last + np.arange(0, _FARTHEST_YEARS * 20) / 20
        line = np.array([self.middle_percent + self.per_year * (t - self.middle_year) for t in times])
        if side:
            line = line + side * np.array([self.half_width(float(t)) for t in times])
        below = np.flatnonzero(line <= percent)
        return float(times[below[0]]) if len(below) else None


def as_year(day: dt.date) -> float:
    """A day as a year with its part."""
    return day.year + (day.timetuple().tm_yday - 1) / 365.25


def trend_of(assessments: Sequence[CrownAssessment], numbers: Numbers) -> Trend | None:
    """The straight line through the looks by least squares; None from fewer than two years' looks.

    Parameters
    ----------
    assessments : sequence of CrownAssessment
        In any order.
    numbers : Numbers
        `elder_look_points` is the least scatter.
    """
    if len(assessments) < 2:
        return None
    times = np.array([as_year(assessment.on) for assessment in assessments])
    percents = np.array([assessment.live_percent for assessment in assessments])
    middle = float(times.mean())
    spread = float(((times - middle) ** 2).sum())
    if times.max() - times.min() < 0.5:  # one season's assessments tell its noise, not its course
        return None
    per_year = float(((times - middle) * percents).sum() / spread)
    left = percents - percents.mean() - per_year * (times - middle)
    seen = math.sqrt(float((left**2).sum()) / (len(assessments) - 2)) if len(assessments) > 2 else 0.0
    return Trend(
        per_year=per_year,
        middle_year=middle,
        middle_percent=float(percents.mean()),
        scatter=max(seen, numbers["elder_look_points"]),
        spread=spread,
        assessments=len(assessments),
        last=float(times.max()),
    )


def bare_range(trend: Trend, numbers: Numbers) -> tuple[YearRange, YearRange]:
    """When the crown gives no shade: by the line's own range, and widened by the stated allowance.

    Returns
    -------
    fit, honest : YearRange
        `fit` is where the line and its 80 % prediction range reach `elder_bare_percent`. `honest` lets
        what is left from the last assessment go `elder_pace_factor` times quicker or slower: trees rarely
        keep to a line, and a fit's own range does not know that.
    """
    bare, factor = numbers["elder_bare_percent"], numbers["elder_pace_factor"]
    early, likely, late = (trend.crossing(bare, side) for side in (-1.0, 0.0, 1.0))
    if trend.per_year >= 0:
        early = likely = late = None

    def stretched(when: float | None, by: float) -> float | None:
        return None if when is None else trend.last + (when - trend.last) * by

    fit = YearRange(early=_year(early), likely=_year(likely), late=_year(late))
    honest = YearRange(
        early=_year(stretched(early, 1 / factor)), likely=_year(likely), late=_year(stretched(late, factor))
    )
    return fit, honest


def _year(when: float | None) -> int | None:
    return None if when is None else int(when)


def fall_chances(
    state: State, first_year: int, years: int, bare: int | None, numbers: Numbers, *, storm: bool = False
) -> np.ndarray:
    """Chance that the tree falls in each year, if it still stands: rules of thumb by its state.

    Parameters
    ----------
    state : State
        As the garden file has it.
    first_year : int
        The first of the years; it counts whole, whatever is left of it.
    years : int
    bare : int or None
        From the year after it on the tree counts as dead standing.
    storm : bool
        Whether wind has broken something off it in the year past.
    """
    name = {"dead standing": "dead", "gone": "dead"}.get(state, state)
    chances = np.full(years, numbers[f"fall_chance_{name}"])
    if bare is not None:
        dead = np.arange(first_year, first_year + years) > bare
        chances[dead] = np.maximum(chances[dead], numbers["fall_chance_dead"])
    if storm:
        chances[0] = min(1.0, chances[0] * numbers["fall_storm_factor"])
    return chances


def down_by(chances: np.ndarray) -> np.ndarray:
    """Chance of being down by the end of each year, from the yearly chances."""
    return np.asarray(1 - np.cumprod(1 - chances))


def down_range(chances: np.ndarray, first_year: int) -> YearRange:
    """The first years by whose end the tree is down with 1 chance in 10, even odds, and 9 in 10."""
    down = down_by(chances)

    def first(chance: float) -> int | None:
        reached = np.flatnonzero(down >= chance - 1e-12)
        return first_year + int(reached[0]) if len(reached) else None

    early, likely, late = map(first, SHARES)
    return YearRange(early=early, likely=likely, late=late)
