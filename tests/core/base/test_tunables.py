"""Built-in numbers a steward may change."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from leafturn.almanac import open_almanac
from leafturn.base.tunables import NUMBERS, USUAL, Numbers, complaints

GARDEN = '[place]\nlat = 46.9\nlon = 15.9\n\n[[plant]]\nkind = "pear"\n\n[rule]\n'


@pytest.mark.parametrize("name", NUMBERS)
def test_every_number_has_bounds_a_unit_and_a_source(name: str) -> None:
    number = NUMBERS[name]
    assert number.least <= number.value <= number.most
    assert number.unit
    assert number.source


@given(st.sampled_from(sorted(NUMBERS)), st.floats(allow_nan=True, allow_infinity=True))
def test_a_value_out_of_bounds_is_said_and_not_used(name: str, value: float) -> None:
    number = NUMBERS[name]
    used = Numbers({name: value})[name]
    if not complaints({name: value}):
        assert number.least <= used == value <= number.most
    else:
        assert used == number.value


@pytest.mark.parametrize(
    ("rules", "said"),
    [
        (
            {"partner_thin_below": 4},
            "partner_thin_below = 4 is outside 0 to 1 chance. The usual 0.45 is used.",
        ),
        ({"partner_borrow": "often"}, "partner_borrow = often is not a number. The usual 0.6 is used."),
        ({"partner_borrow": True}, "partner_borrow = True is not a number. The usual 0.6 is used."),
        ({"heap_hot_c": float("nan")}, "heap_hot_c = nan is not a number. The usual 55 is used."),
        (
            {"partner_half_metres_black_walnut": 0},
            "partner_half_metres_black_walnut = 0 is outside 0.5 to 5000 m. The usual 45 is used.",
        ),
        (
            {"partner_lacks_below": 0.9},
            "partner_lacks_below is above partner_thin_below; the usual of both are used.",
        ),
    ],
)
def test_a_number_that_cannot_be_used_costs_one_sentence(rules: dict[str, float], said: str) -> None:
    assert complaints(rules) == ((next(iter(rules)), said),)
    assert Numbers(rules) == USUAL
    assert [Numbers(rules).own(name) for name in rules] == [None]


def test_a_number_that_can_be_used_is_and_others_are_left_alone() -> None:
    rules = {"partner_borrow": 0.4, "partner_half_metres_black_walnut": 9, "nesting_to": "08-01"}
    assert complaints(rules) == ()
    assert dict(Numbers(rules)) == dict(USUAL) | {"partner_borrow": 0.4}
    assert Numbers(rules).own("partner_half_metres_black_walnut") == 9


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("heap_hot_c = 900", "outside 40 to 80"),
        ('heap_hot_c = "hot"', "is not a number"),
        ("heap_hott_c = 60", "Did you mean heap_hot_c?"),
        ('nesting_to = "after the rains"', "is no moment"),
        ("partner_thin_below = 7", "outside"),
        ("partner_borow = 0.5", "Did you mean partner_borrow?"),
    ],
)
def test_a_rule_that_cannot_be_used_is_a_fault_with_its_line(tmp_path: Path, line: str, said: str) -> None:
    (tmp_path / "garden.toml").write_text(GARDEN + line + "\n")
    (fault,) = open_almanac(tmp_path, dt.date(2027, 4, 19)).faults
    assert said in fault.sentence()
    assert fault.line == 9


def test_the_line_is_told_among_rules_of_ones_own(tmp_path: Path) -> None:
    own = '[[rule]]\nverb = "sow"\ntitle = "sow"\napplies = {}\nopen = "04-01"\nclose = "05-10"\n'
    numbers = "[[rule]]\nheap_hot_c = 500\n"
    text = GARDEN.removesuffix("[rule]\n") + own + numbers
    (tmp_path / "garden.toml").write_text(text)
    (fault,) = open_almanac(tmp_path, dt.date(2027, 4, 19)).faults
    assert text.splitlines()[(fault.line or 0) - 1] == "heap_hot_c = 500"
