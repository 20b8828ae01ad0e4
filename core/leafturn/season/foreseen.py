"""Nights to come whose minimum is foreseen: typed for tonight, or read from a file of a forecast.

References
----------
.. [1] Met Office, Accuracy performance (read): 86.5 % of minima of the first night within 2 degC, which is a
   standard deviation of 1.3 degC.
.. [2] MetGIS, Forecast quality, temperature (read): mean absolute error over 1 to 5 days 1.0, 1.2, 1.4, 1.8
   and 2.3 degC at one station in the Alps, winter 2011/12.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator

import numpy as np
from msgspec.structs import replace

from leafturn.base.value import Value
from leafturn.journal.entries import ColdNightNote, Entry
from leafturn.journal.noted import of_kind
from leafturn.season.ensemble import Ensemble
from leafturn.weather.record import DailyRecord

DAY = dt.timedelta(days=1)
# [degC] standard deviation of a foreseen minimum, the night to come first: 1.25 times the errors of [2]. The
# night to come is taken at its word, as one that is typed. Nights beyond are not looked at.
STRAYS_C = (0.0, 1.4, 1.7, 2.3, 2.9)


class ForeseenNight(Value):
    """The minimum of a night to come at the weather station [degC]; `eve` is the day before its morning."""

    eve: dt.date
    station_c: float
    typed: bool


def foreseen_nights(
    forecast: DailyRecord | None, entries: Iterable[Entry], on: dt.date, pocket_c: float
) -> tuple[ForeseenNight, ...]:
    """The nights after a day that are foreseen, five at most.

    Parameters
    ----------
    forecast : DailyRecord or None
        Days ahead, as a file has them: minima of the weather station. Days up to `on` tell nothing.
    entries : iterable of Entry
        What was typed for the night to come goes before the file.
    on : date
    pocket_c : float [degC]
        How much warmer the garden is than the station on still nights; what is typed is the garden's.
    """
    given = [e.tmin_c for e in of_kind(entries, ColdNightNote) if e.on == on and e.tmin_c is not None]
    nights = {night.eve: night for night in _of_file(forecast, on)}
    if given:
        nights[on] = ForeseenNight(eve=on, station_c=given[-1] - pocket_c, typed=True)
    return tuple(nights[eve] for eve in sorted(nights))


def _of_file(forecast: DailyRecord | None, on: dt.date) -> Iterator[ForeseenNight]:
    for ahead in range(len(STRAYS_C) if forecast is not None else 0):
        eve = on + ahead * DAY
        place = (eve + DAY - forecast.first).days if forecast is not None else -1
        if forecast is not None and 0 <= place < len(forecast) and not np.isnan(forecast.tmin[place]):
            yield ForeseenNight(eve=eve, station_c=float(forecast.tmin[place]), typed=False)


def with_foreseen(ensemble: Ensemble, nights: Iterable[ForeseenNight], on: dt.date) -> Ensemble:
    """The ensemble with its minima of foreseen nights: about what is foreseen, strewn as forecasts miss."""
    tmin = ensemble.tmin
    for night in nights:
        place = ensemble.axis.day(night.eve + DAY)
        if not 0 <= place < tmin.shape[1]:
            continue
        tmin = tmin.copy() if tmin is ensemble.tmin else tmin
        about = tmin[:, place] - tmin[:, place].mean()
        spread = float(about.std())
        strays = STRAYS_C[(night.eve - on).days]
        tmin[:, place] = night.station_c + (about * strays / spread if spread > 0 else 0.0)
    return ensemble if tmin is ensemble.tmin else replace(ensemble, tmin=tmin)
