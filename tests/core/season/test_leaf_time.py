"""When leaves fall and heat begins to count, with frost and without."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest

from leafturn.base.tunables import Numbers
from leafturn.garden.model import Climate, FrostDate, Place
from leafturn.season.axis import SeasonAxis
from leafturn.season.ensemble import Ensemble
from leafturn.season.frost import first_frost
from leafturn.season.heat_count import HeatCount
from leafturn.season.leaf_time import latest_growth_end, leaf_fall, leaf_heat_start, leaf_turn
from leafturn.season.sun import day_length, days_of_year
from leafturn.season.years import build_ensemble
from leafturn.weather.normals.normal_year import normal_year

NUMBERS = Numbers({})
COLD = Climate(last_frost=FrostDate(usual="04-24"), first_frost=FrostDate(usual="10-16"))
NEVER = Climate(last_frost=FrostDate(years=0.0))


def usual_year(climate: Climate, lat: float) -> Ensemble:
    """A year of which nothing is known yet."""
    axis = SeasonAxis(2027, lat < 0)
    normals = normal_year(Place(lat=lat, lon=15.0), climate)
    return build_ensemble(axis, None, normals, axis.first, latitude=lat)


def test_frost_brings_leaves_down_where_it_comes() -> None:
    year = usual_year(COLD, 46.9)
    last = Numbers({"leaf_turn_sum": 50_000})  # no short day has turned them by then
    np.testing.assert_array_equal(leaf_fall(year, 0.0, last, 21.0), first_frost(year) + 21)
    assert leaf_heat_start(year, 0.0, NUMBERS) == "season"
    assert HeatCount(5.0, leaf_heat_start(year, 0.0, NUMBERS)).first_day(year.axis) == 61


@pytest.mark.parametrize(
    ("lat", "down", "heat"),
    [(37.0, dt.date(2027, 12, 10), dt.date(2027, 2, 18)), (-37.0, dt.date(2028, 6, 8), dt.date(2027, 8, 18))],
)
def test_short_days_do_where_it_never_comes(lat: float, down: dt.date, heat: dt.date) -> None:
    """In the south the same number of days after 1 May as in the north after 1 November, give or take two."""
    year = usual_year(NEVER, lat)
    fall = {year.axis.date(day) for day in leaf_fall(year, 0.0, NUMBERS, 21.0)}
    assert len(fall) == 1
    assert abs((fall.pop() - down).days) <= 2
    first = HeatCount(5.0, leaf_heat_start(year, 0.0, NUMBERS)).first_day(year.axis)
    assert abs((year.axis.date(first) - heat).days) <= 2
    assert latest_growth_end(year.axis, NUMBERS) == leaf_fall(year, 0.0, NUMBERS, 0.0)[0] - 21


def test_short_and_cool_days_do_where_it_comes_late() -> None:
    """By the form of Delpierre 2009 on days of one warmth and, south of the line, half a year on."""
    turned = {lat: leaf_turn(usual_year(COLD, lat), NUMBERS) for lat in (46.9, -46.9)}
    for lat, days in turned.items():
        year = usual_year(COLD, lat)
        first = year.axis.month_day("06-22")
        length = day_length(lat, days_of_year(year.axis.date(first), 200))
        for mean, day in zip(year.tmean[:, first:], days, strict=True):
            counted = [
                max(28.5 - warmth, 0) ** 2 * (hours / 12.5) ** 2 if hours < 12.5 else 0.0
                for warmth, hours in zip(mean, length, strict=False)
            ]
            upto = int(day - first)
            assert sum(counted[:upto]) < 8268 <= sum(counted[: upto + 1])
    assert np.isinf(leaf_turn(usual_year(NEVER, 20.0), NUMBERS)).all(), "days there hardly shorten"


def test_a_steward_may_move_both() -> None:
    own = Numbers({"leaf_fall_latest_days": 90, "leaf_rest_days": 30})
    assert leaf_heat_start(usual_year(NEVER, 37.0), 0.0, own) == "01-20"
