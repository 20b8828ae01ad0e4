"""Leads on Seattle's real weather of 2014 (NOAA, carried by vega-datasets): once come, they have come."""

from __future__ import annotations

import datetime as dt
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
from tests.samples.garden_text import almanac_of, garden_text
from tests.samples.garden_text import plant as planted

from leafturn.assembly.seasons import Seasons
from leafturn.assembly.sources import read_sources
from leafturn.season.garden_day import GardenDay
from leafturn.tasks.subjects import Subject, subject_of
from leafturn.tasks.timing.phrases import read_moment
from leafturn.tasks.timing.resolve import resolve

FIRST, DAYS, EVERY = dt.date(2014, 2, 20), 44, 2
PHRASES = ("4 d before first open", "6 w before leaf out", "2 w before heat 60 above 5")


@pytest.fixture(scope="module")
def come(seattle_garden: Path) -> dict[tuple[str, str], list[tuple[bool, bool]]]:
    """For each plant and phrase, day by day: whether the lead has come, and whether the bare date has."""
    sources = read_sources(seattle_garden)
    found: dict[tuple[str, str], list[tuple[bool, bool]]] = {}
    for n in range(0, DAYS, EVERY):
        on = FIRST + dt.timedelta(days=n)
        season = Seasons(sources, GardenDay(sources.garden, sources.library, (), on)).now
        for plant in sources.garden.plants:
            subject = Subject(
                id=plant.id, name=plant.id, plants=(plant,), kind=sources.library.match(plant.kind).kind
            )
            for phrase in PHRASES:
                moment = read_moment(phrase)
                lead_time = resolve(moment, subject, season, winter=False, done=None)
                event = read_moment(phrase.partition("before ")[2])
                bare = resolve(event, subject, season, winter=False, done=None).days + moment.shift
                today = season.today
                found.setdefault((plant.id, phrase), []).append(
                    (lead_time.middle <= today, float(np.median(bare)) <= today)
                )
    return found


def test_a_lead_that_has_come_does_not_go_again(
    come: dict[tuple[str, str], list[tuple[bool, bool]]],
) -> None:
    for (plant, phrase), days in come.items():
        assert not any(before and not after for (before, _), (after, _) in pairwise(days)), (plant, phrase)
    assert any(days[0][0] is False and days[-1][0] for days in come.values())


def test_a_lead_comes_within_a_week_or_so_of_the_bare_date(
    come: dict[tuple[str, str], list[tuple[bool, bool]]],
) -> None:
    """The year's own clock runs fast or slow, but not by much more in so short a time (a guess)."""
    for (plant, phrase), days in come.items():
        if not phrase.startswith("4 d"):
            continue
        lead_time, bare = ([n for n, day in enumerate(days) if day[which]] for which in (0, 1))
        if lead_time and bare and lead_time[0] > 0 and bare[0] > 0:
            assert abs(lead_time[0] - bare[0]) * EVERY <= 8, plant


def test_plants_led_together_are_led_as_each_alone(tmp_path: Path) -> None:
    """Three pears and a hazel in one subject: the first of them in each draw."""
    things = [planted(f"pear-{n}", "pear", at=[6 * n, 0], year=2012) for n in range(3)]
    text = garden_text(*things, planted("hazel", "hazel", at=[0, 9], year=2012))
    season = almanac_of(tmp_path, text, dt.date(2027, 3, 20))._seasons.now
    plants = season.day.garden.plants
    moment, at = read_moment("3 w before first open"), {"winter": False, "done": None}
    alone = [resolve(moment, subject_of(one, season), season, **at).days for one in plants]
    whole = Subject(id="all", name="all", plants=plants)
    together = resolve(moment, whole, season, **at).days
    np.testing.assert_array_equal(together, np.min(alone, axis=0))
    assert not np.array_equal(together, alone[0])
