"""The weather that a forecast stands on."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from leafturn.bloom.own_needs import PastHeat
from leafturn.season.axis import SeasonAxis
from leafturn.season.ensemble import Ensemble
from leafturn.season.heat import HeatSums
from leafturn.season.winter_chill import WinterChill
from leafturn.weather.record import DailyRecord

FloatArray = NDArray[np.float64]


@dataclass(frozen=True, eq=False, kw_only=True)
class SeasonWeather:
    """This season, the same season as it usually is, and the seasons before.

    Parameters
    ----------
    now : Ensemble
        This season, observed to date.
    now_heat, usual_heat : HeatSums
        Heat of this season, and of the same season before anything of it was known.
    past : PastHeat
        Heat of past seasons, for notes of earlier years.
    latitude : float [deg]
    record : DailyRecord or None
        The garden's own weather up to the day of asking.
    """

    now: Ensemble
    now_heat: HeatSums
    usual_heat: HeatSums
    past: PastHeat
    latitude: float
    record: DailyRecord | None = None

    @property
    def axis(self) -> SeasonAxis:
        """The season's days."""
        return self.now.axis

    @cached_property
    def chill(self) -> WinterChill:
        """The chill of this season's winter, in every version of it."""
        return WinterChill(self.axis, self.now.tmin, self.now.tmax, self.latitude)

    @cached_property
    def usual_chill(self) -> WinterChill:
        """The chill of the same winter as it usually is."""
        usual = self.usual_heat.ensemble
        return WinterChill(self.axis, usual.tmin, usual.tmax, self.latitude)

    def observed(self, quantity: Literal["tmin", "tmax", "rain"], day: dt.date) -> float:
        """What the record knows of a day [degC or mm]; NaN if it knows nothing."""
        if self.record is None or not self.record.first <= day <= self.record.last:
            return float("nan")
        values: FloatArray = getattr(self.record, quantity)
        return float(values[(day - self.record.first).days])
