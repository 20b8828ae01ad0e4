"""When a heap wants turning."""

from __future__ import annotations

import datetime as dt

import numpy as np
from tests.samples.frost_years import OWN_RECORD

from leafturn.base.explained_days import ExplainedDays
from leafturn.garden.model import Garden, Place
from leafturn.journal.entries import HeapReading
from leafturn.kinds.library import load_library
from leafturn.season.axis import AXIS_DAYS, SeasonAxis
from leafturn.season.ensemble import Ensemble
from leafturn.season.garden_day import GardenDay
from leafturn.season.stage_duration import Pace
from leafturn.soil.compost.turning import turn_due

AXIS = SeasonAxis(2027)
ON = dt.date(2027, 6, 20)


def due(
    *temperatures: float, mean: float = 12.0, turned: dt.date | None = dt.date(2027, 6, 1), **rules: float
) -> ExplainedDays:
    flat = np.full((2, AXIS_DAYS), mean)
    ensemble = Ensemble(
        axis=AXIS, tmin=flat, tmax=flat, rain=flat * 0, observed_to=0, filled=0, made_of=OWN_RECORD
    )
    entries = [
        HeapReading(on=dt.date(2027, 6, 10) + dt.timedelta(days=i), heap="bay", temp_c=t)
        for i, t in enumerate(temperatures)
    ]
    garden = Garden(place=Place(lat=48.0, lon=9.0), rules=dict(rules))
    garden_day = GardenDay(garden, load_library()[0], tuple(entries), ON)
    return turn_due("bay", garden_day, turned, ensemble, Pace(ensemble))


def day(answer: ExplainedDays) -> dt.date:
    return AXIS.date(float(np.median(answer.days)))


def test_by_days_alone_and_quicker_in_the_warm() -> None:
    assert day(due()) == dt.date(2027, 6, 15)
    assert day(due(mean=18.0)) < dt.date(2027, 6, 12)
    assert due().basis == "guess"
    assert due().told.says == "19 days since it was turned, and no temperature noted since."


def test_fallen_out_of_the_hot_range_is_due_at_once() -> None:
    """NRAES-54 (Rynk 1992), recalled: a heap that was hot and has cooled has used its air."""
    answer = due(58, 44)
    assert day(answer) == dt.date(2027, 6, 11)
    assert answer.told.says == "bay was 58 C on 10 Jun and 44 C on 11 Jun, 19 days since it was turned."
    assert answer.basis == "own record"


def test_still_hot_is_left_to_work() -> None:
    assert day(due(50, 62, 66, 64, 60, 61)) >= dt.date(2027, 6, 18)
    assert "still 61 C" in due(50, 62, 61).told.says


def test_never_hot_goes_by_days() -> None:
    assert day(due(30, 34)) == day(due())


def test_readings_before_the_last_turn_do_not_count() -> None:
    assert "no temperature noted" in due(58, 44, turned=dt.date(2027, 6, 15)).told.says


def test_the_steward_may_set_other_limits() -> None:
    assert day(due(58, 44, heap_cooled_c=40.0)) == day(due())
