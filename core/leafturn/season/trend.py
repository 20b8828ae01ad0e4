"""Warming between past years and now: the record's own trend, combined with the known trend of land."""

from __future__ import annotations

import math

import numpy as np

from leafturn.base.value import Value
from leafturn.weather.calendar import day_of_leap_year
from leafturn.weather.normals.normals import Normals
from leafturn.weather.record import DailyRecord

# Land has warmed by about 0.3 degC a decade since 1980 (IPCC AR6 WG1, recalled); the uncertainty is a guess.
USUAL_PER_YEAR, USUAL_STANDARD_ERROR = 0.03, 0.015
FEWEST_DAYS = 300  # a year counts if so many of its days are known
FEWEST_YEARS = 5  # fewer say nothing of a trend


class Warming(Value):
    """The warming trend used, its standard error, and the years of record behind it.

    `per_year` and `standard_error` are in degC a year.
    """

    per_year: float
    standard_error: float
    years: int


def warming_of(record: DailyRecord | None, normals: Normals) -> Warming:
    """Trend of yearly mean temperature: the record's own slope pulled to the usual warming of land.

    Parameters
    ----------
    record : DailyRecord or None
    normals : Normals
        Taken off each day first, so that gaps do not tilt a year.

    Returns
    -------
    Warming
        Without five whole years the usual warming, with its uncertainty.

    Notes
    -----
    The slope is by least squares over yearly mean departures, its standard error from their scatter. It
    and the usual warming are weighed by the inverse of their squared errors (conjugate normal), so a
    short record leans on the usual, a long one on itself.
    """
    if record is None:
        return Warming(per_year=USUAL_PER_YEAR, standard_error=USUAL_STANDARD_ERROR, years=0)
    places = day_of_leap_year(record.first, len(record))
    departure = (record.tmin + record.tmax - normals.tmin[places] - normals.tmax[places]) / 2
    days = record.days
    year = days.astype("datetime64[Y]").astype(int) + 1970
    known = np.isfinite(departure)
    each = [
        y
        for y in range(int(year[0]), int(year[-1]) + 1)
        if np.count_nonzero(known & (year == y)) >= FEWEST_DAYS
    ]
    if len(each) < FEWEST_YEARS:
        return Warming(per_year=USUAL_PER_YEAR, standard_error=USUAL_STANDARD_ERROR, years=len(each))
    means = np.array([departure[known & (year == y)].mean() for y in each])
    from_middle = np.array(each) - np.mean(each)
    spread = float(from_middle @ from_middle)
    slope = float(from_middle @ means) / spread
    scatter = float(np.sum((means - means.mean() - slope * from_middle) ** 2)) / (len(each) - 2)
    error = max(math.sqrt(scatter / spread), 1e-6)
    own, usual = 1 / error**2, 1 / USUAL_STANDARD_ERROR**2
    return Warming(
        per_year=(own * slope + usual * USUAL_PER_YEAR) / (own + usual),
        standard_error=(own + usual) ** -0.5,
        years=len(each),
    )
