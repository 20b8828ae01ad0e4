"""Chances read aloud."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from leafturn.partners.words import joined, metres_words, one_in, years_words


@pytest.mark.parametrize(
    ("chance", "words"),
    [
        (0, "none"), (0.004, "none"), (0.02, "1 in 50"), (0.03, "1 in 30"), (0.08, "1 in 12"),
        (0.25, "1 in 4"), (0.33, "1 in 3"), (0.4, "2 in 5"),
        (0.5, "about even"), (0.6, "6 in 10"), (0.7, "7 in 10"),
        (0.94, "9 in 10"), (0.97, "nearly sure"), (1, "nearly sure"),
    ],
)  # fmt: skip
def test_one_in(chance, words):
    assert one_in(chance) == words


def value(words):
    """What a listener would make of the words."""
    plain = {"none": 0.0, "about even": 0.5, "nearly sure": 0.975}
    if words in plain:
        return plain[words]
    part, whole = words.split(" in ")
    return int(part) / int(whole)


@given(st.floats(0, 1))
def test_the_words_say_what_was_reckoned(chance):
    heard = value(one_in(chance))
    assert abs(heard - chance) <= max(0.06, 0.18 * chance)
    if 0.005 <= chance < 0.3:
        assert heard == pytest.approx(chance, rel=0.18)


@given(st.floats(0, 1), st.floats(0, 1))
def test_a_greater_chance_never_sounds_smaller(one, other):
    low, high = sorted((one, other))
    assert value(one_in(low)) <= value(one_in(high))


def test_small_words():
    assert joined(["a"]) == "a"
    assert joined(["a", "b", "c"]) == "a, b and c"
    assert (metres_words(0.6), metres_words(38.3)) == ("0.6 m", "38 m")
    assert (years_words(1.0), years_words(2.9)) == ("1 year", "2 years")
