"""Plants that the file tells of, and that are planted only after the day asked."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn.garden.model import Plant
from leafturn.garden.reading.planted import is_planted
from leafturn.hazards.bark import bark_lines


def planted(kind: str, year: int) -> str:
    """A garden with one tree, planted in a year."""
    return garden_text(plant(kind, kind, at=[3, 4], year=year))


@pytest.mark.parametrize(("year", "day"), [(2090, "2027-04-19"), (2010, "1996-04-19")])
def test_what_is_planted_later_has_no_jobs_and_is_not_reviewed(tmp_path: Path, year: int, day: str) -> None:
    almanac = almanac_of(tmp_path, planted("pear", year), day)
    assert [job.id for job in almanac.jobs() if "pear" in (job.plant, *job.plants)] == []
    assert not almanac.partners()
    later = almanac.at(dt.date(year + 1, 4, 19))
    assert [job.id for job in later.jobs() if "pear" in (job.plant, *job.plants)]
    assert [tree.plant for tree in later.partners()] == ["pear"]


def test_a_southern_season_ends_in_the_year_after_the_one_it_is_named_by() -> None:
    pear = Plant(kind="pear", year=2027)
    assert is_planted(pear, 2026, southern=True)
    assert not is_planted(pear, 2026, southern=False)
    assert is_planted(Plant(kind="pear"), 1900, southern=False)


def test_a_tree_planted_this_year_is_not_called_0_years_old(tmp_path: Path) -> None:
    almanac = almanac_of(tmp_path, planted("apple", 2027), "2027-04-19")
    (line,) = bark_lines(almanac.day)
    assert line.says.startswith("apple was planted this year and has no guard")
    (line,) = bark_lines(almanac.at(dt.date(2028, 4, 19)).day)
    assert line.says.startswith("apple is 1 year old")
