"""A garden lived through day by day: no job flickers, none is lost or comes twice, and the hours are kept to.

Two weeks run always; longer, on the invented garden and on Seattle's real weather, in the long checks.
"""

from __future__ import annotations

import csv
import datetime as dt
import shutil
from pathlib import Path

import pytest
from tests.samples.places import ROOT
from tests.samples.simulated_year import DAY, Lived, live, with_weather_like

from leafturn.tasks.week.model import Round

DEMO_LINES = 12  # a screen of 24 lines has room for so many, with what is done
RAIN_MM = 2.0  # so much in two days may put a watering off; less dries off the leaves


@pytest.fixture
def demo(tmp_path: Path) -> Path:
    """A copy of the demo garden without what was noted from 2026 on."""
    folder = tmp_path / "demo"
    shutil.copytree(ROOT / "demo_garden", folder, ignore=shutil.ignore_patterns("*.py"))
    for year in ("2026", "2027"):
        (folder / "journal" / f"{year}.toml").unlink()
    return folder


@pytest.fixture
def seattle(seattle_garden: Path, tmp_path: Path) -> Path:
    """A copy of its own, since its journal is written to."""
    return Path(shutil.copytree(seattle_garden, tmp_path / "seattle"))


def rain_of(folder: Path) -> dict[dt.date, float]:
    with (folder / "weather.csv").open(encoding="utf-8") as file:
        rows = [row for row in csv.reader(file) if row and row[0][:1].isdigit()]
    return {dt.date.fromisoformat(row[0]): float(row[3]) for row in rows if row[3]}


def check(lived: Lived, folder: Path) -> None:
    """What must hold of every day."""
    rain = rain_of(folder)

    def rained(job: str, on: dt.date) -> bool:
        return ":water:" in job and rain.get(on, 0) + rain.get(on - DAY, 0) >= RAIN_MM

    assert [f for f in lived.flips() if not rained(f.job, f.on)] == []
    assert [lost for lost in lived.lost() if not rained(lost[0], lost[1] + DAY)] == []
    assert lived.gaps() == []
    assert lived.repeated() == []
    assert lived.born_late() == []
    assert lived.unexplained() == []
    for the_round in lived.rounds.values():
        assert_hours_are_kept(the_round)
    a_week = max(the_round.hours_available for the_round in lived.rounds.values()) * 60
    assert all(minutes <= a_week + 1e-6 for minutes in lived.minutes.values())


def assert_hours_are_kept(the_round: Round) -> None:
    assert the_round.hours_needed <= the_round.hours_available + 1e-9
    for load in the_round.helpers:
        assert load.minutes <= load.hours_available * 60 + 1e-9
    beyond_hours = [job for job in the_round.waiting if job.title not in the_round.beyond_reach]
    assert all(job.wait_until is not None for job in beyond_hours)


def most_lines(lived: Lived) -> int:
    """The longest page, without what is done already."""
    return max(
        sum(line.state not in ("done", "let go") for line in the_round.lines)
        for the_round in lived.rounds.values()
    )


@pytest.mark.long
def test_ten_days_of_april_in_the_demo(demo: Path) -> None:
    lived = live(demo, dt.date(2026, 4, 10), dt.date(2026, 4, 19))
    check(lived, demo)
    assert lived.done
    assert most_lines(lived) <= DEMO_LINES


@pytest.mark.long
def test_two_weeks_of_spring_on_real_weather(seattle: Path) -> None:
    lived = live(seattle, dt.date(2014, 3, 20), dt.date(2014, 4, 3))
    check(lived, seattle)
    assert {"note bloom", "winter prune"} & {job.verb for _, job in lived.done}


@pytest.mark.first
@pytest.mark.long
def test_a_whole_year_of_work_in_the_demo(demo: Path) -> None:
    lived = live(demo, dt.date(2026, 1, 1), dt.date(2026, 12, 31))
    check(lived, demo)
    assert most_lines(lived) <= DEMO_LINES
    verbs = {job.verb for _, job in lived.done}
    assert {"winter prune", "winter cut", "summer cut", "turn", "spring mulch", "pick", "note set"} <= verbs


@pytest.mark.first
@pytest.mark.long
def test_half_a_year_in_which_nothing_is_done(demo: Path) -> None:
    with_weather_like(demo, 2027, 2003)
    lived = live(demo, dt.date(2027, 1, 1), dt.date(2027, 6, 30), work=False)
    check(lived, demo)
    assert most_lines(lived) <= DEMO_LINES


@pytest.mark.first
@pytest.mark.long
def test_two_years_of_work_on_real_weather(seattle: Path) -> None:
    lived = live(seattle, dt.date(2013, 1, 1), dt.date(2014, 12, 31))
    check(lived, seattle)
    once = {
        (job.plant, job.verb, job.id.split(":")[2]) for _, job in lived.done if job.verb == "winter prune"
    }
    assert len(once) == sum(job.verb == "winter prune" for _, job in lived.done)
