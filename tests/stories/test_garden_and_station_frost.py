"""Frost dates as the garden file states them come back; a frost pocket stands beside the station."""

from __future__ import annotations

import datetime as dt
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


def days_off(told: str, stated: str) -> int:
    return abs((dt.date.fromisoformat(told) - dt.date.fromisoformat(f"2027-{stated}")).days)


@pytest.mark.parametrize("climate", [STATED, {**MONTHS, **STATED}], ids=["frosts alone", "beside months"])
def test_stated_frost_dates_come_back(tmp_path: Path, climate: dict[str, object]) -> None:
    """Median and the tenth of years after it, each within two days."""
    almanac_of(tmp_path, garden_text(APPLE, climate=climate), ON)
    frost = json.loads(run("season", str(tmp_path), "--on", ON, "--json").stdout)["frost"]
    assert days_off(frost["last"]["p50"], "04-24") <= 1
    assert days_off(frost["last"]["p90"], "05-12") <= 2
    assert days_off(frost["first"]["p50"], "10-16") <= 1
    assert days_off(frost["first"]["p10"], "10-01") <= 2


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
    assert any("At the weather station: last 24 Apr" in said for said in sheet.paragraphs)
    printed = run("season", str(tmp_path), "--on", ON).stdout
    assert "last frost in the garden 1 May (" in printed
    assert "at the weather station: last frost 24 Apr (" in printed


def test_without_a_frost_pocket_one_frost_is_told(tmp_path: Path) -> None:
    almanac = almanac_of(tmp_path, garden_text(APPLE, climate={**MONTHS, **STATED}), ON)
    shown = " ".join(row.text.strip() for row in SeasonPage().rows(almanac, 100))
    assert "last frost 24 Apr (" in shown
    assert "weather station" not in shown
