"""The value at a share of the way through, the middle one, and rows that are searched at once."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from leafturn.base.arrays import RisingRows, at_share, median, medians


@given(st.lists(st.floats(-1e6, 1e6), min_size=1, max_size=40), st.floats(0, 1))
def test_it_is_the_nearest_of_the_values_as_numpy_counts_it(values: list[float], share: float) -> None:
    assert at_share(np.array(values), share) == np.quantile(values, share, method="nearest")


@pytest.mark.parametrize(("never", "middle"), [(1, 3.0), (2, 3.0), (4, np.inf)])
def test_days_that_never_come_stand_last(never: int, middle: float) -> None:
    days = np.array([[np.inf] * never + [2.0, 3.0, 1.0]])
    assert at_share(days, 0.5) == middle


@pytest.mark.parametrize("width", [32, 64])
@given(data=st.data())
def test_the_median_is_that_of_numpy_to_the_last_bit(width: int, data: st.DataObject) -> None:
    days = st.floats(-1e6, 1e6, width=width) | st.sampled_from([np.inf, np.nan])  # type: ignore[arg-type]
    values = np.array(data.draw(st.lists(days, min_size=1, max_size=40)), f"f{width // 8}")
    assert np.array_equal(median(values), np.median(values), equal_nan=True)


@pytest.mark.parametrize("width", [32, 64])
@given(data=st.data(), shape=st.tuples(st.integers(1, 7), st.integers(1, 7)), axis=st.integers(0, 1))
def test_medians_along_an_axis_are_those_of_numpy(
    width: int, data: st.DataObject, shape: tuple[int, int], axis: int
) -> None:
    degrees = st.floats(-1e6, 1e6, width=width) | st.just(np.nan)  # type: ignore[arg-type]
    drawn = data.draw(st.lists(degrees, min_size=shape[0] * shape[1], max_size=shape[0] * shape[1]))
    values = np.array(drawn, f"f{width // 8}").reshape(shape)
    assert np.array_equal(medians(values, axis), np.median(values, axis=axis), equal_nan=True)


def test_numbers_are_found_in_rows_laid_end_to_end_as_numpy_finds_them_in_each() -> None:
    """Against `numpy.searchsorted` of each row by itself."""
    rows = np.cumsum(np.random.default_rng(7).random((5, 40)), axis=1)
    row = np.array([3, 0, 4, 1, 1])
    wanted = np.array([[0.0, 2.5, 7.75, 11.0, 1.125]]) * np.ones((3, 1)) + np.arange(3)[:, None]
    laid = RisingRows(rows)
    alone = [[np.searchsorted(rows[r], w) for w, r in zip(some, row, strict=True)] for some in wanted]
    assert (laid.place(wanted, row) - laid.begins(row) == alone).all()
    assert (laid.flat[laid.begins(row)] == rows[row, 0]).all()
    assert (laid.last == rows[:, -1]).all()
