"""Units against their definitions: NIST Special Publication 811 (2008), appendix B.8."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from leafturn.base import units

# 1 ft = 0.3048 m and 1 in = 25.4 mm exactly; t/degC = (t/degF - 32)/1.8.
FOOT_IN_METRES = Fraction(3048, 10_000)
INCH_IN_MILLIMETRES = Fraction(254, 10)


@pytest.mark.parametrize(
    ("fahrenheit", "celsius"),
    [
        (32, 0.0),
        (212, 100.0),
        (-40, -40.0),  # where the scales meet
        (98.6, 37.0),
        # Critical temperatures are published in whole degF: 28 F is 10 % loss at full bloom, -2.2 C.
        (28, -2.2222222222222223),
        (-3, -19.444444444444443),
    ],
)
def test_fahrenheit(fahrenheit: float, celsius: float) -> None:
    assert units.fahrenheit_to_celsius(fahrenheit) == pytest.approx(celsius, abs=1e-12)


def test_a_difference_of_fahrenheit_degrees_has_no_zero_point() -> None:
    assert units.fahrenheit_difference_to_celsius(1.8) == 1.0
    assert units.fahrenheit_difference_to_celsius(0.0) == 0.0


@given(st.floats(-1e6, 1e6))
def test_lengths_follow_the_exact_definitions(number: float) -> None:
    for converted, factor in (
        (units.feet_to_metres(number), FOOT_IN_METRES),
        (units.square_feet_to_square_metres(number), FOOT_IN_METRES**2),
        (units.inches_to_millimetres(number), INCH_IN_MILLIMETRES),
        (units.inches_to_centimetres(number), INCH_IN_MILLIMETRES / 10),
    ):
        assert converted == pytest.approx(float(Fraction(number) * factor), rel=1e-14)


def test_twelve_inches_are_a_foot_and_three_feet_a_yard() -> None:
    assert units.inches_to_millimetres(12) == pytest.approx(1000 * units.feet_to_metres(1))
    assert units.feet_to_metres(3) == pytest.approx(units.METRES_IN_A_YARD)


def test_lists_keep_their_shape_and_what_is_no_number_stays() -> None:
    converted = units.in_metric([[10, "x"], True, None, 1.0], units.feet_to_metres)
    assert converted == [[pytest.approx(3.048), "x"], True, None, pytest.approx(0.3048)]


def test_every_twin_names_the_same_thing_in_another_unit() -> None:
    for metric_key, twin in units.TWINS.items():
        assert twin.key != metric_key
        assert twin.key.split("_")[0] == metric_key.split("_")[0]
        assert twin.key.endswith(("_ft", "_ft2", "_in", "_f", "_f_per_decade"))
