"""Quantities in words, metric and US; factors of NIST SP 811 are checked by round figures people know."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from leafturn.base import quantities
from leafturn.base.quantities import speaking


def test_metric_is_as_it_was() -> None:
    assert quantities.metres(3.21) == "3.2 m"
    assert quantities.metres(18.3, 0) == "18 m"
    assert quantities.celsius(-2.2) == "-2.2 C"
    assert quantities.celsius(-0.04) == "0.0 C"
    assert quantities.celsius(-0.4, 0) == "0 C"
    assert quantities.millimetres(2.5, None) == "2.5 mm"
    assert quantities.kilograms(4.5) == "4.5 kg"
    assert quantities.litres(19.6) == "20 litres"
    assert quantities.heat(196.4) == 196
    assert quantities.retold("topped up to 10 or 15 cm of bark") == "topped up to 10 or 15 cm of bark"


@pytest.mark.parametrize(
    ("said", "words"),
    [
        (lambda: quantities.metres(18.288, 0), "60 ft"), (lambda: quantities.metres(0.5), "1.6 ft"),
        (lambda: quantities.metres(3.048), "10 ft"), (lambda: quantities.centimetres(60), "24 in"),
        (lambda: quantities.centimetres(5), "2 in"), (lambda: quantities.celsius(-2.2), "28 F"),
        (lambda: quantities.celsius(-17.8), "0 F"), (lambda: quantities.degrees(1.5), "2.7 F"),
        (lambda: quantities.millimetres(25.4), "1 in"), (lambda: quantities.millimetres(6), "0.24 in"),
        (lambda: quantities.millimetres(0), "0 in"), (lambda: quantities.litres(20), "5.3 gallons"),
        (lambda: quantities.kilograms(18.1437), "40 lb"), (lambda: quantities.kilograms(4.5), "9.9 lb"),
        (lambda: quantities.square_metres(11.1484), "120 sq ft"),
        (lambda: quantities.kilometres(16), "10 mi"),
        (lambda: f"{quantities.heat(100)}", "180"),
        (lambda: quantities.retold("between 4 and 20 C, 10 or 15 cm"), "between 39 and 68 F, 4 or 6 in"),
        # Hardware cloth is sold as 1/8, 1/4 and 1/2 inch: common practice, no source.
        (lambda: quantities.retold("mesh of 6 mm"), "mesh of 1/4 in"),
        (lambda: quantities.retold("3 mm wide, 13 mm, 38 mm"), "1/8 in wide, 1/2 in, 1 1/2 in"),
        (lambda: quantities.retold("97 degree-days above 10 C"), "175 degree-days above 50 F"),
        (lambda: quantities.retold("5-10 cm deep, a metre off"), "2-4 in deep, three feet off"),
    ],
)  # fmt: skip
def test_us_units_without_needless_figures(said, words) -> None:
    with speaking("us"):
        assert said() == words
    assert quantities.spoken() == "metric"


@given(st.floats(-500, 5000), st.sampled_from([0, 1, None]))
def test_never_a_minus_before_nought_nor_more_than_two_decimals(value: float, digits: int | None) -> None:
    with speaking("us"):
        for say in (quantities.metres, quantities.celsius, quantities.degrees, quantities.millimetres):
            told = say(value, digits)
            assert not re.match(r"-0(\.0+)? ", told), told
            assert not re.search(r"\.\d{3}", told), told
