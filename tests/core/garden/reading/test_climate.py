"""The climate of a garden file: monthly lists, frost dates, and their slips."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.samples.garden_files import PLACE, reading_of, sentences

from leafturn.garden.model import Climate, FrostDate
from leafturn.garden.reading.frost_dates import month_and_day

TWELVE = "[1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]"


def climate_of(text: str, folder: Path) -> tuple[Climate | None, list[str]]:
    """The climate and the faults."""
    reading = reading_of(PLACE + text, folder)
    return reading.garden.climate, sentences(reading)


@pytest.mark.parametrize(
    ("written", "read"),
    [
        ('"04-24"', "04-24"),
        ('"4-24"', "04-24"),
        ('"24 April"', "04-24"),
        ('"24. Apr"', "04-24"),
        ('"april 24"', "04-24"),
        ("2027-04-24", "04-24"),
        ('"2027-04-24"', "04-24"),
        ('"02-29"', "02-29"),
    ],
)
def test_frost_dates_in_several_spellings(written: str, read: str, tmp_path: Path) -> None:
    climate, faults = climate_of(f"last_frost = {written}\n", tmp_path)
    assert (climate, faults) == (Climate(last_frost=FrostDate(usual=read)), [])


@pytest.mark.parametrize("written", ["24-04", "13-01", "02-30", "april", "soon", "", "0-1", "1 maybe"])
def test_what_is_no_day(written: str) -> None:
    assert month_and_day(written) is None


def test_day_before_month_is_guessed_at_in_the_hint(tmp_path: Path) -> None:
    climate, faults = climate_of('last_frost = "24-04"\n', tmp_path)
    assert faults == [
        'line 4: last_frost = "24-04" is not a day of the year; it is left out. Write "04-24" (month-day).'
    ]
    assert climate in (None, Climate())


def test_frost_dates_with_their_spread(tmp_path: Path) -> None:
    text = (
        '[climate]\nlast_frost = { usual = "04-24", one_year_in_ten_after = "05-12" }\n'
        'first_frost = { usual = "01-05", one_year_in_ten_before = "12-20" }\n'  # over New Year
    )
    climate, faults = climate_of(text, tmp_path)
    assert faults == []
    assert climate == Climate(
        last_frost=FrostDate(usual="04-24", one_year_in_ten_after="05-12"),
        first_frost=FrostDate(usual="01-05", one_year_in_ten_before="12-20"),
    )


def test_spread_on_the_wrong_side_is_left_out(tmp_path: Path) -> None:
    text = 'last_frost = { usual = "04-24", one_year_in_ten_after = "04-12" }\n'
    climate, faults = climate_of(text, tmp_path)
    assert climate == Climate(last_frost=FrostDate(usual="04-24"))
    said = "one_year_in_ten_after of last_frost is 04-12, which is not after the usual 04-24; it is left out."
    assert faults == [f"line 4: {said}"]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("last_frost = { one_year_in_ten_after = '05-12' }", "has no usual day"),
        ("last_frost = 3", "is not a day of the year"),
        ("last_frost = { usual = '04-24', odd = 1 }", "unknown key 'odd' ignored"),
    ],
)
def test_slips_in_frost_dates(text: str, said: str, tmp_path: Path) -> None:
    _, (fault,) = climate_of(f"{text}\n", tmp_path)
    assert fault.startswith("line 4: ")
    assert said in fault


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("tmax_c = [1, 2, 3]", "tmax_c holds 3 numbers; it is left out. Write twelve, January first."),
        ("tmax_f = [1, 2, 3]", "tmax_f holds 3 numbers"),
        (f"tmax_c = {TWELVE.replace('12]', '112]')}", "tmax_c holds 112 C, which no month has had"),
        (f"rain_mm = {TWELVE.replace('[1', '[-1')}", "rain_mm holds -1 mm, which no month has had"),
        (f"tmax_c = {TWELVE.replace('12]', 'true]')}", "true in tmax_c is true or false, not a number"),
        (
            "rain_mm = 30",
            "rain_mm = 30 is a whole number, not a list; rain_mm is left out. Write rain_mm = twelve",
        ),
    ],
)
def test_a_bad_list_is_left_out_and_the_rest_kept(text: str, said: str, tmp_path: Path) -> None:
    climate, (fault,) = climate_of(f"[climate]\n{text}\ntmin_c = {TWELVE}\n", tmp_path)
    assert fault.startswith("line 5: ")
    assert said in fault
    assert climate == Climate(tmin_c=tuple(float(number) for number in range(1, 13)))


def test_nights_warmer_than_days_name_both_lines(tmp_path: Path) -> None:
    text = f"[climate]\ntmax_c = {TWELVE}\ntmin_c = {TWELVE.replace(' 3,', ' 9,')}\nrain_mm = {TWELVE}\n"
    climate, (fault,) = climate_of(text, tmp_path)
    assert fault.startswith("line 6: tmin_c (line 6) lies above tmax_c (line 5) in March; both are left out.")
    assert climate is not None
    assert (climate.tmax_c, climate.tmin_c) == (None, None)
    assert climate.rain_mm is not None


def test_given_under_place_and_climate_names_both_lines(tmp_path: Path) -> None:
    text = f'last_frost = "04-20"\nrain_mm = {TWELVE}\n[climate]\nlast_frost = "04-24"\n'
    climate, (fault,) = climate_of(text, tmp_path)
    assert fault.startswith("line 4: last_frost is given twice, on lines 7 and 4; the first is used.")
    assert climate is not None
    assert climate.last_frost == FrostDate(usual="04-24")
    assert climate.rain_mm is not None


def test_no_climate_is_none(tmp_path: Path) -> None:
    assert climate_of("", tmp_path) == (None, [])


@pytest.mark.parametrize(
    ("latitude", "last", "first", "left_out"),
    [
        (46.9, "04-24", "10-16", []),
        (-37.8, "09-20", "05-15", []),
        (68, "06-15", "08-25", []),  # a short summer far north
        (35, "01-20", "12-20", []),
        (5, "09-20", "05-15", []),  # highlands near the equator
        (37.8, "09-20", "05-15", [4, 5]),  # the south's dates under a latitude without its minus
        (-37.8, "04-24", "10-16", [4, 5]),
        (46.9, "10-16", "04-24", [4, 5]),  # swapped
        (-46.9, "09-20", "08-31", [5]),
    ],
)
def test_frost_on_the_other_side_of_the_year_is_left_out(
    latitude: float, last: str, first: str, left_out: list[int], tmp_path: Path
) -> None:
    text = f'[place]\nlat = {latitude}\nlon = 15.9\nlast_frost = "{last}"\nfirst_frost = "{first}"\n'
    reading = reading_of(text, tmp_path)
    assert [fault.line for fault in reading.faults] == left_out
    assert all(f"lat = {-latitude:g}" in fault.hint for fault in reading.faults)
    kept = reading.garden.climate
    assert kept is not None
    assert (kept.last_frost is None, kept.first_frost is None) == (4 in left_out, 5 in left_out)
