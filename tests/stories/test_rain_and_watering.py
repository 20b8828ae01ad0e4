"""Rain puts a watering off: it stays listed, says so, and is asked again under the same name as it dries."""

from __future__ import annotations

import csv
import datetime as dt
import json
import math
from pathlib import Path

import pytest
from tests.in_process import run
from tests.samples.garden_text import garden_text, plant

from leafturn.almanac import Almanac, open_almanac

FIRST, LAST = dt.date(2026, 11, 1), dt.date(2027, 10, 10)
DRY_FROM, RAIN = dt.date(2027, 5, 1), dt.date(2027, 7, 20)
WHIP = plant("whip", "apple", year=2026, at=[5, 5])


def rain_on(day: dt.date) -> float:
    """Wet to the end of April, then none but one wet day in July."""
    return 60.0 if day == RAIN else 8.0 if day < DRY_FROM and day.day % 4 == 0 else 0.0


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    (tmp_path / "garden.toml").write_text(garden_text(WHIP, weather="weather.csv"), encoding="utf-8")
    with (tmp_path / "weather.csv").open("w", encoding="utf-8", newline="") as file:
        rows = csv.writer(file)
        rows.writerow(("date", "tmin_c", "tmax_c", "rain_mm"))
        for ahead in range((LAST - FIRST).days):
            day = FIRST + dt.timedelta(days=ahead)
            mean = 10 - 11 * math.cos((day.timetuple().tm_yday - 20) / 365 * 2 * math.pi)
            rows.writerow((day, round(mean - 6, 1), round(mean + 6, 1), rain_on(day)))
    return tmp_path


def states(garden: Path, first: dt.date, last: dt.date) -> list[tuple[dt.date, str, str]]:
    """The watering of the whip on each second day: state and first reason; no day is without it."""
    found = []
    almanac: Almanac = open_almanac(garden, first)
    for ahead in range(0, (last - first).days, 2):
        now = almanac.at(first + dt.timedelta(days=ahead))
        (job,) = (j for j in now.jobs() if j.verb == "water")
        assert job.id == "whip:water:2027"
        found.append((now.on, job.state, job.why[0]))
    return found


@pytest.mark.long
def test_a_watering_that_rain_put_off_stays_listed_and_comes_back(garden: Path) -> None:
    found = states(garden, dt.date(2027, 7, 10), dt.date(2027, 9, 20))
    before = {state for on, state, _ in found if on < RAIN}
    assert before == {"due"}
    after = [(on, state, why) for on, state, why in found if on > RAIN]
    first_dry = next(on for on, state, _ in after if state == "due")
    assert first_dry > RAIN + dt.timedelta(days=2)
    for on, state, why in after:
        if on < first_dry:
            assert state in ("not yet", "soon")
            assert "Rain has put it off: water was short until 19 Jul." in why
            assert why.startswith("Not before ")
        else:
            assert state == "due", "it does not go and come while it stays dry"
            assert "put it off" not in why


def test_the_round_has_it_on_dry_days_alone(garden: Path) -> None:
    def told(on: str) -> set[str]:
        answer = json.loads(run("round", str(garden), "--on", on, "--json").stdout)
        return {job["id"] for job in (*answer["jobs"], *answer["waiting"]) if job["state"] in ("due", "late")}

    assert "whip:water:2027" in told("2027-07-18")
    assert "whip:water:2027" not in told("2027-07-22")


@pytest.mark.parametrize(("lat", "day"), [(46.93, "2027-12-05"), (-43.5, "2027-06-13")])
def test_a_watering_in_winter_is_kept_and_everything_is_answered(
    lat: float, day: str, tmp_path: Path
) -> None:
    """Water is not followed after November (May in the south): such a note ended every command after it."""
    (tmp_path / "garden.toml").write_text(
        garden_text(plant("young", "pear", year=2026, at=[3, 4]), climate=None, lat=lat), encoding="utf-8"
    )
    garden = str(tmp_path)
    assert "noted" in run("note", garden, "watering", "young", "40 l", "--on", day).stdout
    later = (dt.date.fromisoformat(day) + dt.timedelta(days=2)).isoformat()
    for question in ("round", "season", "check"):
        assert run(question, garden, "--on", later).returncode == 0
