"""Position of the sun, and length of the day."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from leafturn.base.arrays import FloatArray, IndexArray

_NOON_2000 = np.datetime64("2000-01-01T12:00:00", "us")
_MICROSECONDS_A_DAY = 86_400_000_000


def position(
    latitude: ArrayLike,
    longitude: ArrayLike,
    utc: ArrayLike | dt.datetime | Sequence[dt.datetime],
) -> tuple[FloatArray, FloatArray]:
    """Height and bearing of the sun's centre.

    Parameters
    ----------
    latitude, longitude : array_like [deg]
        North and east are positive.
    utc : datetime64 array_like, or datetime
        Moments in universal time. A datetime with a zone is turned into universal time, one without is
        taken to be in it.

    Returns
    -------
    elevation, azimuth : arrays [deg]
        Broadcast over the arguments. Elevation above the horizon without refraction; azimuth clockwise
        from north, 0 to 360. NaN for moments that are not a time.

    Notes
    -----
    Within about 0.01 deg of the full theory from 1950 to 2100. Refraction, which lifts the sun by half a
    degree at the horizon, is left out.

    References
    ----------
    Michalsky, J. J. (1988). The Astronomical Almanac's algorithm for approximate solar position
    (1950-2050). Solar Energy 40: 227-235.
    """
    moments = _as_universal_time(utc)
    days = (moments - _NOON_2000) / np.timedelta64(1, "us") / _MICROSECONDS_A_DAY
    mean_anomaly = np.radians((357.528 + 0.9856003 * days) % 360)
    longitude_of_sun = np.radians(
        (280.460 + 0.9856474 * days + 1.915 * np.sin(mean_anomaly) + 0.020 * np.sin(2 * mean_anomaly)) % 360
    )
    obliquity = np.radians(23.439 - 4e-7 * days)
    sine_longitude = np.sin(longitude_of_sun)
    right_ascension = np.arctan2(np.cos(obliquity) * sine_longitude, np.cos(longitude_of_sun))
    sine_declination = np.sin(obliquity) * sine_longitude
    cosine_declination = np.sqrt(1 - sine_declination**2)

    # Greenwich sidereal time grows by a turn and 1/365.25 a day [deg]
    sidereal = (280.46061837 + 360.98564736629 * days) % 360
    hour_angle = np.radians(sidereal + np.asarray(longitude, dtype=float)) - right_ascension
    phi = np.radians(np.asarray(latitude, dtype=float))
    sine_phi, cosine_phi = np.sin(phi), np.cos(phi)
    cosine_hour = np.cos(hour_angle)
    sine_elevation = sine_phi * sine_declination + cosine_phi * cosine_declination * cosine_hour
    azimuth = np.arctan2(
        -cosine_declination * np.sin(hour_angle),
        cosine_phi * sine_declination - sine_phi * cosine_declination * cosine_hour,
    )
    elevation = np.arcsin(np.clip(sine_elevation, -1, 1))
    return np.asarray(np.degrees(elevation)), np.asarray(np.degrees(azimuth) % 360)


def _as_universal_time(utc: ArrayLike | dt.datetime | Sequence[dt.datetime]) -> NDArray[np.datetime64]:
    """Moments as microseconds of universal time."""
    given: object = utc
    if isinstance(utc, dt.datetime):
        given = _naive(utc)
    elif isinstance(utc, list | tuple):
        given = [_naive(moment) if isinstance(moment, dt.datetime) else moment for moment in utc]
    return np.asarray(given, dtype="datetime64[us]")


def _naive(moment: dt.datetime) -> dt.datetime:
    return moment if moment.tzinfo is None else moment.astimezone(dt.UTC).replace(tzinfo=None)


def declination(day_of_year: ArrayLike) -> FloatArray:
    """The sun's declination [rad] on a day of the year (1 January 1), FAO-56 equation 24."""
    return np.asarray(0.409 * np.sin(2 * np.pi * np.asarray(day_of_year, dtype=float) / 365 - 1.39))


def sunset_hour_angle(latitude: ArrayLike, day_of_year: ArrayLike) -> FloatArray:
    """Hour angle of the sunset [rad], FAO-56 equation 25; 0 where the sun stays down, pi where it stays up.

    Parameters
    ----------
    latitude : array_like [deg]
    day_of_year : array_like
        1 January 1.
    """
    phi = np.radians(np.asarray(latitude, dtype=float))
    return np.asarray(np.arccos(np.clip(-np.tan(phi) * np.tan(declination(day_of_year)), -1, 1)))


def days_of_year(first: dt.date, days: int) -> IndexArray:
    """Days of the year, 1 January being 1, of so many days from a date on, (days,)."""
    dates = np.datetime64(first, "D") + np.arange(days)
    return np.asarray((dates - dates.astype("datetime64[Y]")).astype(np.intp) + 1)


def day_length(latitude: ArrayLike, day_of_year: ArrayLike) -> FloatArray:
    """Hours from sunrise to sunset, FAO-56 equation 34.

    Geometric: centre of the sun, no refraction, so about ten minutes shorter than almanacs give in the
    middle latitudes. The paper's declination strays by up to 1.2 degrees in autumn, twelve minutes of day
    at latitude 50.

    Parameters
    ----------
    latitude : array_like [deg]
    day_of_year : array_like
        1 January 1; broadcasts with `latitude`.

    Returns
    -------
    array [h]

    References
    ----------
    Allen, R. G., Pereira, L. S., Raes, D. and Smith, M. (1998). Crop evapotranspiration. FAO Irrigation
    and Drainage Paper 56, Rome.
    """
    return np.asarray(24 / np.pi * sunset_hour_angle(latitude, day_of_year))
