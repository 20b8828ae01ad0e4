"""A night's temperature as people type it."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from leafturn.season.temperature_words import NotATemperature, read_temperature


@pytest.mark.parametrize(
    ("typed", "celsius"),
    [
        ("-3", -3.0),
        ("-3C", -3.0),
        ("-3 °C", -3.0),
        ("−3", -3.0),
        ("minus 3 C", -3.0),
        ("-2,8", -2.8),
        ("+1.5 c", 1.5),
        ("-.5", -0.5),
        ("27F", -2.8),
        ("26.6 f", -3.0),
        ("28 degrees Fahrenheit", -2.2),
        ("0", 0.0),
    ],
)
def test_what_people_type(typed: str, celsius: float) -> None:
    """27, 26.6 and 28 F by t/degC = (t/degF - 32)/1.8 (NIST Special Publication 811, B.8)."""
    found, question = read_temperature(typed)
    assert found == pytest.approx(celsius, abs=0.05)
    assert question is None


def test_minus_three_fahrenheit_is_asked_about() -> None:
    found, question = read_temperature("-3F")
    assert found == pytest.approx(-19.4, abs=0.05)
    assert question == "that is -19.4 C: sure?"


def test_a_figure_that_must_be_fahrenheit_is_asked_about() -> None:
    found, question = read_temperature("27")
    assert found == 27.0
    assert question is not None
    assert "27F would be -2.8 C" in question


@pytest.mark.parametrize("typed", ["35C", "80F", "-40", "-30 C"])
def test_odd_nights_are_asked_about(typed: str) -> None:
    assert (read_temperature(typed)[1] or "").endswith("sure?")


@pytest.mark.parametrize(
    "typed", ["", " ", "-", "cold", "nan", "inf", "1e3", "--3", "3K", "-300", "500F", "-3 -4", "9" * 500]
)
def test_what_is_no_temperature_gets_one_sentence(typed: str) -> None:
    with pytest.raises(NotATemperature) as refused:
        read_temperature(typed)
    said = str(refused.value)
    assert said.endswith("write -3 or 27F")
    assert "\n" not in said
    assert len(said) < 120


@pytest.mark.parametrize("typed", ["", " "])
def test_an_empty_line_is_not_called_a_wrong_temperature(typed: str) -> None:
    with pytest.raises(NotATemperature, match=r"^no temperature yet; write -3 or 27F$"):
        read_temperature(typed)


@given(st.text(max_size=30))
@settings(max_examples=60)
def test_anything_typed_is_read_or_refused(typed: str) -> None:
    try:
        celsius, _ = read_temperature(typed)
    except NotATemperature:
        return
    assert -90 <= celsius <= 60


@given(st.decimals(-40, 45, places=1))
@settings(max_examples=60)
def test_fahrenheit_and_celsius_tell_the_same(fahrenheit: object) -> None:
    in_f, _ = read_temperature(f"{fahrenheit} F")
    in_c, _ = read_temperature(f"{(float(str(fahrenheit)) - 32) / 1.8:.6f}")
    assert in_c == pytest.approx(in_f, abs=1e-5)
