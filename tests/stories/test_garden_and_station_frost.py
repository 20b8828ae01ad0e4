"""Frost dates as the garden file states them come back; a frost pocket stands beside the station."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from tests.in_process import run
from tests.samples.garden_text import MONTHS, almanac_of, garden_text, plant

from leafturn_tui.pages.season import SeasonPage

ON = "2027-03-01"
STATED = {
    "last_frost": {"usual": "04-24", "one_year_in_ten_after": "05-12"},
    "first_frost": {"usual": "10-16", "one_year_in_ten_before": "10-01"},
}
APPLE = plant("apple-1", "apple", year=2010, at=[0, 0])


def stated(last: str, after: str, first: str, before: str) -> dict[str, object]:
    return {
        "last_frost": {"usual": last, "one_year_in_ten_after": after},
        "first_frost": {"usual": first, "one_year_in_ten_before": before},
    }


@pytest.mark.sweep(each=5)
@pytest.mark.parametrize("months", [{}, MONTHS], ids=["frosts alone", "beside months"])
@pytest.mark.parametrize(
    ("lat", "days"),
    [
        (46.93, ("04-24", "05-12", "10-16", "10-01")),
        (46.93, ("04-24", "05-04", "10-16", "10-06")),
        (46.93, ("05-05", "05-19", "10-02", "09-20")),
        (46.93, ("03-31", "04-20", "11-06", "10-19")),
        (60.0, ("05-05", "05-19", "10-02", "09-20")),
    ],
)
def test_stated_frost_dates_come_back(
    tmp_path: Path, months: dict[str, object], lat: float, days: tuple[str, str, str, str]
) -> None:
    """The usual day and that of one year in ten, both as stated, wherever they are told."""
    climate = {**months, **stated(*days)}
    almanac_of(tmp_path, garden_text(APPLE, climate=climate, lat=lat), ON)
    frost = json.loads(run("season", str(tmp_path), "--on", ON, "--json").stdout)["frost"]
    told = (frost["last"]["p50"], frost["last"]["p90"], frost["first"]["p50"], frost["first"]["p10"])
    assert told == tuple(f"2027-{day}" for day in days)
    told_of_weather = run("weather", str(tmp_path), "--on", ON).stdout
    assert "Made-up years have these days." in told_of_weather


def test_frost_dates_that_temperatures_gainsay_are_said_to_be_missed(tmp_path: Path) -> None:
    climate = {**MONTHS, **stated("05-15", "05-23", "09-19", "09-10")}
    almanac_of(tmp_path, garden_text(APPLE, climate=climate), ON)
    told = run("weather", str(tmp_path), "--on", ON).stdout
    assert "contradict each other" in told
    assert "Made-up years come as near to that as the temperatures let them." in told


def test_the_page_shows_the_gardens_frost_and_the_stations(tmp_path: Path) -> None:
    almanac = almanac_of(tmp_path, garden_text(APPLE, climate={**MONTHS, **STATED}, frost_pocket_c=-1.0), ON)
    for view in ("strip", "list"):
        page = SeasonPage()
        page.view = view
        shown = " ".join(row.text.strip() for row in page.rows(almanac, 100))
        assert "last frost in the garden 1 May (" in shown
        assert "at the weather station: last frost 24 Apr (" in shown
    sheet = page.why(
        almanac, next(row for row in SeasonPage().rows(almanac, 100) if "last frost" in row.text)
    )
    assert sheet is not None
    assert any("leave out one year in ten at each end" in said for said in sheet.paragraphs)
    printed = run("season", str(tmp_path), "--on", ON).stdout
    assert "last frost in the garden 1 May (" in printed
    assert "at the weather station: last frost 24 Apr (" in printed


def test_without_a_frost_pocket_one_frost_is_told(tmp_path: Path) -> None:
    almanac = almanac_of(tmp_path, garden_text(APPLE, climate={**MONTHS, **STATED}), ON)
    shown = " ".join(row.text.strip() for row in SeasonPage().rows(almanac, 100))
    assert "last frost 24 Apr (" in shown
    assert "weather station" not in shown
