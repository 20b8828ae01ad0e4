"""Places said in words, their compass geometry against sine and cosine."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from leafturn.garden.reading.place_phrases import PlaceWords, UnclearPlace, read_place_words

# The sixteen points are 22.5 degrees apart, clockwise from north: a right angle halved twice.
SIXTEEN = (
    "north", "north-northeast", "northeast", "east-northeast", "east", "east-southeast", "southeast",
    "south-southeast", "south", "south-southwest", "southwest", "west-southwest", "west", "west-northwest",
    "northwest", "north-northwest",
)  # fmt: skip
LETTERS = ("N", "NNE", "NE", "ENE", "E", "ESE", "SE", "SSE", "S", "SSW", "SW", "WSW", "W", "WNW", "NW", "NNW")


@pytest.mark.parametrize("number", range(16))
def test_sixteen_compass_words_in_every_spelling(number: int) -> None:
    bearing = math.radians(22.5 * number)
    east, north = 8 * math.sin(bearing), 8 * math.cos(bearing)
    word = SIXTEEN[number]
    spellings = {word, word.replace("-", " "), word.replace("-", ""), word.upper(), LETTERS[number]}
    spellings |= {
        word.replace("northeast", "north-east").replace("southwest", "south west"),
        LETTERS[number].lower(),
    }
    for spelling in spellings:
        said = read_place_words(f"8 m {spelling} of toll-ash")
        assert (said.east, said.north) == pytest.approx((east, north), abs=1e-12), spelling
        assert said.name == "toll-ash"


def test_main_directions_are_exact() -> None:
    assert read_place_words("8 m west of x") == PlaceWords(-8.0, 0.0, "x")
    assert read_place_words("8 m south of x") == PlaceWords(0.0, -8.0, "x")


@pytest.mark.parametrize(
    ("words", "metres"),
    [
        ("10 ft north of x", 3.048),
        ("10 feet north of x", 3.048),
        ("1 foot north of x", 0.3048),
        ("2,5 m north of x", 2.5),
        ("2.5m north of x", 2.5),
        ("8 metres due north of x", 8.0),
        ("8 meters to the north of x", 8.0),
        ("250 cm north from x", 2.5),
        ("10 yards north of x", 9.144),  # NIST SP 811: 1 yd = 0.9144 m exactly
        ("12 paces north of x", 9.0),  # 0.75 m unless the file says otherwise
        ("  12   PACES  North  OF x", 9.0),
    ],
)
def test_lengths(words: str, metres: float) -> None:
    said = read_place_words(words)
    assert (said.east, said.north, said.name) == (0.0, pytest.approx(metres), "x")


def test_length_of_a_pace_is_the_stewards() -> None:
    assert read_place_words("10 paces east of x", pace_m=0.6).east == pytest.approx(6.0)


@pytest.mark.parametrize(
    "words", ["gate", "the gate", "datum", "the datum", "At the Gate", "0 m north of the datum"]
)
def test_gate_is_the_datum(words: str) -> None:
    assert read_place_words(words) == PlaceWords(0.0, 0.0, None)


@pytest.mark.parametrize("words", ["at Old Ash", "by Old Ash", "near Old Ash", "under Old Ash", "Old Ash"])
def test_beside_something_is_its_place(words: str) -> None:
    assert read_place_words(words) == PlaceWords(name="Old Ash")


def test_names_may_hold_spaces_and_small_words() -> None:
    assert read_place_words("8 m west of Pride of the Valley").name == "Pride of the Valley"


def test_between() -> None:
    assert read_place_words("between a and the b") == PlaceWords(name="a and the b", between=True)
    assert read_place_words("halfway between a and b").between


def test_two_stretches_add_up() -> None:
    expected = PlaceWords(3.0, 2.0, "x")
    for words in ("2 m north and 3 m east of x", "2 m north, 3 m east of x", "2 m N then 3 m E of x"):
        assert read_place_words(words) == expected


@pytest.mark.parametrize(
    ("words", "message", "hint"),
    [
        ("5 rods west of x", "'rods'", "m, ft or paces"),
        ("5 m nrth of x", "'nrth'", "Did you mean north?"),
        ("5 m leftwards of x", "'leftwards'", "NNW"),
        ("24, 18", "not understood", "[24, 18] without quote marks"),
        ("8 m west", "not understood", '"8 m west of gate"'),
        ("8 of x", "not understood", "8 m west of NAME"),
        ("11 km north of x", "'km'", "m, ft or paces"),
        ("20000 m north of x", "farther than 10 km", "Check"),
        ("9" * 400 + " m north of x", "farther than 10 km", "Check"),
        ("", "empty", "8 m west of NAME"),
    ],
)
def test_what_is_not_understood_is_said(words: str, message: str, hint: str) -> None:
    with pytest.raises(UnclearPlace) as caught:
        read_place_words(words)
    assert message in caught.value.message
    assert hint in caught.value.hint


@settings(max_examples=60)
@given(st.text(max_size=40) | st.text(st.sampled_from("8 mwestofNS,.-x \n"), max_size=40))
def test_any_words_are_a_place_or_unclear(words: str) -> None:
    try:
        said = read_place_words(words)
    except UnclearPlace:
        return
    assert math.isfinite(said.east)
    assert math.isfinite(said.north)
