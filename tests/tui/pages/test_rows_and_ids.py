"""A line is told by what it is about, never by how its key happens to begin: ids may read like keys."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn.almanac import Almanac
from leafturn_tui.pages.base import Page
from leafturn_tui.pages.larder import LarderPage
from leafturn_tui.pages.one_plant import OnePlant
from leafturn_tui.pages.one_tree import OneTree
from leafturn_tui.pages.season import SeasonPage
from leafturn_tui.panels.sentences import Sheet
from leafturn_tui.text.layout import Row

ODD = ("about frost 1", "week 3", "days pip", "pip")
ON = dt.date(2027, 3, 20)


@pytest.fixture
def almanac(tmp_path: Path) -> Almanac:
    plants = (plant(own, "apple", name=own, year=2010, at=[3 * n, 0]) for n, own in enumerate(ODD))
    return almanac_of(tmp_path, garden_text(*plants), ON)


def told(page: Page, almanac: Almanac, row: Row) -> str:
    """The title of what `w` tells of a line."""
    sheet = page.why(almanac, row)
    assert isinstance(sheet, Sheet)
    return sheet.heading()


@pytest.mark.parametrize("view", ["strip", "list"])
def test_a_plant_named_like_a_line_on_frost_is_told_as_a_plant(almanac: Almanac, view: str) -> None:
    page = SeasonPage()
    page.view = view
    rows = [row for row in page.rows(almanac, 78) if row.key]
    assert {told(page, almanac, row).split(":")[0] for row in rows if row.plant} == set(ODD)
    of_frost = [row for row in rows if not row.plant]
    assert of_frost
    assert {told(page, almanac, row) for row in of_frost} == {"frost: how are these lines read?"}


def test_partners_are_told_by_id_in_both_lists(almanac: Almanac) -> None:
    page = OneTree("pip")
    rows = page.rows(almanac, 78)
    lines = [row for row in rows if row.about]
    assert sorted(row.about for row in lines) == sorted([*ODD[:3], "pip", *ODD[:3]])
    for row in lines:
        opened = page.opened(almanac, row)
        assert isinstance(opened, OnePlant)
        assert opened.plant_id == row.about
        about = told(page, almanac, row)
        assert about.startswith(f"{row.about} for pip:" if row.about != "pip" else "pip:")


def test_each_line_of_a_week_tells_that_week(almanac: Almanac) -> None:
    page = LarderPage()
    page.as_list = True
    weeks = almanac.larder().weeks
    rows = [row for row in page.rows(almanac, 78) if not row.joined]
    assert [row.about for row in rows] == [week.first.isoformat() for week in weeks]
    titles = [told(page, almanac, row) for row in rows]
    assert len(set(titles)) == len(weeks)
    page.as_list = False
    shown = [row for row in page.rows(almanac, 78) if row.about]
    assert shown
    assert {told(page, almanac, row) for row in shown} <= set(titles)
