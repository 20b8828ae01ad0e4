"""The ensemble of one season: weather observed to date, then that of each past year from today on."""

from __future__ import annotations

import math
from functools import cached_property

import numpy as np

from leafturn.base import prose
from leafturn.base.arrays import FloatArray, in_order
from leafturn.base.date_range import SHARES, Likely
from leafturn.base.evidence import Basis
from leafturn.base.value import Value
from leafturn.season.axis import SeasonAxis
from leafturn.weather.normals.normals import NormalsBasis

AUTUMN_DAYS = 61  # September and October, or March and April, before the axis begins
BY_LATITUDE: tuple[NormalsBasis, ...] = ("latitude and rare frost", "latitude alone")
GUESSED: tuple[NormalsBasis, ...] = ("two frost dates", *BY_LATITUDE)
REPEATS = 8  # draws of everything that weather does not settle, for each weather year


class MembersFrom(Value):
    """What the members of an ensemble are made of.

    Parameters
    ----------
    own_years : int
        How many of them are past years of the garden's own record.
    made_up : bool
        Whether there are made-up years beside them.
    normals : NormalsBasis
        What the made-up years are made round.
    """

    own_years: int
    made_up: bool
    normals: NormalsBasis

    @property
    def measured(self) -> bool:
        """Whether every member is a past year of the garden's own."""
        return self.own_years > 0 and not self.made_up

    @property
    def by_latitude(self) -> bool:
        """Whether the warmth of the year is guessed from the latitude."""
        return not self.measured and self.normals in BY_LATITUDE

    @property
    def latitude_alone(self) -> bool:
        """Whether nothing but the latitude tells of the warmth of the year."""
        return not self.measured and self.normals == "latitude alone"

    @property
    def words(self) -> str:
        """As told: "own record", or "5 own years, others made up round climate normals"."""
        if self.measured:
            return "own record"
        if not self.own_years:
            return self.normals if self.normals != "own record" else "a short own record"
        round_what = "them" if self.normals == "own record" else self.normals
        return f"{prose.count(self.own_years, 'own year')}, others made up round {round_what}"


class Ensemble(Value, eq=False):
    """Daily weather of one season in as many members as there are past years.

    Parameters
    ----------
    axis : SeasonAxis
        What the day numbers mean.
    tmin, tmax : (members, days) [degC]
        Every member is the same on the days that were observed. Days up to `observed_to` without a reading
        keep each member's own past or made-up day, so that the uncertainty of them stays.
    rain : (members, days) [mm]
    autumn : (2, members, AUTUMN_DAYS) or None [degC]
        Minima and maxima of the days before day 0, whose cold counts for the winter's rest; None where
        they are taken as the first days of the axis.
    latitude : float [deg]
        For the length of the days.
    observed_to : int
        Day number of the last day that is observed or filled; negative if none is.
    filled : int
        How many days since the season's start up to then come from normals.
    """

    axis: SeasonAxis
    tmin: FloatArray
    tmax: FloatArray
    rain: FloatArray
    observed_to: int
    filled: int
    made_of: MembersFrom
    autumn: FloatArray | None = None
    latitude: float = 45.0

    @property
    def members(self) -> int:
        """How many ensemble members there are."""
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
        return self.made_of.by_latitude

    @property
    def sureness(self) -> Basis:
        """How far dates may lean on this weather: "own record", "rule of thumb" or "guess"."""
        if self.made_of.measured:
            return "own record"
        return "guess" if self.made_of.normals in GUESSED else "rule of thumb"

    @property
    def filled_words(self) -> str:
        """How many days of the season so far come from normals, "3 of 12 days"; empty where none does."""
        so_far = self.observed_to - self.axis.day(self.axis.start) + 1
        return f"{self.filled} of {prose.count(so_far, 'day')}" if self.filled and so_far > 0 else ""

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

    def has_days_of(self, other: Ensemble) -> bool:
        """Whether every member has the same weather as that of another, from its autumn on."""
        own, others = (
            (e.tmin, e.tmax, e.rain, *(() if e.autumn is None else e.autumn)) for e in (self, other)
        )
        return len(own) == len(others) and all(
            np.array_equal(one, two, equal_nan=True) for one, two in zip(own, others, strict=True)
        )

    def likely(self, days: FloatArray) -> Likely:
        """Dates at the 10, 50 and 90 % points of day numbers `days` (any shape; inf = never)."""
        return self.likely_in_order(np.sort(days, axis=None))

    def likely_in_order(self, ordered: FloatArray) -> Likely:
        """The same of day numbers that are in order already, (n,)."""
        at = [in_order(ordered, p) for p in SHARES]
        return Likely(*(self.axis.date(v) if math.isfinite(v) else None for v in at))
