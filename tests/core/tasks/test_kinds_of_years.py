"""A wet, a dry, an early and a late year each make another list, and a winter week says that it is quiet.

The demo garden with the weather of one of its own past years in place of the year to come. The weather is
invented; which year is wet or early is found from the record itself.
"""

from __future__ import annotations

import csv
import datetime as dt
import re
import shutil
from collections.abc import Callable

import pytest
from tests.samples.places import ROOT
from tests.samples.simulated_year import with_weather_like

from leafturn.almanac import Almanac
from leafturn.assembly.sources import Sources, read_sources
from leafturn.tasks.model import Job

YEAR = 2027


def past_years() -> dict[int, list[tuple[dt.date, float, float, float]]]:
    """Days of each past year: date, minimum, maximum, rain."""
    years: dict[int, list[tuple[dt.date, float, float, float]]] = {}
    with (ROOT / "demo_garden" / "weather.csv").open(encoding="utf-8") as file:
        for row in csv.reader(file):
            if row and row[0][:1].isdigit() and all(row) and int(row[0][:4]) < 2026:
                day = dt.date.fromisoformat(row[0])
                years.setdefault(day.year, []).append((day, *map(float, row[1:4])))  # type: ignore[arg-type]
    return years


def summer_rain(days: list[tuple[dt.date, float, float, float]]) -> float:
    return sum(rain for day, _, _, rain in days if 5 <= day.month <= 7)


def spring_warmth(days: list[tuple[dt.date, float, float, float]]) -> float:
    return sum(max((low + high) / 2 - 5, 0) for day, low, high, _ in days if day.month <= 4)


@pytest.fixture(scope="module")
def garden_of(tmp_path_factory: pytest.TempPathFactory) -> Callable[[int], Sources]:
    """The demo garden in a year with the weather of a past one, without that year's own notes."""
    kept: dict[int, Sources] = {}

    def of(like: int) -> Sources:
        if like not in kept:
            folder = tmp_path_factory.mktemp(str(like)) / "demo"
            shutil.copytree(ROOT / "demo_garden", folder, ignore=shutil.ignore_patterns("*.py"))
            (folder / "journal" / "2027.toml").unlink()
            file = folder / "weather.csv"
            lines = file.read_text(encoding="utf-8").splitlines(keepends=True)
            file.write_text("".join(line for line in lines if not line.startswith("2027")), encoding="utf-8")
            with_weather_like(folder, YEAR, like)
            kept[like] = read_sources(folder)
        return kept[like]

    return of


def jobs(sources: Sources, month: int, day: int) -> tuple[Job, ...]:
    return Almanac(sources, dt.date(YEAR, month, day)).jobs()


@pytest.mark.long
def test_a_dry_summer_wants_water_and_a_wet_one_does_not(garden_of: Callable[[int], Sources]) -> None:
    years = past_years()
    wet = max(years, key=lambda year: summer_rain(years[year]))
    dry = min(years, key=lambda year: summer_rain(years[year]))

    def thirsty(like: int) -> int:
        found = 0
        for month, day in ((6, 20), (7, 10), (7, 31)):
            found += sum(
                j.verb == "water" and j.state in ("due", "late") for j in jobs(garden_of(like), month, day)
            )
        return found

    assert thirsty(dry) > thirsty(wet)


def test_wet_bark_holds_summer_pruning_in_a_wet_week(garden_of: Callable[[int], Sources]) -> None:
    """Silver leaf: no cuts in the wet (extension advice, recalled)."""
    years = past_years()
    wet = max(years, key=lambda year: summer_rain(years[year]))
    july = {day: rain for day, _, _, rain in years[wet] if day.month == 7}
    rainy = max(july, key=lambda day: july[day])
    pruning = [j for j in jobs(garden_of(wet), 7, rainy.day) if j.id.startswith("early-plum:summer-prune")]
    assert [j.state for j in pruning] == ["held"]
    assert pruning[0].hold is not None
    assert "wet" in pruning[0].hold.reason


@pytest.mark.long
def test_an_early_spring_has_its_jobs_weeks_before_a_late_one(garden_of: Callable[[int], Sources]) -> None:
    years = past_years()
    early = max(years, key=lambda year: spring_warmth(years[year]))
    late = min(years, key=lambda year: spring_warmth(years[year]))

    def opens(like: int, job_id: str) -> dt.date:
        job = next(j for j in jobs(garden_of(like), 6, 30) if j.id == job_id)
        assert job.open.likely is not None
        return job.open.likely

    for job_id in ("apple:note-bloom:2027", "kiwi-f1:tie-in:2027", "garden:scout-codling-moth:2027"):
        assert (opens(late, job_id) - opens(early, job_id)).days >= 10, job_id

    def open_on(like: int) -> set[str]:
        return {j.id for j in jobs(garden_of(like), 4, 25) if j.state in ("due", "late", "passed")}

    assert open_on(early) - open_on(late)


def test_a_winter_week_says_what_is_quiet_what_comes_and_what_to_note(
    garden_of: Callable[[int], Sources],
) -> None:
    the_round = Almanac(garden_of(2003), dt.date(YEAR, 1, 12)).round()
    assert not [line for line in the_round.lines if line.state in ("due", "late")]
    assert the_round.quiet.startswith("Nothing presses this week; 2 jobs may be done now and can wait.")
    assert re.search(r"Next, from \d+ [A-Z][a-z]{2}: ", the_round.quiet)
    assert "Worth a note" in the_round.quiet
