"""The weather that a forecast stands on."""

from __future__ import annotations

import datetime as dt
from functools import cached_property
from typing import Literal

import numpy as np

from leafturn.base.arrays import FloatArray
from leafturn.base.kept import kept
from leafturn.base.value import Value
from leafturn.bloom.priors.response import Timing
from leafturn.bloom.site_years import SiteYears, site_years
from leafturn.bloom.warmth import Warmth, warmth_of
from leafturn.season.axis import SeasonAxis
from leafturn.season.climate import SUMMER, WINTER, range_of_months
from leafturn.season.degree_days import four_case
from leafturn.season.ensemble import Ensemble
from leafturn.season.heat import HeatSums
from leafturn.season.winter_chill import WinterChill
from leafturn.weather.record import DailyRecord


class SeasonWeather(Value, eq=False):
    """This season, the same season as it usually is, and the seasons before.

    Parameters
    ----------
    now, usual : Ensemble
        This season, observed to date, and the same season before anything of it was known.
    record : DailyRecord or None
        The garden's own weather up to the day of asking.
    """

    now: Ensemble
    usual: Ensemble
    record: DailyRecord | None = None

    @property
    def axis(self) -> SeasonAxis:
        """The season's days."""
        return self.now.axis

    @cached_property
    def is_usual(self) -> bool:
        """Whether nothing is known of this season's days by which they differ from the usual ones."""
        return self.now is self.usual or self.now.has_days_of(self.usual)

    @cached_property
    def now_heat(self) -> HeatSums:
        """Heat of this season."""
        return HeatSums(self.now)

    @cached_property
    def usual_heat(self) -> HeatSums:
        """Heat of the usual season."""
        return self.now_heat if self.is_usual else HeatSums(self.usual)

    @cached_property
    def now_four_cases(self) -> HeatSums:
        """Heat of this season by the four cases of met services."""
        return HeatSums(self.now, four_case)

    @cached_property
    def usual_four_cases(self) -> HeatSums:
        """Heat of the usual season by the four cases of met services."""
        return self.now_four_cases if self.is_usual else HeatSums(self.usual, four_case)

    @cached_property
    def winter(self) -> float:
        """Mean temperature of the usual December to February, south June to August [degC]."""
        return float(np.nanmean(self.usual.tmean[:, WINTER]))

    @cached_property
    def summer(self) -> float:
        """Mean temperature of the usual June to August, south December to February [degC]."""
        return float(np.nanmean(self.usual.tmean[:, SUMMER]))

    @property
    def seasons(self) -> float:
        """How far the usual year's warmest and coldest months lie apart [degC]."""
        return range_of_months(self.usual)

    @property
    def warmth(self) -> Warmth:
        """Warmth of this season as a response counts it."""
        return warmth_of(self.now)

    @property
    def usual_warmth(self) -> Warmth:
        """The same of the usual season."""
        return self.warmth if self.is_usual else warmth_of(self.usual)

    @cached_property
    def past(self) -> SiteYears | None:
        """Past seasons of the record; None without one."""
        return None if self.record is None else site_years(self.record, self.axis.southern)

    @kept
    def past_sums(self, timing: Timing, season: int) -> FloatArray:
        """Warmth of a past season as a response counts it, (days,) from the first of October on."""
        assert self.past is not None
        low, high = self.past.season(season)[:, None]
        whole: FloatArray = timing.sums(low, high, self.warmth.hours[: low.shape[1]])
        return np.asarray(whole[0])

    @cached_property
    def chill(self) -> WinterChill:
        """The chill of this season's winter, in every ensemble member."""
        return WinterChill(self.now)

    def observed(self, quantity: Literal["tmin", "tmax", "rain"], day: dt.date) -> float:
        """What the record knows of a day [degC or mm]; NaN if it knows nothing."""
        if self.record is None or not self.record.first <= day <= self.record.last:
            return float("nan")
        values: FloatArray = getattr(self.record, quantity)
        return float(values[(day - self.record.first).days])
