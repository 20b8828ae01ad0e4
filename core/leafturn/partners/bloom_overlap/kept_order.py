"""How far plants of one kind stray from their usual order of bloom in one spring.

Notes
-----
A forecast strays for each plant by itself, since none knows how early that plant is. Two plants of one kind
in one garden meet the same spring: the order of bloom of cultivars holds from year to year, which is why
growers' lists of flowering groups work at all. So what a plant strays from the middle of its kind within a
spring is held to a few days; what it differs from the others on average, by its cultivar or its own notes,
stays as forecast. Kinds are not held to one another.
"""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from leafturn.base.arrays import FloatArray
from leafturn.partners.bloom_overlap.overlap import Window
from leafturn.partners.chance.pollen_plants import PollenPlant


def steadied(plants: Iterable[PollenPlant], stray_days: float) -> dict[int, Window]:
    """First open and end of every plant with a forecast, (draws,) each, by the identity of the plant.

    Parameters
    ----------
    plants : iterable of PollenPlant
        Some may come twice.
    stray_days : float [d]
        Standard deviation, from spring to spring, of the days between two plants of one kind.
    """
    by_kind: dict[str, dict[int, tuple[FloatArray, FloatArray]]] = {}
    for plant in plants:
        if plant.bloom is not None:
            by_kind.setdefault(plant.kind.name, {})[id(plant)] = plant.bloom
    found: dict[int, Window] = {}
    for blooms in by_kind.values():
        starts = np.stack([start for start, _ in blooms.values()])
        for (key, (start, end)), days in zip(blooms.items(), moves(starts, stray_days), strict=True):
            found[key] = Window(start + days, end + days)
    return found


def moves(starts: FloatArray, stray_days: float) -> FloatArray:
    """Days to move each by, so that what it strays from the middle of all is held to a standard deviation.

    Parameters
    ----------
    starts : (plants, draws) [day number]
        Of plants of one kind; inf in draws in which one does not flower.
    stray_days : float [d]
        Between any two of them.

    Returns
    -------
    (plants, draws) [d]
        0 in draws in which a plant does not flower.
    """
    known = np.isfinite(starts)
    count = known.sum(axis=0)
    days = np.where(known, starts, 0.0)
    middle = days.sum(axis=0) / np.maximum(count, 1)
    apart = np.where(known, days - middle, 0.0)
    draws = np.maximum(known.sum(axis=1, keepdims=True), 1)
    usual = apart.sum(axis=1, keepdims=True) / draws
    strays = np.where(known, apart - usual, 0.0)
    sd = np.sqrt((strays**2).sum(axis=1, keepdims=True) / draws)
    # of two plants each is half of the way from their middle; of many, one by the root of two of it
    most = stray_days * np.sqrt(0.5 * (1.0 - 1.0 / max(len(starts), 2)))
    keep = np.minimum(most / np.maximum(sd, 1e-9), 1.0)
    return np.asarray((keep - 1.0) * strays)
