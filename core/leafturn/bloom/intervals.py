"""A date with its uncertainty, put together from weather to come, from the level, and from dates."""

from __future__ import annotations

from statistics import NormalDist

import numpy as np

from leafturn.base.arrays import FloatArray
from leafturn.base.value import Value
from leafturn.bloom.priors.response import day_reached

PARTS = 21  # a normal distribution is cut into so many equally likely parts
_NORMAL = np.array([NormalDist().inv_cdf((part + 0.5) / PARTS) for part in range(PARTS)])
_NORMAL /= _NORMAL.std()


def days_of_members(sums: FloatArray, mean: float, sd: float) -> FloatArray:
    """Days on which a level known to a spread is reached in each ensemble member, (members, parts)."""
    return day_reached(sums, np.broadcast_to(mean + sd * _NORMAL, (len(sums), PARTS)))


class DaySpread(Value, eq=False, kw_only=False):
    """Days with their chances.

    Parameters
    ----------
    days : (n,) [day number]
        In ascending order.
    chances : (n,)
        They add up to 1.
    """

    days: FloatArray
    chances: FloatArray

    @classmethod
    def by_weather(cls, sums: FloatArray, mean: float, sd: float, widening: float = 1.0) -> DaySpread:
        """Days on which a level known to a spread is reached in ensemble members.

        Parameters
        ----------
        sums : (members, days)
        mean, sd : float
            Of the level, a logarithm of warmth.
        widening : float
            How much further the members lie from their mean than they say.
        """
        return cls.of_members(days_of_members(sums, mean, sd), widening)

    @classmethod
    def of_members(cls, days: FloatArray, widening: float) -> DaySpread:
        """Days (members, parts) from `days_of_members`, the members moved apart by a factor."""
        member_means = days.mean(axis=1, keepdims=True)
        return cls._even((days + (widening - 1) * (member_means - member_means.mean())).ravel())

    @classmethod
    def by_dates(cls, mean: float, sd: float) -> DaySpread:
        """Days normally distributed."""
        return cls._even(mean + sd * _NORMAL)

    @classmethod
    def _even(cls, days: FloatArray) -> DaySpread:
        return cls(np.sort(days), np.full(len(days), 1 / len(days)))

    def mixed(self, other: DaySpread, share: float) -> DaySpread:
        """This one with a share of another."""
        if share <= 0:
            return self
        days = np.concatenate([self.days, other.days])
        chances = np.concatenate([(1 - share) * self.chances, share * other.chances])
        order = np.argsort(days, kind="stable")
        return DaySpread(days[order], chances[order])

    @property
    def mean(self) -> float:
        """Mean day."""
        return float(self.days @ self.chances)

    @property
    def sd(self) -> float:
        """Standard deviation [d]."""
        return float(np.sqrt(np.maximum(self.chances @ (self.days - self.mean) ** 2, 0.0)))

    def day(self, chance: float) -> float:
        """The day before which it happens with this chance."""
        middles = np.cumsum(self.chances) - self.chances / 2
        return float(np.interp(chance, middles, self.days))
