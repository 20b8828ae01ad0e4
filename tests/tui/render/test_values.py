"""Values as JSON holds them: dates, numbers by their unit, and what JSON has no word for."""

from __future__ import annotations

import datetime as dt
import json

import numpy as np
import pytest

from leafturn.base.date_range import Likely
from leafturn.base.faults import Fault
from leafturn_tui.render.parts.values import json_text, plain_value

DAY = dt.date(2027, 4, 19)


@pytest.mark.parametrize(
    ("key", "number", "written"),
    [
        ("metres", 86.4288, 86.43),
        ("crown_m", 3.14159, 3.14),
        ("live_percent", 33.333, 33.3),
        ("minutes", 25.0, 25),
        ("chance", 0.45678, 0.457),
        ("points_back", 10.26, 10.3),
        ("garden_celsius", -19.44444, -19.444),
        ("celsius_in_ten_years", 0.3271, 0.327),
        ("threshold_celsius", float("nan"), None),
        ("litres", np.float32(30.71), 30.7),
        ("year", 2027, 2027),
    ],
)
def test_a_number_is_rounded_by_the_unit_in_its_key(key: str, number: float, written: float | None) -> None:
    assert json.loads(json_text({key: number})) == {key: written}


def test_what_has_no_unit_takes_that_of_what_holds_it() -> None:
    told = plain_value({"height_m": {2031: 4.5678, "chance": 0.4567}, "shift_days": [1.26, -2.04]})
    assert told == {"height_m": {"2031": 4.57, "chance": 0.46}, "shift_days": [1.3, -2.0]}


def test_dates_and_frozen_values_are_taken_apart() -> None:
    fault = Fault(file="garden.toml", line=None, message="so")
    assert plain_value({"when": Likely(None, DAY, DAY), "fault": fault}) == {
        "when": {"early": None, "likely": "2027-04-19", "late": "2027-04-19"},
        "fault": {"file": "garden.toml", "line": None, "message": "so", "hint": ""},
    }
