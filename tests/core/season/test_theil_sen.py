"""The Theil-Sen slope."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from leafturn.season.theil_sen import theil_sen

# Hollander and Wolfe, Nonparametric Statistical Methods, cloud seeding example: double ratio in five years,
# slope -0.056 (data and answer recalled; the ten slopes worked by hand).
YEARS, RATIO = [1, 2, 3, 4, 5], [1.26, 1.27, 1.12, 1.16, 1.03]


def test_a_textbook_example() -> None:
    found = theil_sen(YEARS, RATIO)
    assert found.slope == pytest.approx(-0.05625)
    assert found.low < found.slope < found.high


@given(st.lists(st.floats(-100, 100), min_size=3, max_size=40), st.floats(-5, 5))
@settings(max_examples=40)
def test_a_straight_line_added_adds_its_slope(noise: list[float], slope: float) -> None:
    x = np.arange(len(noise), dtype=float)
    plain, tilted = theil_sen(x, noise), theil_sen(x, np.array(noise) + slope * x)
    assert tilted.slope == pytest.approx(plain.slope + slope, abs=1e-6)


def test_two_wild_years_do_not_bend_it() -> None:
    x = np.arange(30.0)
    y = 100 - 0.2 * x
    y[[3, 28]] = [10, 300]
    assert theil_sen(x, y).slope == pytest.approx(-0.2, abs=0.01)


def test_a_wider_range_for_more_confidence() -> None:
    rng = np.random.default_rng(5)
    x, y = np.arange(30.0), rng.normal(0, 8, 30)
    narrow, wide = theil_sen(x, y, 0.8), theil_sen(x, y, 0.95)
    assert wide.low <= narrow.low <= narrow.slope <= narrow.high <= wide.high


def test_the_range_holds_the_truth_about_as_often_as_it_says() -> None:
    rng = np.random.default_rng(11)
    x = np.arange(30.0)
    held = 0
    for _ in range(300):
        found = theil_sen(x, rng.normal(0, 10, 30) - 0.3 * x)
        held += found.low <= -0.3 <= found.high
    assert 0.73 <= held / 300 <= 0.89


def test_points_above_one_another_have_no_slope() -> None:
    with pytest.raises(ValueError, match="lie apart"):
        theil_sen([2000, 2000], [1, 2])


@pytest.mark.reference
def test_against_scipy() -> None:
    stats = pytest.importorskip("scipy.stats")
    rng = np.random.default_rng(3)
    for number in (5, 16, 30, 90):
        x, y = np.arange(number), np.round(rng.normal(100, 12, number))
        for confidence in (0.8, 0.95):
            theirs = stats.theilslopes(y, x, confidence)
            ours = theil_sen(x, y, confidence)
            assert (ours.slope, ours.low, ours.high) == pytest.approx(
                (theirs.slope, theirs.low_slope, theirs.high_slope), abs=1e-12
            )
