"""Light through crowns as published: shares of the sky seen through single crowns in leaf and leafless.

Wilkinson, D. M. (1992), PhD thesis, Manchester, as reprinted in Tregenza and Sharples, Daylight Algorithms,
algorithm 1.44.
"""

from __future__ import annotations

import numpy as np
import pytest

from leafturn.canopy.crowns import Crowns, base_share, density, paths, solid_of
from leafturn.canopy.sky import unit
from leafturn.kinds.library import load_library

LIBRARY, _ = load_library()
PUBLISHED = {
    "sessile oak": (0.17, 0.50),
    "silver birch": (0.24, 0.54),
    "small-leaved lime": (0.11, 0.54),
    "hawthorn": (0.22, 0.44),
    "grey alder": (0.24, 0.49),
    "common ash": (0.22, 0.53),
}


@pytest.mark.parametrize("name", PUBLISHED)
def test_a_full_crown_passes_its_published_share(name: str) -> None:
    """From below the middle of the kind's own crown, averaged over rays through its middle."""
    kind = LIBRARY.match(name).kind
    assert kind.size.height_m is not None
    assert kind.size.crown_m is not None
    height, radius = kind.size.height_m.value, kind.size.crown_m.value
    crown = Crowns.of(0, 0, base_share(kind) * height, height, radius, solid_of(kind))
    middle = (crown.base[0] + crown.top[0]) / 2
    for share, state in zip(PUBLISHED[name], (kind.light.through_leaf, kind.light.through_bare), strict=True):
        assert state is not None
        assert state.value == pytest.approx(share, abs=0.01)
        thick = density(state.value, crown.middle_path())[0]
        seen = []
        for high in (0.1, 30.0, 60.0, 89.0):
            ray = unit(np.array([high]), np.array([0.0]))
            start = np.array([[0, 0, middle]]) - 60 * ray
            way = paths(start.astype(np.float32), crown, ray.astype(np.float32))[0, 0]
            seen.append(np.exp(-way * thick))
        # along and across a crown that is no ball the way differs from the mean one
        assert np.mean(seen) == pytest.approx(share, abs=0.06)
