"""Misses of every kind of forecast, as the Book tells them: on its page and in `leafturn book --json`."""

from __future__ import annotations

import datetime as dt
import json
from pathlib import Path

import pytest
from tests.in_process import run
from tests.samples.noted_gardens import plant, write_garden

from leafturn.almanac import open_almanac
from leafturn_tui.pages.scores import score_rows

PLANTS = plant("apple-1", "apple") + plant("plum-1", "european plum")
YEARS = (2008, 2009, 2010, 2011)
ON = "2012-03-01"  # the invented weather ends with 2011


def entry(on: str, what: str, **more: object) -> str:
    said = "".join(f"{key} = {json.dumps(value)}\n" for key, value in more.items())
    return f'\n[[entry]]\non = {on}\nwhat = "{what}"\n{said}'


@pytest.fixture(scope="module")
def garden(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Four years of leaves, flowers, fruit and leaf fall noted of two trees, and two cold nights given."""
    folder = write_garden(tmp_path_factory.mktemp("misses"), PLANTS, weather="a file")
    notes = [
        text
        for n, year in enumerate(YEARS)
        for text in (
            entry(f"{year}-04-{8 + n:02}", "bloom", plant="apple-1", stage="bud break"),
            entry(f"{year}-04-{25 + n}", "bloom", plant="apple-1", stage="first open"),
            entry(f"{year}-09-{20 + n}", "harvest", plant="apple-1", kg=12),
            entry(f"{year}-09-{28 + n - 3}", "harvest", plant="apple-1", kg=3),
            entry(f"{year}-08-{14 + n}", "harvest", plant="plum-1", kg=5),
            entry(f"{year}-11-{9 + n:02}", "bloom", plant="apple-1", stage="leaf fall"),
        )
    ]
    notes.append(entry("2011-04-19", "cold", tmin_c=-2.0) + entry("2011-04-20", "weather", tmin_c=-2.6))
    notes.append(entry("2011-05-02", "cold", tmin_c=0.0) + entry("2011-05-03", "weather", tmin_c=0.2))
    (folder / "journal.toml").write_text("".join(notes), encoding="utf-8")
    return folder


@pytest.fixture(scope="module")
def told(garden: Path) -> dict[str, dict]:
    """The Book's scores by kind of forecast, and the nights."""
    done = run("book", str(garden), "--on", ON, "--json")
    assert done.returncode == 0, done.stderr
    answer = json.loads(done.stdout)
    return {one["what"]: one for one in answer["score_by_kind"]} | {"nights": answer["cold_nights"]}


def test_every_kind_of_forecast_is_judged(told: dict[str, dict]) -> None:
    kinds = ["first open", "leaf-out", "picking", "leaf fall", "last frost", "first frost", "nights"]
    assert list(told) == kinds
    noted = {what: told[what]["noted"] for what in kinds[:-1]}
    assert noted == {what: 6 if what == "picking" else 3 for what in kinds[:-1]}
    for what in kinds[:-1]:
        one = told[what]
        assert one["forecast_miss_days"] >= 0
        assert one["fixed_date_miss_days"] is not None, what
        assert one["mean_of_notes_miss_days"] is not None, what
        assert " missed by " in one["says"]
        assert any(word in one["says"] for word in ("did better", "have done better", "no better"))


def test_a_miss_is_the_forecast_of_two_to_three_weeks_before_less_the_day_noted(
    garden: Path, told: dict[str, dict]
) -> None:
    miss = next(m for m in told["picking"]["misses"] if (m["plant"], m["noted"]) == ("apple-1", "2011-09-23"))
    asked = dt.date.fromisoformat(miss["asked"])
    assert 14 <= (dt.date(2011, 9, 23) - asked).days <= 20
    season = json.loads(run("season", str(garden), "--on", miss["asked"], "--json").stdout)
    ripe = next(e for e in season["events"] if (e["plant"], e["event"]) == ("apple-1", "ripe"))
    assert miss["foretold"] == ripe["likely"]
    days = (dt.date.fromisoformat(ripe["likely"]) - dt.date(2011, 9, 23)).days
    assert miss["forecast_miss_days"] == days
    assert miss["mean_of_notes"] == "2011-09-21"  # of the first pickings of 2008 to 2010
    assert miss["published"] is not None


def test_frost_is_judged_by_the_record_of_the_garden(garden: Path, told: dict[str, dict]) -> None:
    frosts = {m["noted"][:4]: m["noted"] for m in told["last frost"]["misses"]}
    assert list(frosts) == ["2009", "2010", "2011"]
    rows = [line.split(",") for line in (garden / "weather.csv").read_text().splitlines()[1:]]
    for year, noted in frosts.items():
        cold = [
            day for day, low, *_ in rows if day.startswith(year) and day < f"{year}-08" and float(low) <= 0
        ]
        by_hand = ["2011-04-20"] if year == "2011" else []
        assert noted == max(cold + by_hand)


def test_cold_nights_given_are_held_against_what_came(told: dict[str, dict]) -> None:
    nights = told["nights"]
    assert [(n["given_celsius"], n["came_celsius"]) for n in nights["nights"]] == [(-2, -2.6), (0, 0.2)]
    assert nights["given_miss_celsius"] == pytest.approx(0.4)
    assert nights["usual_minimum_miss_celsius"] > 0.4
    assert nights["says"].endswith("what was given was nearer.")


def test_the_page_shows_each_kind_and_each_miss(garden: Path) -> None:
    almanac = open_almanac(garden, dt.date.fromisoformat(ON))
    texts = [row.text.strip() for row in score_rows(almanac, 90)]
    for what in ("leaf-out", "picking", "leaf fall", "last frost", "first frost"):
        assert sum(text.startswith(f"{what} ") for text in texts) == 2, what  # its average, and its list
    assert any(text.startswith("Cold nights: what was given on the eve missed by 0.4 C") for text in texts)
    assert sum(text.startswith("plum-1 ") for text in texts) == 3
    row = next(row for row in score_rows(almanac, 90) if row.key == "kind picking")
    assert row.why.startswith("First picking: forecasts made two to three weeks ahead missed by")


def test_a_miss_of_the_frost_is_a_sentence_of_the_garden_not_of_a_plant(garden: Path) -> None:
    rows = score_rows(open_almanac(garden, dt.date.fromisoformat(ON)), 90)
    row = next(row for row in rows if (row.key or "").startswith("miss last frost "))
    assert row.why.startswith("The last frost came on ")
    assert "; usual date " in row.why
    assert "earlier years " in row.why
