"""How many days earlier plants open for each degree, beside what field records show.

Menzel et al. (2006), European phenological response to climate change matches the warming pattern, Global
Change Biology 12: 1969-1976: leaves and flowers of spring come on the mean 2.5 days earlier per degC, the
earliest most, up to about 5. Fruit trees alone answer more: apple and cherry bloom of western Europe 4 to 8
days per degC (Legave et al. 2013; Kunz and Blanke 2022). All from memory, not re-read. A heat sum above
5 degC in a cold spring errs on the strong side, so the bounds are wide.
"""

from __future__ import annotations

import numpy as np
import pytest

from leafturn.almanac import Almanac


@pytest.fixture(scope="module")
def per_degree(weir_meadow: Almanac) -> dict[str, float]:
    drift = weir_meadow.drift()
    warming = drift.climates[2].warming.likely
    return {p: row.then[2].shift.likely / warming for row in drift.plants for p in row.plants}


def test_fruit_trees_open_four_to_eight_days_earlier_per_degree(per_degree: dict[str, float]) -> None:
    for plant in ("comice-1", "old-plum", "early-plum", "boskoop", "quince"):
        assert -9 <= per_degree[plant] <= -3


def test_all_spring_blooms_lie_within_what_records_hold(per_degree: dict[str, float]) -> None:
    assert -8 <= float(np.median(list(per_degree.values()))) <= -2.5
    assert min(per_degree.values()) > -12
    assert max(per_degree.values()) < -1
