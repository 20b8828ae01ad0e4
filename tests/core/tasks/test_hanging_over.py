"""Harvests that go on over the turn of the season have their job in every week in which they are picked.

Macadamias of the cool north of New Zealand fall from autumn into winter, past the first of July on which
seasons turn there; Hass avocados of southern California, of flowers of spring, are picked from January to
summer of the next year (growers' pages, recalled). Monthly means from memory.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn.almanac import Almanac
from leafturn.journal.entries import Done, HarvestNote

KERIKERI = {
    "tmax_c": [24.6, 24.9, 23.6, 21.2, 18.6, 16.3, 15.4, 15.8, 17.2, 18.7, 20.6, 22.9],
    "tmin_c": [14.6, 15.0, 13.7, 11.9, 9.9, 8.0, 7.0, 7.3, 8.3, 9.6, 11.3, 13.3],
}
VISTA = {
    "tmax_c": [20.0, 19.8, 20.2, 21.3, 22.1, 23.4, 26.0, 27.3, 27.0, 25.0, 22.4, 19.6],
    "tmin_c": [7.5, 8.1, 9.1, 10.5, 13.0, 14.9, 17.0, 17.5, 16.6, 13.7, 10.0, 7.2],
}


def kerikeri(folder: Path, on: str) -> Almanac:
    tree = plant("tree", "macadamia", year=2000)
    return almanac_of(folder, garden_text(tree, climate=KERIKERI, lat=-35.2, lon=173.9), on)


def vista(folder: Path, on: str) -> Almanac:
    tree = plant("tree", "avocado", cultivar="Hass", year=2000)
    return almanac_of(folder, garden_text(tree, climate=VISTA, lat=33.2, lon=-117.2), on)


def states(almanac: Almanac) -> list[str]:
    return [job.state for job in almanac.jobs() if job.id.startswith("tree:pick:")]


@pytest.mark.parametrize("on", ["2027-06-10", "2027-07-05", "2027-07-15"])
def test_nuts_that_fall_past_the_turn_are_gathered_after_it(on: str, tmp_path: Path) -> None:
    assert "due" in states(kerikeri(tmp_path, on))


@pytest.mark.parametrize("on", ["2027-02-20", "2027-04-15", "2027-05-20"])
def test_fruit_of_last_years_flowers_is_picked_in_this(on: str, tmp_path: Path) -> None:
    almanac = vista(tmp_path, on)
    assert "due" in states(almanac)
    (week,) = (week for week in almanac.larder().weeks if 0 <= (almanac.on - week.first).days < 7)
    assert week.picked == ("tree",), "the week and the larder tell one thing"


def test_once_it_is_over_it_is_gone(tmp_path: Path) -> None:
    assert "due" not in states(kerikeri(tmp_path, "2027-09-01"))
    assert "due" not in states(vista(tmp_path, "2027-09-01"))


def test_a_harvest_of_the_new_season_is_of_the_old_fruit(tmp_path: Path) -> None:
    almanac = vista(tmp_path, "2027-03-10")
    picked, _ = almanac.note(HarvestNote(on=almanac.on, plant="tree", kg=4.0), almanac.on)
    of_2026 = [job for job in picked.jobs() if job.id.startswith("tree:pick:2026")]
    assert [job.state for job in of_2026] == ["done", "soon"]
    assert "done" not in [job.state for job in picked.jobs() if job.id.startswith("tree:pick:2027")]
    again = picked.at(dt.date(2027, 3, 25))
    assert "due" in states(again)
    ticked, _ = again.note(Done(on=again.on, task="tree:pick:2026:2"), again.on)
    assert "due" not in states(ticked)
