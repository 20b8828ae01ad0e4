"""Stated frost days met to the day, where the spread of made-up years comes within a few of them.

Forty years are few: hardly any spread of the days puts both the middle year and one in ten on the day that is
stated. What is left is mended in the few years that it takes, by single nights a little colder or warmer.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from msgspec.structs import replace

from leafturn.base.arrays import FloatArray, IndexArray
from leafturn.weather.normals.normals import MovedNight, Normals

MOST = 3.0  # [degC] that a night may be moved by; guess
OFF_EDGE = 0.1  # [degC] so far off freezing a moved night is


class FrostPoint(NamedTuple):
    """In `years` of the made-up years, and no more, the frost nearest to midsummer has come by `day`."""

    day: int
    years: int


def to_the_day(
    normals: Normals, places: IndexArray, points: Sequence[FrostPoint], noise: FloatArray
) -> Normals:
    """Normals whose made-up years meet frost days; a day for which a night would move too far is left.

    Parameters
    ----------
    normals : Normals
    places : (days,)
        Of spring or autumn in the year, counted outward from midsummer.
    points : sequence of FrostPoint
        The usual day, and that of one year in ten.
    noise : (years, 366)
        What made-up years stray by, in units of the daily spread.
    """
    minima = (normals.tmin + normals.night_shift)[places] + normals.spread[places] * noise[:, places]
    moved: list[MovedNight] = []
    kept = 0  # days from midsummer on whose frosts another point has settled
    for point in sorted(points):
        for change in (_warmer, _colder):
            for year, day in change(point, kept, minima):
                celsius = (OFF_EDGE if change is _warmer else -OFF_EDGE) - float(minima[year, day])
                moved.append(MovedNight(year, int(places[day]), celsius))
                minima[year, day] += celsius
        kept = point.day + 1
    return replace(normals, moved_nights=(*normals.moved_nights, *moved))


def _warmer(point: FrostPoint, kept: int, minima: FloatArray) -> list[tuple[int, int]]:
    """Nights, by year and day, whose frosts come before the day of a point in more years than they may."""
    before = minima[:, : point.day] <= 0
    excess = int(before.any(axis=1).sum()) - (point.years - 1)
    free = np.flatnonzero(before.any(axis=1) & ~before[:, :kept].any(axis=1))
    mildest = free[np.argsort(-minima[free, kept : point.day].min(axis=1))][: max(excess, 0)]
    nights = [(int(year), int(day)) for year in mildest for day in np.flatnonzero(before[year])]
    return nights if all(minima[night] >= -MOST for night in nights) else []


def _colder(point: FrostPoint, kept: int, minima: FloatArray) -> list[tuple[int, int]]:
    """Nights, by year and day, to freeze on the day of a point where too few years have a frost by then."""
    by_then = (minima[:, : point.day + 1] <= 0).any(axis=1)
    lack = point.years - int(by_then.sum())
    free = np.flatnonzero(~by_then)
    coldest = free[np.argsort(minima[free, point.day])][: max(lack, 0)]
    nights = [(int(year), point.day) for year in coldest]
    return nights if all(minima[night] <= MOST for night in nights) else []
