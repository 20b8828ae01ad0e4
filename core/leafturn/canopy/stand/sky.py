"""Directions of light: rays towards the sun's track and the bright sky, each with its weight."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import cached_property, lru_cache

import numpy as np

from leafturn.base.arrays import Float32Array, FloatArray
from leafturn.base.value import Value
from leafturn.canopy.stand.fan import Fan
from leafturn.season.sun import position

# Clear air lets 0.7 ** (air mass ** 0.678) of the sun through. Meinel and Meinel (1976), Applied Solar
# Energy; recalled, not re-read. Only the weight of low against high sun depends on it.
_CLEAR_AIR, _AIR_MASS_POWER = 0.7, 0.678
_YEAR = 2024  # any year would do: the sun's track changes by less than half a degree between years


class Site(Value):
    """Lie of the land.

    Parameters
    ----------
    latitude : float [deg]
        South is negative.
    slope : float [deg]
        Of the ground, 0 if level.
    faces : float [deg]
        Where the slope faces, downhill, clockwise from north.
    horizon : tuple of float [deg]
        How high hills and houses stand above the level, at even steps clockwise from north.
    """

    latitude: float
    slope: float = 0.0
    faces: float = 180.0
    horizon: tuple[float, ...] = ()


class Sampling(Value, eq=False):
    """Rays from the ground to the light.

    Parameters
    ----------
    rays : (d, 3)
        Unit vectors east, north, up. Those below the horizon of hills and houses are left out.
    weights : (d,)
        Each ray's share of the light of the same ground under an open sky; they add up to 1 where
        nothing stands on the horizon, else to less.
    """

    rays: Float32Array
    weights: Float32Array

    @cached_property
    def fan(self) -> Fan:
        """The rays, sorted."""
        return Fan.of(self.rays)


@lru_cache(maxsize=64)
def sampling(
    site: Site,
    months: tuple[int, ...],
    direct: float,
    minutes: int = 60,
    rings: int = 6,
    bearings: int = 16,
) -> Sampling:
    """Rays for some months, always the same for the same arguments.

    Parameters
    ----------
    site : Site
    months : tuple of int
        1 to 12; the middle day of each stands for it.
    direct : float
        Share of the light of those months that comes straight from the sun, 0 to 1.
    minutes : int
        Between two places of the sun.
    rings, bearings : int
        The sky is cut into this many rings, each of the same light on level ground, and bearings.

    Notes
    -----
    Sun by clear air over the whole day, both halves alike; sky equally bright everywhere. Both stand for
    a mean over many days: a real month has more light before noon or after it.
    """
    normal = _normal(site)
    parts = [(ray, direct * weight) for ray, weight in (_sun(site, months, normal, minutes),)]
    parts += [(ray, (1 - direct) * weight) for ray, weight in (_sky(normal, rings, bearings),)]
    if not parts[0][1].any():  # polar night
        parts[1] = (parts[1][0], parts[1][1] / max(1 - direct, 1e-9))
    rays = np.concatenate([ray for ray, _ in parts])
    weights = np.concatenate([weight for _, weight in parts])
    seen = (weights > 0) & (_elevation(rays) >= _horizon_at(site.horizon, rays))
    return Sampling(rays=rays[seen].astype(np.float32), weights=weights[seen].astype(np.float32))


def in_leaf(month: int, latitude: float) -> float:
    """Share of its leaves a leaf-shedding crown carries in a month: a guess for the middle latitudes."""
    northern = month if latitude >= 0 else (month + 5) % 12 + 1
    return {4: 0.5, 10: 0.5}.get(northern, 1.0 if 5 <= northern <= 9 else 0.0)


def sun_track(latitude: float, month: int, minutes: int) -> tuple[FloatArray, FloatArray]:
    """Elevation and azimuth [deg] of the sun over the middle day of a month, evenly about its noon."""
    # seen from the pole, the sun stands as high as its declination
    elevation, _ = position(90.0, 0.0, np.datetime64(f"{_YEAR}-{month:02d}-15T12:00"))
    declination, phi = math.radians(float(elevation)), math.radians(latitude)
    half = np.arange(minutes / 2, 12 * 60, minutes)
    hours = np.radians(np.concatenate([-half[::-1], half]) / 4)
    sine = math.sin(phi) * math.sin(declination) + math.cos(phi) * math.cos(declination) * np.cos(hours)
    azimuth = np.arctan2(
        -math.cos(declination) * np.sin(hours),
        math.cos(phi) * math.sin(declination) - math.sin(phi) * math.cos(declination) * np.cos(hours),
    )
    return np.degrees(np.arcsin(np.clip(sine, -1, 1))), np.degrees(azimuth) % 360


def _sun(
    site: Site, months: Sequence[int], normal: FloatArray, minutes: int
) -> tuple[FloatArray, FloatArray]:
    tracks = [sun_track(site.latitude, month, minutes) for month in months]
    elevation = np.concatenate([e for e, _ in tracks])
    azimuth = np.concatenate([a for _, a in tracks])
    up = elevation > 0
    rays = unit(elevation[up], azimuth[up])
    mass = 1 / np.maximum(rays[:, 2], 0.02)
    weights = _CLEAR_AIR ** (mass**_AIR_MASS_POWER) * np.maximum(rays @ normal, 0)
    return rays, weights / max(weights.sum(), 1e-12)


def _sky(normal: FloatArray, rings: int, bearings: int) -> tuple[FloatArray, FloatArray]:
    sine = np.sqrt((np.arange(rings) + 0.5) / rings)
    azimuth = (np.arange(bearings) + 0.5) * 360 / bearings
    high, round_about = np.meshgrid(np.degrees(np.arcsin(sine)), azimuth, indexing="ij")
    rays = unit(high.ravel(), round_about.ravel())
    weights = np.maximum(rays @ normal, 0) / rays[:, 2]
    return rays, weights / weights.sum()


def unit(elevation: FloatArray, azimuth: FloatArray) -> FloatArray:
    """Unit vectors east, north, up, (n, 3), from angles [deg]."""
    high, round_about = np.radians(elevation), np.radians(azimuth)
    flat = np.cos(high)
    return np.stack([flat * np.sin(round_about), flat * np.cos(round_about), np.sin(high)], axis=1)


def _normal(site: Site) -> FloatArray:
    return np.asarray(unit(np.array([90.0 - site.slope]), np.array([site.faces]))[0])


def _elevation(rays: FloatArray) -> FloatArray:
    return np.asarray(np.degrees(np.arcsin(np.clip(rays[:, 2], -1, 1))))


def _horizon_at(horizon: tuple[float, ...], rays: FloatArray) -> FloatArray:
    if not horizon:
        return np.zeros(len(rays))
    azimuth = np.degrees(np.arctan2(rays[:, 0], rays[:, 1])) % 360
    steps = np.arange(len(horizon)) * 360 / len(horizon)
    return np.asarray(np.interp(azimuth, steps, horizon, period=360))
