"""The names of the arrays that pass between modules; each function's docstring gives axes and unit."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]
"""Numbers in double precision: everything but the geometry of crowns."""

Float32Array = NDArray[np.float32]
"""Numbers in single precision: crowns, rays and light, where there are many and three digits do."""

IndexArray = NDArray[np.intp]
"""Places along an axis, or whole numbers that stand for one of a few things."""

BoolArray = NDArray[np.bool_]
"""Yes or no, one a place."""
