"""Station files of GHCN-Daily, in the two forms of the archive (its readme.txt and readme-by_station.txt).

The days are Seattle's of 2012 to 2015 (NOAA, carried by vega-datasets), which come from that archive; this
test writes them in each form by the columns of the readme.
"""

from __future__ import annotations

import csv
import datetime as dt
from collections import defaultdict
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from leafturn.almanac import open_almanac
from leafturn.weather.readers.ghcn_daily import is_ghcn_daily, read_ghcn_daily
from leafturn.weather.readers.ghcn_table import is_ghcn_table, read_ghcn_table
from leafturn.weather.readers.reading import read_weather

STATION = "USW00024233"
ELEMENTS = {"TMAX": "tmax_c", "TMIN": "tmin_c", "PRCP": "rain_mm"}


def days_of(folder: Path) -> dict[str, dict[dt.date, int]]:
    """Tenths by element and day."""
    found: dict[str, dict[dt.date, int]] = {element: {} for element in ELEMENTS}
    with (folder / "weather.csv").open() as file:
        for row in csv.DictReader(line for line in file if not line.startswith("#")):
            for element, column in ELEMENTS.items():
                found[element][dt.date.fromisoformat(row["date"])] = round(10 * float(row[column]))
    return found


def fixed_width(days: dict[str, dict[dt.date, int]], flag: str = " ") -> str:
    """A line a month: station 1-11, year 12-15, month 16-17, element 18-21, then 5 + 1 + 1 + 1 a day."""
    lines = []
    for element, values in days.items():
        months: dict[tuple[int, int], list[str]] = defaultdict(lambda: ["-9999   "] * 31)
        for day, tenths in values.items():
            months[day.year, day.month][day.day - 1] = f"{tenths:5d} {flag}X"
        lines += [f"{STATION}{y:04d}{m:02d}{element}{''.join(v)}" for (y, m), v in sorted(months.items())]
    return "\n".join(lines) + "\n"


def by_station(days: dict[str, dict[dt.date, int]]) -> str:
    return "".join(
        f"{STATION},{day:%Y%m%d},{element},{tenths},,,X,2400\n"
        for element, values in days.items()
        for day, tenths in values.items()
    )


def test_both_forms_give_the_record_that_the_csv_gives(seattle_garden: Path) -> None:
    record = read_weather(seattle_garden / "weather.csv", "weather.csv").record
    assert record is not None
    days = days_of(seattle_garden)
    for text in (fixed_width(days), by_station(days), by_station(days).replace("\n", "\r\n")):
        assert is_ghcn_daily(text)
        reading = read_ghcn_daily(text, "station")
        assert reading.faults == ()
        assert reading.record is not None
        assert (reading.record.first, reading.record.last) == (record.first, record.last)
        for quantity in ("tmin", "tmax", "rain"):
            np.testing.assert_allclose(getattr(reading.record, quantity), getattr(record, quantity))


def test_a_garden_may_name_a_station_file(seattle_garden: Path, tmp_path: Path) -> None:
    (tmp_path / "station.dly").write_text(fixed_width(days_of(seattle_garden)))
    words = (seattle_garden / "garden.toml").read_text()
    (tmp_path / "garden.toml").write_text(words.replace('"weather.csv"', '"station.dly"'))
    on = dt.date(2015, 4, 15)
    almanac = open_almanac(tmp_path, on)
    assert almanac.faults == ()
    assert almanac.heading() == open_almanac(seattle_garden, on).heading()


def test_a_value_the_archive_doubts_is_a_gap_and_is_said() -> None:
    days = {"TMIN": {dt.date(2014, 1, 1): -50, dt.date(2014, 1, 2): -40}}
    sound = {"TMIN": {dt.date(2014, 2, 1): 10}}
    reading = read_ghcn_daily(fixed_width(days, flag="I") + fixed_width(sound), "s")
    assert reading.record is not None
    assert np.isnan(reading.record.tmin[:-1]).all()
    assert reading.record.tmin[-1] == 1.0
    assert reading.notes[0] == (
        "2 values of s failed the archive's own checks and count as gaps: "
        "the minimum of 2014-01-01 (-5.0 C, internal consistency check) "
        "and the minimum of 2014-01-02 (-4.0 C, internal consistency check)."
    )


def test_other_elements_are_passed_over_and_a_broken_line_is_named() -> None:
    good = by_station({"TMIN": {dt.date(2014, 1, 1): -50}})
    reading = read_ghcn_daily(
        good + f"{STATION},20140101,SNWD,30,,,X,\nrubbish\n{STATION},20143301,TMIN,1,,,X,\n", "s"
    )
    assert reading.record is not None
    assert reading.record.tmin.tolist() == [-5.0]
    (fault,) = reading.faults
    assert fault.sentence() == (
        "s, line 3: this is no line of a GHCN-Daily station file; it was left out. So it is with 1 more row, "
        "on line 4."
    )


def a_column_an_element(days: dict[str, dict[dt.date, int]], flag: str = "") -> str:
    """As the archive hands out one station: quoted, tenths, attributes of measurement, quality and source."""
    elements = [*days, "SNWD"]
    heads = ["STATION", "DATE", "LATITUDE", "LONGITUDE", "ELEVATION", "NAME"]
    heads += [head for element in elements for head in (element, f"{element}_ATTRIBUTES")]
    rows = [heads]
    for day in sorted({day for values in days.values() for day in values}):
        row = [STATION, day.isoformat(), "47.4444", "-122.3138", "112.5", "SEATTLE, WA US"]
        for element in elements:
            tenths = days.get(element, {}).get(day)
            row += ["", ""] if tenths is None else [f"{tenths:5d}", f",{flag},S"]
        rows.append(row)
    return "".join(",".join(f'"{cell}"' for cell in row) + "\n" for row in rows)


def test_the_form_with_a_column_an_element_gives_the_same(seattle_garden: Path) -> None:
    record = read_weather(seattle_garden / "weather.csv", "weather.csv").record
    assert record is not None
    text = a_column_an_element(days_of(seattle_garden))
    for same in (text, text.replace("\n", "\r\n")):
        assert is_ghcn_table(same)
        reading = read_ghcn_table(same, "station")
        assert (reading.faults, reading.notes) == ((), ())
        assert reading.record is not None
        for quantity in ("tmin", "tmax", "rain"):
            np.testing.assert_allclose(getattr(reading.record, quantity), getattr(record, quantity))


def test_rain_days_means_and_doubted_values_spoil_nothing_else() -> None:
    day, next_day = dt.date(2014, 1, 1), dt.date(2014, 1, 2)
    text = a_column_an_element({"PRCP": {day: 12}, "TMIN": {next_day: -40}, "TMAX": {next_day: 30}})
    doubted = a_column_an_element({"TMAX": {day: 999}}, flag="X")
    reading = read_ghcn_table(text, "s")
    assert reading.record is not None
    np.testing.assert_array_equal(reading.record.tmin, [np.nan, -4.0])
    np.testing.assert_array_equal(reading.record.rain, [1.2, np.nan])
    (note,) = read_ghcn_table(doubted, "s").notes
    assert note == (
        "1 value of s failed the archive's own checks and counts as a gap: the maximum of 2014-01-01 "
        "(99.9 C, bounds check)."
    )


def test_a_file_without_weather_in_it_is_said() -> None:
    reading = read_ghcn_daily(f"{STATION},20140101,SNWD,30,,,X,\n", "s")
    assert reading.record is None
    assert reading.faults[0].message == "no minimum, maximum or rain stands in it."


@settings(max_examples=60, deadline=None)
@given(st.text(max_size=300), st.booleans())
def test_whatever_follows_nothing_is_raised(tail: str, fixed: bool) -> None:
    days = {"TMAX": {dt.date(2014, 7, 1): 250}}
    reading = read_ghcn_daily((fixed_width(days) if fixed else by_station(days)) + tail, "s")
    assert reading.record is not None
    assert reading.record.tmax[0] == 25.0 or reading.record.first != dt.date(2014, 7, 1)


@pytest.mark.parametrize(
    ("row", "said"),
    [
        (
            f'"{STATION}","2014-01-03","-10"',
            "3 cells where the first line names 10 columns; the row was left",
        ),
        (
            f'"{STATION}","2014-01-03,"x"y',
            "cells where the first line names 10 columns; the row was left out.",
        ),
        (
            "OTHER,2014-01-03,,,,,-10,,,",
            f"the station OTHER is another than {STATION}; its rows were left out.",
        ),
        (f"{STATION},2014-01-33,,,,,-10,,,", "a date or a number is not as the archive writes it; the row"),
        (f"{STATION},2014-01-03,,,,,-1.0,,,", "a date or a number is not as the archive writes it; the row"),
    ],
)
def test_a_row_that_is_not_as_the_archive_writes_it_costs_itself_and_is_named(row: str, said: str) -> None:
    good = a_column_an_element({"TMIN": {dt.date(2014, 1, 1): -50, dt.date(2014, 1, 2): -40}})
    reading = read_ghcn_table(f"{good}\n{row}\n", "s")
    assert reading.record is not None
    assert reading.record.tmin.tolist() == [-5.0, -4.0]
    (fault,) = reading.faults
    assert fault.line == 5
    assert said in fault.message
