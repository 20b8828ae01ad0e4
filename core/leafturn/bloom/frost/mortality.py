"""Share of buds or flowers that a cold night kills, between the two temperatures that the tables give."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike

from leafturn.base.arrays import FloatArray

LOG_NINE = math.log(9.0)  # odds of nine to one, at either table value
LEAST_WIDTH_C = 0.1  # tables are read to a tenth of a degree


def killed_share(celsius: ArrayLike, tenth_c: ArrayLike, nine_tenths_c: ArrayLike) -> FloatArray:
    """Share killed by half an hour at a temperature.

    A logistic curve: exactly 0.1 at `tenth_c`, exactly 0.9 at `nine_tenths_c`, half in the middle.

    Parameters
    ----------
    celsius : array_like [degC]
        The night's minimum where the plant stands.
    tenth_c, nine_tenths_c : array_like [degC]
        Temperatures that kill 10 and 90 %. Given the wrong way round they are turned; closer together
        than 0.1 degC they are set that far apart.

    Returns
    -------
    array, 0 to 1, of the broadcast shape
        Never rises with the temperature.

    Notes
    -----
    The tables give two points and say nothing of what lies between or beyond; the curve is ours. It is
    the one commonly fitted to freezing tests.
    """
    return np.asarray(1.0 / (1.0 + np.exp(-odds(celsius, tenth_c, nine_tenths_c))))


def odds(celsius: ArrayLike, tenth_c: ArrayLike, nine_tenths_c: ArrayLike) -> FloatArray:
    """Logarithm of the odds of being killed; arguments as of `killed_share`. Held within +-700."""
    first, second = np.asarray(tenth_c, dtype=float), np.asarray(nine_tenths_c, dtype=float)
    width = np.maximum(np.abs(first - second), LEAST_WIDTH_C)
    below_middle = (first + second) / 2 - np.asarray(celsius, dtype=float)
    return np.asarray(np.clip(2 * LOG_NINE * below_middle / width, -700.0, 700.0))
