"""The year as it may turn out: observed to date, then every past year from today on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from leafturn.base.arrays import FloatArray
from leafturn.base.date_range import Likely
from leafturn.season.axis import SeasonAxis

AUTUMN_DAYS = 61  # September and October, or March and April, before the axis begins
REPEATS = 8  # draws of everything that weather does not settle, for each weather year


@dataclass(frozen=True, eq=False, kw_only=True)
class Ensemble:
    """Daily weather of one season in as many versions as there are past years.

    Parameters
    ----------
    axis : SeasonAxis
        What the day numbers mean.
    tmin, tmax : (members, days) [degC]
        Every member is the same on the days that were observed. Days up to `today` without a reading
        keep each member's own past or made-up day, so that the doubt about them stays.
    rain : (members, days) [mm]
    autumn : (2, members, AUTUMN_DAYS) or None [degC]
        Minima and maxima of the days before day 0, whose cold counts for the winter's rest; None where
        they are taken as the first days of the axis.
    latitude : float [deg]
        For the length of the days.
    today : int
        Day number of the last day that is observed or filled; negative if none is.
    filled : int
        How many days since the season's start up to today come from normals.
    basis : str
        What the members are made of: "own record", "climate normals", "two frost dates", "latitude and
        rare frost", "latitude alone", or words such as "5 own years, others made up round climate normals".
    """

    axis: SeasonAxis
    tmin: FloatArray
    tmax: FloatArray
    rain: FloatArray
    today: int
    filled: int
    basis: str
    autumn: FloatArray | None = None
    latitude: float = 45.0

    @property
    def members(self) -> int:
        """How many versions of the year there are."""
        return int(self.tmin.shape[0])

    @property
    def draws(self) -> int:
        """How many values an event has: members times REPEATS."""
        return self.members * REPEATS

    def spread(self, per_member: FloatArray) -> FloatArray:
        """One value a member made into one value a draw, (members,) -> (draws,)."""
        return np.repeat(per_member, REPEATS)

    @property
    def by_latitude(self) -> bool:
        """Whether the warmth of the year is guessed from the latitude."""
        return "latitude" in self.basis

    @property
    def sureness(self) -> str:
        """How far dates may lean on this weather: "own record", "rule of thumb" or "guess"."""
        if "frost dates" in self.basis or self.by_latitude:
            return "guess"
        return "own record" if self.basis == "own record" else "rule of thumb"

    def from_autumn(self, days: int) -> FloatArray:
        """Minimum and maximum from so many days before day 0 on, (2, members, days of both) [degC].

        Parameters
        ----------
        days : int
            At most AUTUMN_DAYS.
        """
        both = np.stack([self.tmin, self.tmax])
        autumn = both[:, :, :AUTUMN_DAYS] if self.autumn is None else self.autumn
        return np.concatenate([autumn[:, :, AUTUMN_DAYS - days :], both], axis=2)

    @cached_property
    def tmean(self) -> FloatArray:
        """Mean of minimum and maximum, (members, days) [degC]."""
        return (self.tmin + self.tmax) / 2

    def likely(self, days: FloatArray, probabilities: Sequence[float] = (0.1, 0.5, 0.9)) -> Likely:
        """Dates at the 10, 50 and 90 % points of day numbers `days` (any shape; inf = never)."""
        ordered = np.sort(np.asarray(days, dtype=float), axis=None)
        at = [ordered[min(len(ordered) - 1, round(p * (len(ordered) - 1)))] for p in probabilities]
        return Likely(*(self.axis.date(v) if np.isfinite(v) else None for v in at))
