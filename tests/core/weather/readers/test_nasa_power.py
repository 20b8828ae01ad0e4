"""Answers of NASA POWER in the form of its guide, and what is none."""

from __future__ import annotations

import datetime as dt
import json
from typing import Any

import numpy as np
import pytest
from tests.samples.archive_files import FIRST, LAST, days, power_answer

from leafturn.weather.readers.nasa_power import read_nasa_power


def test_every_day_is_read_gaps_are_gaps_and_the_end_without_values_is_left_away() -> None:
    reading, height = read_nasa_power(power_answer().decode(), "archive")
    record = reading.record
    assert record is not None
    assert (record.first, record.last, height) == (FIRST, LAST, 512.4)
    wrong, gap = ((day - FIRST).days for day in (dt.date(2020, 7, 4), dt.date(2021, 2, 10)))
    low = np.array([one[1] for one in days()])
    low[gap] = np.nan
    assert np.array_equal(record.tmin, low, equal_nan=True)
    assert np.isnan(record.tmax[wrong])
    assert np.array_equal(record.rain, [one[3] for one in days()])
    assert [note for note in reading.notes if "2020-07-04 (77.0 C)" in note] == list(reading.notes)
    assert reading.faults == ()


def changed(*path: str, to: Any) -> str:
    answer = json.loads(power_answer())
    inner = answer
    for key in path[:-1]:
        inner = inner[key]
    inner[path[-1]] = to
    return json.dumps(answer)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("<html>", "this is no daily weather of NASA POWER."),
        ("[]", "this is no daily weather of NASA POWER."),
        ('{"detail": "The POWER API failed"}', "this is no daily weather of NASA POWER."),
        (power_answer().decode()[:5000], "this is no daily weather of NASA POWER."),
        (changed("properties", "parameter", "T2M_MIN", to={"2021": 1.0}), "this is no daily weather"),
        (changed("properties", "parameter", "T2M_MIN", to={"20210230": 1.0}), "this is no daily weather"),
        (changed("properties", "parameter", "T2M_MIN", to={"20210203": "warm"}), "this is no daily weather"),
        (changed("parameters", "T2M_MAX", "units", to="K"), "T2M_MAX is told in K, not in C."),
        (changed("properties", "parameter", to={}), "no day with a temperature stands in it."),
    ],
)
def test_what_is_no_answer_costs_one_sentence(text: str, said: str) -> None:
    reading, _ = read_nasa_power(text, "archive")
    assert reading.record is None
    (fault,) = reading.faults
    assert fault.message.startswith(said)
