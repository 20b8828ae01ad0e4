"""Last season's misses, beside a fixed date."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import numpy as np

from leafturn.almanac import open_almanac
from leafturn.bloom.model import BloomForecast
from leafturn.journal.entries import Entry
from leafturn.score import LEAD_DAYS, forecast_score
from leafturn.season.axis import SeasonAxis

AXIS = SeasonAxis(2026)
DEMO = Path(__file__).parents[2] / "demo_garden"


def opened(plant: str, day: dt.date) -> Entry:
    return Entry(on=day, what="bloom", plant=plant, stage="first open")


def foretelling(day: dt.date) -> BloomForecast:
    days = np.full(8, float(AXIS.day(day)))
    return BloomForecast(plant="pear", first_open=days, full=days, end=days)


def test_misses_are_counted_from_what_was_said_two_weeks_before() -> None:
    asked: list[dt.date] = []

    def forecasts_on(day: dt.date) -> dict[str, BloomForecast]:
        asked.append(day)
        return {"pear": foretelling(dt.date(2026, 4, 23))}

    notes = [
        opened("pear", dt.date(2023, 4, 10)),
        opened("pear", dt.date(2025, 4, 12)),
        opened("pear", dt.date(2026, 4, 20)),
    ]
    score = forecast_score(AXIS, notes, forecasts_on)
    assert asked == [dt.date(2026, 4, 20) - dt.timedelta(days=LEAD_DAYS)]
    (miss,) = score.misses
    assert miss.miss == 3
    assert miss.fixed_miss == -9
    assert score.says.endswith("missed by 9.0: better than a fixed date.")


def test_where_a_fixed_date_did_better_it_is_said() -> None:
    notes = [opened("pear", dt.date(2025, 4, 20)), opened("pear", dt.date(2026, 4, 20))]
    score = forecast_score(AXIS, notes, lambda day: {"pear": foretelling(dt.date(2026, 4, 26))})
    assert "a fixed date would have done better" in score.says


def test_without_earlier_notes_there_is_nothing_to_judge() -> None:
    notes = [opened("pear", dt.date(2026, 4, 20))]
    score = forecast_score(AXIS, notes, lambda day: {"pear": foretelling(dt.date(2026, 4, 26))})
    assert score.mean_miss is None
    assert "can be judged" in score.says


def test_the_demo_judges_its_last_spring() -> None:
    score = open_almanac(DEMO, dt.date(2027, 4, 19)).score()
    assert score.season == 2026
    assert score.mean_miss is not None
    assert len(score.misses) >= 10
    assert all(m.noted.year == 2026 for m in score.misses)
