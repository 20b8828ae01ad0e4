"""Compost against published figures: the Cornell worked example and the heat rules of 40 CFR 503."""

from __future__ import annotations

import datetime as dt

import pytest

from leafturn.soil.compost.heat_rule import hot_days
from leafturn.soil.compost.mix import Part, c_to_n, material, water_percent

FIRST = dt.date(2027, 4, 1)


def days(*numbers: int) -> list[dt.date]:
    return [FIRST + dt.timedelta(days=n) for n in numbers]


def test_the_cornell_example_of_grass_and_leaves() -> None:
    """Cornell Composting, "moisture content" (read in a copy) and "C/N ratio" (amounts recalled).

    10 kg of grass (N 2.4 %, C 45 %, 77 % water) want 3.5 kg of leaves (0.75, 50, 35) for C:N 30 and
    6.8 kg for 60 % water.
    """
    grass, leaves = material("grass clippings"), material("leaves")
    assert grass is not None
    assert leaves is not None
    assert (grass.nitrogen, grass.carbon, grass.water) == (2.4, 45, 77)
    assert (leaves.nitrogen, leaves.carbon, leaves.water) == (0.75, 50, 35)
    heap = [Part(material=grass, kg=10)]
    assert c_to_n([*heap, Part(material=leaves, kg=3.47)]) == pytest.approx(30, abs=0.05)
    assert water_percent([*heap, Part(material=leaves, kg=6.8)]) == pytest.approx(60, abs=0.05)


@pytest.mark.parametrize(
    ("hot", "turns", "counted"),
    [
        (range(15), (1, 4, 7, 10, 13), (15, 5, 15)),
        (range(15), (1, 4, 7, 10), (15, 4, 15)),
        (range(14), (1, 4, 7, 10, 13), (14, 5, 14)),
        (range(3), (), (3, 0, 3)),
        (range(2), (), (2, 0, 2)),
        ((0, 6, 12), (1,), (3, 1, 1)),
    ],
)
def test_what_40_cfr_503_asks_for_is_counted(
    hot: range, turns: tuple[int, ...], counted: tuple[int, int, int]
) -> None:
    """40 CFR 503 Appendix B (B)(1), recalled: windrows 55 degC for 15 days and 5 turnings, vessels 3 days."""
    found = hot_days([(day, 55.0) for day in days(*hot)], days(*turns))
    assert (found.days, found.turns, found.longest) == counted


def test_just_under_55_is_not_hot() -> None:
    """The same rule says "55 degrees Celsius or higher"."""
    assert hot_days([(day, 54.9) for day in days(*range(20))], days(*range(20))).days == 0


def test_turnings_outside_the_hot_days_do_not_count() -> None:
    """The same rule asks for five turnings "during the period when the compost is maintained" hot."""
    counted = hot_days([(day, 60.0) for day in days(*range(15))], days(-3, -2, 5, 20, 22))
    assert counted.turns == 1


def test_days_between_hot_readings_count_only_across_short_gaps() -> None:
    """A guess of our own, for heaps read now and then: four days are bridged, five are not."""
    assert hot_days([(day, 60.0) for day in days(0, 4)], ()).days == 5
    assert hot_days([(day, 60.0) for day in days(0, 5)], ()).days == 2
    assert hot_days([(days(0)[0], 60.0), (days(2)[0], 50.0), (days(4)[0], 60.0)], ()).days == 2
