"""Published windows of pruning, by climate, against the windows of the program's own jobs.

Rows, their pages and the weather of their places: pruning_windows.toml beside this file. A row agrees where
the program's best day lies in the published window, ten days either way, and half of the shorter of the two
windows lies in the other. `python -m tests.checks.test_pruning_windows` prints those that do not.
"""

from __future__ import annotations

import datetime as dt
import tomllib
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import pytest
from tests.checks.pruning_gardens import Span, days_of, garden_on, id_of, planted, spans

from leafturn.almanac import Almanac
from leafturn.tasks.subjects import subject_of
from leafturn.tasks.timing.phrases import read_moment
from leafturn.tasks.timing.resolve import resolve

TABLE = tomllib.loads(Path(__file__).with_name("pruning_windows.toml").read_text("utf-8"))
NEAR = dt.timedelta(days=10)
NINE_IN_TEN = 0.9


def day_of(phrase: str, plant: str, almanac: Almanac, *, opens: bool) -> dt.date:
    """A published day: of the place's own calendar in the season, or what a moment comes to there."""
    axis = almanac.axis
    if phrase[:2].isdigit() and phrase[2] == "-":
        month, day = map(int, phrase.split("-"))
        found = dt.date(axis.start.year, month, day)
        while found < axis.first:
            found = found.replace(year=found.year + 1)
        return found.replace(year=found.year - 1) if found >= axis.next.first else found
    season = almanac._seasons.now
    named = almanac.garden.plant(plant)
    assert named is not None
    winter = phrase.endswith("leaf fall") and opens
    moment = read_moment(phrase)
    return axis.date(resolve(moment, subject_of(named, season), season, winter=winter, done=None).middle)


def agrees(ours: Span, first: dt.date, last: dt.date) -> bool:
    shorter = min(last - first, ours.close - ours.open)
    shared = min(last, ours.close) - max(first, ours.open)
    return first - NEAR <= ours.best <= last + NEAR and shared >= shorter / 2


def rows() -> Iterator[tuple[Mapping[str, Any], list[Span], dt.date, dt.date, bool]]:
    """Every row with the program's windows for the job, the published one, and whether one agrees."""
    for name, place in TABLE["place"].items():
        wanted = [row for row in TABLE["window"] if row["place"] == name]
        plants = sorted({planted(row["kind"], row.get("cultivar", "")) for row in wanted})
        rest, summer = (garden_on(place, plants, on) for on in days_of(place))
        found = [spans(rest), spans(summer)]
        for row in wanted:
            plant = id_of(row["kind"], row.get("cultivar", ""))
            ours = sorted({s for each in found for s in each.get(plant, ()) if s.verb == row["verb"]})
            first, last = (day_of(row[k], plant, rest, opens=k == "from") for k in ("from", "to"))
            last = last.replace(year=last.year + (last < first))
            yield row, ours, first, last, any(agrees(span, first, last) for span in ours)


@pytest.mark.long
def test_nine_in_ten_published_windows_agree() -> None:
    told = list(rows())
    assert len(told) == len(TABLE["window"]) >= 50
    missed = [f"{row['kind']} {row['place']}" for row, *_, good in told if not good]
    assert len(missed) <= (1 - NINE_IN_TEN) * len(told), missed


def test_windows_stand_for_every_climate_of_the_table() -> None:
    words = {
        garden_on(place, [], days_of(place)[0])._seasons.now.climate for place in TABLE["place"].values()
    }
    assert {word for climate in words for word in climate} >= {
        "mild winters", "cold winters", "warm summers", "cool summers", "dry summers", "wet summers",
    }  # fmt: skip


def show() -> None:
    told = list(rows())
    for row, ours, first, last, good in told:
        if not good:
            print(f"{row['kind']:22} {row['place']:15} {row['verb']:18} {first} to {last}; ours", *ours)
    print(sum(good for *_, good in told), "of", len(told))


if __name__ == "__main__":
    show()
