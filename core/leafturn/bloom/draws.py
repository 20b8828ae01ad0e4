"""The part of a date's uncertainty that weather does not settle, the same at every run."""

from __future__ import annotations

import zlib
from functools import lru_cache
from statistics import NormalDist

import numpy as np

from leafturn.base.arrays import FloatArray


@lru_cache(maxsize=16384)  # several names a plant, of some thousands of plants
def draws_of(draws: int, name: str) -> FloatArray:
    """Standard normal quantiles in an order fixed by a name.

    Nothing changes from run to run, mean and spread are exact, and two names are as good as independent.

    Returns
    -------
    (draws,) [standard deviations]
    """
    return np.random.default_rng(zlib.crc32(name.encode())).permutation(_quantiles(draws))


@lru_cache(maxsize=16)
def _quantiles(draws: int) -> FloatArray:
    normal = NormalDist()
    return np.array([normal.inv_cdf((i + 0.5) / draws) for i in range(draws)])
