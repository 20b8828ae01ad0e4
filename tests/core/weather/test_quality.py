"""Values that cannot be true are set aside and said; true ones are kept."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest
from msgspec.structs import replace

from leafturn.weather import quality
from leafturn.weather.record import DailyRecord

FIRST = dt.date(2001, 1, 1)


def record(years=10, seed=3):
    """Invented weather of a middling climate."""
    rng = np.random.default_rng(seed)
    days = np.arange(round(365.25 * years))
    mean = 10 - 11 * np.cos(2 * np.pi * (days - 20) / 365.25) + rng.normal(0, 3.4, len(days))
    half = rng.uniform(2, 8, len(days))
    rain = rng.exponential(3, len(days))
    return DailyRecord(first=FIRST, tmin=mean - half, tmax=mean + half, rain=rain)


def changed(source, **values):
    """A copy with single values replaced: tmin={day: value}."""
    arrays = {name: getattr(source, name).copy() for name in ("tmin", "tmax", "rain")}
    for name, days in values.items():
        for day, value in days.items():
            arrays[name][day] = value
    return DailyRecord(first=source.first, **arrays)


def test_likely_weather_is_left_as_it_was():
    source = record()
    assert quality.check(source) is source


@pytest.mark.parametrize(
    ("values", "words"),
    [
        ({"tmin": {200: -95.0}}, "minimum of 2001-07-20 (-95.0 C)"),
        ({"tmax": {200: 61.0}}, "maximum of 2001-07-20 (61.0 C)"),
        ({"rain": {200: -1.0}}, "rain of 2001-07-20 (-1.0 mm)"),
        ({"rain": {200: 2000.0}}, "no day has had such rain"),
        ({"tmin": {199: -57.8}}, "six standard deviations"),
        ({"tmax": {10: 45.0}}, "six standard deviations"),
    ],
)
def test_an_impossible_value_becomes_a_gap(values, words):
    source = record()
    checked = quality.check(changed(source, **values))
    ((name, days),) = values.items()
    assert np.flatnonzero(np.isnan(getattr(checked, name))).tolist() == list(days)
    assert len(checked.notes) == 1
    assert words in checked.notes[0]
    for other in {"tmin", "tmax", "rain"} - {name}:
        np.testing.assert_array_equal(getattr(checked, other), getattr(source, other))


def test_a_minimum_above_the_maximum_takes_both():
    source = record()
    checked = quality.check(changed(source, tmin={100: source.tmax[100] + 1.0}))
    assert np.isnan(checked.tmin[100])
    assert np.isnan(checked.tmax[100])
    assert "lower than the day's minimum" in checked.notes[0]


def test_a_spike_is_found_in_a_record_too_short_for_a_climate():
    source = record(years=1)
    middle = (source.tmin[149] + source.tmin[151]) / 2
    checked = quality.check(changed(source, tmin={150: middle - 30.0}))
    assert np.isnan(checked.tmin[150])
    assert "both the day before and the day after" in checked.notes[0]


def test_days_beyond_the_third_are_counted():
    checked = quality.check(changed(record(), rain=dict.fromkeys(range(50, 60), -9999.0)))
    assert checked.notes[0].count("(-9999.0 mm)") == 3
    assert "and 7 more days were set aside" in checked.notes[0]


def test_a_hard_frost_in_very_even_weather_is_believed():
    even = DailyRecord(first=FIRST, tmin=np.full(4000, 6.0), tmax=np.full(4000, 14.0), rain=np.zeros(4000))
    assert quality.check(changed(even, tmin={2000: -5.0})).notes == ()


def test_gaps_and_short_records_are_no_trouble():
    gaps = changed(record(), tmin=dict.fromkeys(range(300, 900), np.nan))
    assert quality.check(gaps).notes == ()
    for days in (1, 2, 3):
        one = DailyRecord(first=FIRST, tmin=np.zeros(days), tmax=np.ones(days), rain=np.full(days, np.nan))
        assert quality.check(one).notes == ()
    nothing = np.full(9, np.nan)
    assert quality.check(DailyRecord(first=FIRST, tmin=nothing, tmax=nothing, rain=nothing)).notes == ()


def test_earlier_notes_are_kept():
    source = record()
    checked = quality.check(replace(source, rain=-source.rain, notes=("As read.",)))
    assert checked.notes[0] == "As read."
    assert len(checked.notes) == 2
