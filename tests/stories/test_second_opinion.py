"""A second opinion on heat: beside a forecast or a sum of heat where another way of counting differs."""

from __future__ import annotations

import csv
import datetime as dt
import json
from pathlib import Path

import pytest
from tests.in_process import opened, run
from tests.samples.garden_text import almanac_of, garden_text, own_rule, plant
from tests.samples.places import DEMO

from leafturn_tui.pages.one_plant import OnePlant
from leafturn_tui.pages.season import SeasonPage

EARLY, SPRING = "2027-04-05", "2027-04-10"  # days of the demo on which a count differs
# Nights below 10 C and noons far above it until April [degC]: there the ways of counting part.
SHARP = {
    "tmax_c": [8.5, 10.3, 14.8, 18.6, 22.5, 25.5, 27.5, 26.9, 23.2, 18.9, 13.8, 9.6],
    "tmin_c": [-11.5, -9.7, -5.2, -1.4, 2.5, 5.5, 7.5, 6.9, 3.2, -1.1, -6.2, -10.4],
}


@pytest.fixture(scope="module")
def events() -> list[dict]:
    answer = json.loads(run("season", str(DEMO), "--on", SPRING, "--json").stdout)
    return [event for event in answer["events"] if event["event"] == "first open"]


def test_plain_degree_days_stand_beside_every_first_flower_to_come(events: list[dict]) -> None:
    ahead = [e for e in events if e["observed"] is None and e["likely"] >= SPRING]
    assert len(ahead) > 20
    told = [e for e in ahead if e["degree_days"] is not None]
    assert len(told) >= 0.9 * len(ahead)
    for event in told:
        count = event["degree_days"]
        likely = dt.date.fromisoformat(event["likely"])
        days = [(dt.date.fromisoformat(count[by]) - likely).days for by in ("by_sine", "by_four_cases")]
        assert count["days"] in days
        assert abs(count["days"]) == max(map(abs, days))
        assert bool(count["says"]) == (abs(count["days"]) > 4)
    assert any(e["degree_days"]["says"] for e in told)
    assert not all(e["degree_days"]["says"] for e in told)


def test_the_sentence_stands_under_the_date_on_the_plants_page_and_in_the_season(events: list[dict]) -> None:
    event = next(e for e in events if e["degree_days"] is not None and e["degree_days"]["says"])
    says, name = event["degree_days"]["says"], event["plant"]
    assert says.startswith(f"By plain degree-days above 5 C {name} would open about ")
    assert "than foretold." in says
    lines = run("season", str(DEMO), "--on", SPRING).stdout.splitlines()
    at = lines.index(f"    {says}")
    assert f"{name}, first open" in lines[at - 1]
    almanac = opened(DEMO, dt.date.fromisoformat(SPRING))
    page = " ".join(row.text.strip() for row in OnePlant(name).rows(almanac, 200))
    assert says in page
    row = next(row for row in SeasonPage().rows(almanac, 100) if row.plant == name)
    sheet = SeasonPage().why(almanac, row)
    assert sheet is not None
    assert any(said.endswith(says) for said in sheet.paragraphs)


def test_a_job_that_hangs_on_such_a_date_says_it_too() -> None:
    job = opened(DEMO, dt.date.fromisoformat(EARLY)).job("heartnut:note-bloom")
    assert job is not None
    assert job.state == "not yet"
    assert any(said.startswith("By plain degree-days above 5 C heartnut-") for said in job.why)


def test_a_sum_of_heat_is_counted_by_the_four_cases_too(tmp_path: Path) -> None:
    look = own_rule(
        "look for moths", id="moths", title="look for moths at {name}", applies={"kinds": ["apple"]},
        open="heat 15 above 10 from 01-01", best="heat 20 above 10 from 01-01", close="08-01", minutes=5,
        because="They fly by then.", source="the garden file",
    )  # fmt: skip
    text = garden_text(plant("apple-1", "apple", year=2000, at=[0, 0]), look, climate=SHARP)
    almanac = almanac_of(tmp_path, text, "2027-02-01")
    job = almanac.job("apple-1:look-for-moths")
    assert job is not None
    said = next(s for s in job.why if s.startswith("By the four cases of met services that heat comes "))
    assert "days earlier." in said


def test_the_weather_tells_the_seasons_heat_by_both_counts() -> None:
    said = run("weather", str(DEMO), "--on", SPRING).stdout
    line = next(line for line in said.splitlines() if line.startswith("Heat above 5 C so far: "))
    assert " by a sine through each day, " in line
    assert line.endswith(" by the four cases of met services.")
    page = SeasonPage()
    page.view = "heat"
    rows = page.rows(opened(DEMO, dt.date.fromisoformat(SPRING)), 200)
    assert line in [row.text.strip() for row in rows]


def test_the_four_cases_add_up_as_met_eireann_prints_them() -> None:
    """March 2027, of which the weather file knows every day, against the page of Met Eireann (read)."""
    begin, end = (
        json.loads(run("season", str(DEMO), "--on", day, "--json").stdout)["heat"]
        for day in ("2027-02-28", "2027-03-31")
    )
    gained = end["four_cases"]["to_date"] - begin["four_cases"]["to_date"]
    assert gained == pytest.approx(four_cases_of("2027-03"), abs=0.2)  # a gap in February
    assert abs(end["to_date"] - begin["to_date"] - gained) > 0.4


def four_cases_of(month: str) -> float:
    total = 0.0
    with (DEMO / "weather.csv").open(encoding="utf-8") as file:
        for row in csv.DictReader(line for line in file if not line.startswith("#")):
            if not row["date"].startswith(month):
                continue
            low, high = float(row["tmin_c"]), float(row["tmax_c"])
            mean = (low + high) / 2
            if low >= 5:
                total += mean - 5
            elif mean >= 5:
                total += (high - 5) / 2 - (5 - low) / 4
            elif high > 5:
                total += (high - 5) / 4
    return total
