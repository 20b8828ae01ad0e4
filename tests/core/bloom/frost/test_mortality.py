"""The curve between the two temperatures of the tables."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from leafturn.base.units import fahrenheit_to_celsius
from leafturn.bloom.frost.mortality import killed_share

CELSIUS = st.floats(-60, 40)
PAIRS = st.tuples(st.floats(-20, 0), st.floats(0.2, 12)).map(lambda p: (p[0], p[0] - p[1]))


def test_plum_in_first_bloom_at_the_printed_temperatures() -> None:
    """27 F takes a tenth, 23 F nine tenths (Penn State Extension, "Orchard Frost", read)."""
    tenth, nine_tenths = (27 - 32) / 1.8, (23 - 32) / 1.8
    assert killed_share(tenth, tenth, nine_tenths) == pytest.approx(0.1)
    assert killed_share(nine_tenths, tenth, nine_tenths) == pytest.approx(0.9)
    assert killed_share((tenth + nine_tenths) / 2, tenth, nine_tenths) == pytest.approx(0.5)


@given(PAIRS)
@settings(max_examples=40)
def test_exactly_a_tenth_and_nine_tenths(pair: tuple[float, float]) -> None:
    assert killed_share(pair[0], *pair) == pytest.approx(0.1, abs=1e-9)
    assert killed_share(pair[1], *pair) == pytest.approx(0.9, abs=1e-9)


@given(PAIRS, CELSIUS, CELSIUS)
@settings(max_examples=60)
def test_colder_never_kills_less_and_a_share_is_a_share(
    pair: tuple[float, float], one: float, other: float
) -> None:
    cold, warm = killed_share([min(one, other), max(one, other)], *pair)
    assert 0.0 <= warm <= cold <= 1.0


@given(st.floats(-30, 50), st.floats(15, 30), st.floats(1, 15))
@settings(max_examples=40)
def test_fahrenheit_and_celsius_tell_the_same(night: float, tenth: float, apart: float) -> None:
    in_f = killed_share(night, tenth, tenth - apart)
    in_c = killed_share(*(fahrenheit_to_celsius(degrees) for degrees in (night, tenth, tenth - apart)))
    assert in_c == pytest.approx(in_f, abs=1e-9)


def test_odd_values_of_a_stewards_own_are_withstood() -> None:
    assert killed_share(-3, -5, -2) == pytest.approx(killed_share(-3, -2, -5))
    assert killed_share([-1e300, 1e300], -2, -2).tolist() == pytest.approx([1.0, 0.0])
    assert np.isfinite(killed_share(-2, -2, -2))
