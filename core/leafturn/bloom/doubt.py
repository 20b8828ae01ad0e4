"""The part of a date's doubt that weather does not settle, the same at every run."""

from __future__ import annotations

import zlib
from functools import lru_cache
from statistics import NormalDist

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]

SHARED_BY_KIND = 0.6  # guess: share of the variance that plants of one kind have in common


def departures(draws: int, kind: str, plant: str) -> FloatArray:
    """Standard normal departures of one plant, one a draw.

    Plants of one kind share part of theirs, so that they shift together. Values are normal quantiles in
    an order fixed by the names: nothing changes from run to run, and mean and spread are exact.

    Returns
    -------
    (draws,) [standard deviations]
    """
    own = _shuffled(draws, f"plant {plant}")
    shared = _shuffled(draws, f"kind {kind}")
    return np.asarray(np.sqrt(SHARED_BY_KIND) * shared + np.sqrt(1 - SHARED_BY_KIND) * own)


@lru_cache(maxsize=4096)
def _shuffled(draws: int, name: str) -> FloatArray:
    return np.random.default_rng(zlib.crc32(name.encode())).permutation(_quantiles(draws))


@lru_cache(maxsize=16)
def _quantiles(draws: int) -> FloatArray:
    normal = NormalDist()
    return np.array([normal.inv_cdf((i + 0.5) / draws) for i in range(draws)])
