"""Light through crowns as published: shares of the sky seen through single crowns in leaf and leafless.

Wilkinson, D. M. (1992), PhD thesis, Manchester, as reprinted in Tregenza and Sharples, Daylight Algorithms,
algorithm 1.44.
"""

from __future__ import annotations

import numpy as np
import pytest

from leafturn.canopy.stand.crowns import Crowns, base_share, density, paths, solid_of
from leafturn.canopy.stand.sky import unit
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
    """Parallel light from six heights over the sky, as a mean over the kind's own crown's outline."""
    kind = LIBRARY.match(name).kind
    assert kind.size.height_m is not None
    assert kind.size.crown_m is not None
    height, radius = kind.size.height_m.value, kind.size.crown_m.value
    crown = Crowns.of(0, 0, base_share(kind) * height, height, radius, solid_of(kind))
    middle = np.array([0, 0, (crown.base[0] + crown.top[0]) / 2])
    across = np.linspace(-1.2, 1.2, 81) * max(radius, height / 2)
    for share, state in zip(PUBLISHED[name], (kind.light.through_leaf, kind.light.through_bare), strict=True):
        assert state is not None
        assert state.value == pytest.approx(share, abs=0.01)
        thick = density([state.value], crown.middle_path(), crown.solid)[0]
        seen = []
        for high in (5.0, 20.0, 35.0, 50.0, 65.0, 80.0):
            ray = unit(np.array([high]), np.array([0.0]))[0]
            side, over = np.array([1.0, 0.0, 0.0]), np.cross(np.array([1.0, 0.0, 0.0]), ray)
            grid = across[:, None, None] * side + across[None, :, None] * over
            starts = (middle - 90 * ray + grid).reshape(-1, 3).astype(np.float32)
            way = paths(starts, crown.take(np.zeros(len(starts), np.intp)), ray[None].astype(np.float32))[
                :, 0
            ]
            seen.append(np.exp(-way[way > 0] * thick).mean())
        # along and across a crown that is no ball the way differs from the mean one
        assert np.mean(seen) == pytest.approx(share, abs=0.02)


@pytest.mark.parametrize("depth", [0.05, 0.5, 1.5, 2.6, 6.0])
def test_a_ball_passes_what_beer_s_law_over_its_disc_adds_up_to(depth: float) -> None:
    """The closed form of the integral of exp(-depth sqrt(1 - r^2)) 2 r over the disc, turned round."""
    passed = 2 * (1 - (1 + depth) * np.exp(-depth)) / depth**2
    assert density([passed], [2.0], 0)[0] == pytest.approx(depth / 2, rel=0.04)
