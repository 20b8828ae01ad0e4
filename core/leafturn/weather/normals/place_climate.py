"""What a year is like where nothing is known but the place: between the towns about it."""

from __future__ import annotations

import math
from functools import cache, lru_cache
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike

from leafturn.base.arrays import FloatArray, IndexArray
from leafturn.toml.packaged import packaged

Town = tuple[float, float, float, float, float, float, float, float, float, float, float]
Seasons = tuple[float, float, float, float]
Turn = tuple[float, float, float, float, float, float, float, float, float, float]

EQUATOR, TO_POLE = 29.0, 34.0  # [degC] mean of the year is about EQUATOR - TO_POLE sin(latitude)^2; guess
LAPSE = 6.5  # [degC/km], ICAO standard atmosphere 1993
EARTH_KM = 6371.0
DAYS = 365
LAST_DIGITS = 9
# So many of the nearest towns are weighed; a kilometre of height parts two places as so many along the
# ground do, and towns side by side differ as if so far apart. Chosen so that towns are told best from others.
NEAR_TOWNS, HEIGHT_PARTS_KM, SIDE_BY_SIDE_KM = 40, 1000.0, 20.0
# [degC] usual minimum over which frost is seldom, as in `rough_year`; what a day more or less of such nights
# parts two places [km]: a guess, with which last frosts stray as published on Oregon's coast and behind it
SELDOM_FROST, DAY_PARTS_KM = 5.4, 4.0

towns = packaged("leafturn.weather.normals", "towns.toml", dict[str, dict[str, Town]])
"""Every town by its part of the world and its name: see towns.toml."""

turns = packaged("leafturn.weather.normals", "turns.toml", dict[str, Turn])
"""How the year turns between its four seasons, by the name of the town: see turns.toml."""


class PlaceClimate(NamedTuple):
    """A usual year in few numbers.

    `mean` is that of the year and `half_range` half of what the warmest days are above the coldest [degC];
    `coldest` is the day of January (south: July) on which the wave through the months is lowest, `between`
    how much warmer spring and autumn are than that wave [degC], and `day_night` the maximum less the minimum
    of a day in winter, spring, summer and autumn [degC]. `turns` is how much warmer late winter, early
    summer, late summer and late autumn are, at the most, than all that has them [degC]; `night_turns` the
    same of minima.
    """

    mean: float
    half_range: float
    coldest: float
    between: float
    day_night: Seasons
    turns: Seasons
    night_turns: Seasons


@lru_cache(maxsize=64)
def climate_at(
    latitude: float, longitude: float, height_m: float | None, frost_free_days: int | None = None
) -> PlaceClimate:
    """The usual year of a place, between those of the towns about it.

    What towns have beyond their latitude and height is carried over by ordinary kriging with a linear
    variogram (Matheron 1963, Principles of geostatistics, Economic Geology 58: 1246-1266). Towns outside the
    tropics are told from the others to within 0.7 degC in April and in the mean of the year, and how their
    year turns between the seasons to within 0.4 degC.

    Parameters
    ----------
    latitude, longitude : float [deg]
    height_m : float [m] or None
        Above the sea; where it is not told, that of the towns.
    frost_free_days : int or None
        From the usual last frost to the first, if they are told: towns as long without frost are then
        nearer, so that a coast and the valley behind it are told apart.
    """
    rows, traits = _known_towns()
    parted = [(_on_globe(rows[:, 0], rows[:, 1]), _on_globe(latitude, longitude))]
    if height_m is not None:
        parted.append((rows[:, 2:3] * HEIGHT_PARTS_KM / 1000, np.array([height_m * HEIGHT_PARTS_KM / 1000])))
    if frost_free_days is not None:
        parted.append((_frost_free_days() * DAY_PARTS_KM, np.array([frost_free_days * DAY_PARTS_KM])))
    near, weights = _weights(*map(np.hstack, zip(*parted, strict=True)))
    if height_m is None:
        height_m = max(float(weights @ rows[near, 2]), 0.0)
    warmer, cosine, sine, between, *day_night = map(float, weights @ traits[near])
    known, turned = _known_turns()
    near, weights = _weights(known, _on_globe(latitude, longitude))
    turns_here = tuple(map(float, weights @ turned[near]))
    return PlaceClimate(
        mean=float(_by_latitude(latitude)) + warmer - LAPSE * height_m / 1000,
        half_range=math.hypot(cosine, sine) * float(_seasonal(latitude)),
        coldest=15 + math.degrees(math.atan2(sine, cosine)) * 365.25 / 360,
        between=between,
        day_night=(day_night[0], day_night[1], day_night[2], day_night[3]),
        turns=(turns_here[0], turns_here[1], turns_here[2], turns_here[3]),
        night_turns=(turns_here[4], turns_here[5], turns_here[6], turns_here[7]),
    )


def _weights(positions: FloatArray, here: FloatArray) -> tuple[IndexArray, FloatArray]:
    """The nearest towns, and how much each of them counts; together 1."""
    away = np.linalg.norm(positions - here, axis=1)
    near = np.argsort(away, kind="stable")[:NEAR_TOWNS]
    count, points = len(near), positions[near]
    system = np.ones((count + 1, count + 1))
    system[:count, :count] = np.linalg.norm(points[:, None] - points, axis=2)
    np.fill_diagonal(system, -SIDE_BY_SIDE_KM)
    system[count, count] = 0.0
    weights = np.linalg.solve(system, np.append(away[near], 1.0))[:count]
    return near, weights.round(LAST_DIGITS)  # beyond which processors round in ways of their own


@cache
def _known_towns() -> tuple[FloatArray, FloatArray]:
    """What is told of each town, (towns, 11), and its traits, (towns, 8), as `_traits` has them."""
    rows = np.array([row for part in towns().values() for row in part.values()])
    return rows, _traits(rows)


@cache
def _known_turns() -> tuple[FloatArray, FloatArray]:
    """Where towns lie whose turns between the seasons are told, (towns, 3) [km]; these, (towns, 8) [degC]."""
    rows = np.array(list(turns().values()))
    return _on_globe(rows[:, 0], rows[:, 1]), rows[:, 2:]


@cache
def _frost_free_days() -> FloatArray:
    """Days of the year with a usual minimum over which frost is seldom, (towns, 1)."""
    winter, spring, summer, autumn = _known_towns()[0][:, 4::2].T[..., None]
    angle = 2 * np.pi * np.arange(DAYS) / DAYS
    minimum = (winter - summer) / 2 * np.cos(angle) + (spring - autumn) / 2 * np.sin(angle)
    minimum += (winter + summer - spring - autumn) / 4 * np.cos(2 * angle)
    minimum += (winter + spring + summer + autumn) / 4
    return np.asarray(np.count_nonzero(minimum > SELDOM_FROST, axis=1, keepdims=True), dtype=float)


def _on_globe(latitude: ArrayLike, longitude: ArrayLike) -> FloatArray:
    """Where places lie, (..., 3) [km]."""
    north, east = np.radians(latitude), np.radians(longitude)
    on_globe = np.cos(north) * np.cos(east), np.cos(north) * np.sin(east), np.sin(north)
    return np.stack([EARTH_KM * part for part in on_globe], axis=-1)


def _traits(rows: FloatArray) -> FloatArray:
    """What towns have beyond latitude and height: warmth, seasons, days less nights, (towns, 8).

    The year's mean at sea level above what the latitude has; the wave through its seasons in parts of what
    the latitude makes of it; how much warmer spring and autumn are; maximum less minimum of four seasons.
    """
    latitude, _, height_m = rows[:, :3].T
    months = np.where(latitude[:, None] < 0, np.roll(rows[:, 3:], 4, axis=1), rows[:, 3:])
    high, low = months[:, ::2].T, months[:, 1::2].T
    winter, spring, summer, autumn = mean = (high + low) / 2
    warmer = mean.mean(axis=0) - _by_latitude(latitude) + LAPSE * height_m / 1000
    wave = (summer - winter) / 2 / _seasonal(latitude), (autumn - spring) / 2 / _seasonal(latitude)
    return np.stack([warmer, *wave, (spring + autumn - winter - summer) / 4, *(high - low)], axis=-1)


def _by_latitude(latitude: ArrayLike) -> FloatArray:
    """About the mean of a year at sea level [degC]."""
    return np.asarray(EQUATOR - TO_POLE * np.sin(np.radians(latitude)) ** 2)


def _seasonal(latitude: ArrayLike) -> FloatArray:
    """How far the sun sets seasons apart, as in Conrad's index of continentality (Conrad 1946)."""
    return np.asarray(np.sin(np.radians(np.abs(latitude) + 10.0)))
