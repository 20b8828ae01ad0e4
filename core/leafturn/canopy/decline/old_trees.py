"""Which trees count as old, and the decline of each: its trend, when it is bare, when it may be down."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import Any

import numpy as np
from numpy.typing import NDArray

from leafturn.base.value import Value
from leafturn.canopy.decline.trend import Trend, YearRange, bare_range, down_range, fall_chances
from leafturn.canopy.stand.stand import Course, Stand
from leafturn.garden.model import FAILING

_FALL_YEARS = 100
_OLD = 0.8  # of the kind's life, from where a tree counts as old; a guess
_NEVER = YearRange(early=None, likely=None, late=None)


class Decline(Value, eq=False):
    """The decline of one old tree.

    Parameters
    ----------
    n : int
        Its number in the stand.
    fit, bare : YearRange
        When its crown gives no shade, by the line's own range and with the stated allowance.
    chances : (years,)
        Of falling in each year from now, if it still stands.
    """

    n: int
    trend: Trend | None
    fit: YearRange
    bare: YearRange
    down: YearRange
    chances: NDArray[Any]

    def course(self, stand: Stand, ahead: int) -> Course:
        """The crown along its line, never greener than now, bare from its year on, gone when likely down."""
        years = stand.year + np.arange(ahead + 1)
        live = np.full(len(years), stand.live[self.n])
        if self.trend is not None and self.trend.per_year < 0:
            line = np.array([self.trend.live(year + 0.5) / 100 for year in years])
            live[1:] = np.minimum(live, line)[1:]  # this year it is as it was last seen
        if self.bare.likely is not None:
            live[years > self.bare.likely] = 0.0
        fall = self.down.likely if self.down.likely is not None else stand.year + ahead + 1
        return Course(live=live, stands=years <= max(fall, stand.year))


def old_trees(
    stand: Stand, assessments: Collection[str], storms: Collection[str], trends: Mapping[str, Trend | None]
) -> list[Decline]:
    """Every old tree: those with a trend first, then those likely down first; the tallest where none is old.

    Parameters
    ----------
    stand : Stand
    assessments : collection of str
        Plants whose crown was assessed.
    storms : collection of str
        Plants off which wind broke something within the year.
    trends : mapping of str to Trend or None
    """
    trees = [n for n, kind in enumerate(stand.kinds) if kind.habit == "tree"]
    tall = stand.heights(stand.year)
    old = [n for n in trees if _is_old(stand, n, assessments)] or sorted(trees, key=lambda n: -tall[n])[:1]
    return sorted((_decline_of(stand, n, storms, trends) for n in old), key=_soonest)


def _is_old(stand: Stand, n: int, assessments: Collection[str]) -> bool:
    plant, life = stand.plants[n], stand.kinds[n].size.life_years
    age = plant.age(stand.year)
    if plant.state in FAILING or plant.id in assessments:
        return True
    return age is not None and life is not None and age >= _OLD * life.value


def _decline_of(stand: Stand, n: int, storms: Collection[str], trends: Mapping[str, Trend | None]) -> Decline:
    plant, numbers = stand.plants[n], stand.numbers
    trend = trends.get(plant.id)
    fit, bare = bare_range(trend, numbers) if trend else (_NEVER, _NEVER)
    chances = fall_chances(
        plant.state, stand.year, _FALL_YEARS, bare.likely, numbers, storm=plant.id in storms
    )
    down = down_range(chances, stand.year)
    return Decline(n=n, trend=trend, fit=fit, bare=bare, down=down, chances=chances)


def _soonest(decline: Decline) -> tuple[int, int, int]:
    return (decline.trend is None, decline.down.likely or 9999, decline.n)
