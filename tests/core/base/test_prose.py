"""One scale of chance, read aloud."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from leafturn.base.prose import capital, first_of, in_ten, joined, of_ten, of_ten_range, rarely

SHARES = st.floats(0, 1)


@pytest.mark.parametrize(
    ("share", "said"),
    [
        (0, "hardly ever"), (0.04, "hardly ever"), (0.05, "1 of 10 springs"), (0.28, "3 of 10 springs"),
        (0.5, "5 of 10 springs"), (0.94, "9 of 10 springs"), (0.95, "nearly always"), (1, "nearly always"),
    ],
)  # fmt: skip
def test_a_chance_is_told_in_springs_of_ten(share: float, said: str) -> None:
    assert of_ten(share, "spring") == said


def heard(said: str) -> float:
    """What a listener makes of the words."""
    return {"hardly ever": 0.0, "nearly always": 1.0}.get(said) or float(
        said.split()[0].replace("hardly", "0")
    ) / 10


@given(SHARES)
def test_the_words_say_what_was_reckoned(share: float) -> None:
    assert abs(heard(of_ten(share)) - share) <= 0.051


@given(SHARES, SHARES)
def test_a_greater_chance_never_sounds_smaller(one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert heard(of_ten(low)) <= heard(of_ten(high))


def test_within_a_sentence() -> None:
    assert in_ten(0.3) == "in 3 of 10 years"
    assert in_ten(0.6, "") == "in 6 of 10"
    assert in_ten(0.0, "spring") == "hardly ever"


@pytest.mark.parametrize(
    ("low", "high", "said"),
    [
        (0.31, 0.62, "3 to 6 of 10 springs"), (0.01, 0.3, "up to 3 of 10 springs"),
        (0.8, 0.99, "8 or more of 10 springs"), (0.0, 0.01, "hardly ever"), (0.3, 0.31, "3 of 10 springs"),
        (0.0, 1.0, "from hardly ever to nearly always"),
    ],
)  # fmt: skip
def test_a_range_of_chances(low: float, high: float, said: str) -> None:
    assert of_ten_range(low, high, "spring") == said


def test_frost_that_most_years_have_is_no_rare_thing() -> None:
    assert rarely(0.5) == ""
    assert rarely(0.2) == "in 2 of 10 years"
    assert rarely(0.0) == "hardly ever"


def test_a_list_is_joined_in_words() -> None:
    assert joined(["a"]) == "a"
    assert joined(["a", "b", "c"]) == "a, b and c"


@pytest.mark.parametrize(
    ("most", "said"), [(1, "plum and 2 more"), (2, "plum, pear and 1 more"), (3, "plum, pear and quince")]
)
def test_of_a_long_list_the_first_are_named_and_the_others_counted(most: int, said: str) -> None:
    assert first_of(["plum", "pear", "quince"], most) == said


@pytest.mark.parametrize(
    ("said", "first"), [("", ""), ("a plum", "A plum"), ("3 plums", "3 plums"), ("élan", "Élan")]
)
def test_a_sentence_begins_with_a_capital(said: str, first: str) -> None:
    assert capital(said) == first
