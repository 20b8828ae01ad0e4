"""Frost at three depths, days between, and the trend of the last frost, on made records."""

from __future__ import annotations

import csv
import datetime as dt
from pathlib import Path

import numpy as np
import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn.almanac import open_almanac
from leafturn.answers.season import Season
from leafturn.base import day_words
from leafturn.base.date_range import Likely


def season(
    folder: Path,
    *,
    years: int = 20,
    days_a_decade: float = 0.0,
    pocket: float = 0.0,
    south: bool = False,
    scatter: float = 3.0,
) -> Season:
    """A garden whose last frosts fall about day 100 of the season, moving by so many days a decade."""
    rng = np.random.default_rng(1)
    first = 2026 - years + 1
    rows = []
    for year in range(first, 2027):
        start = dt.date(year, 7 if south else 1, 1)
        last = 100 + days_a_decade * (year - first) / 10 + rng.normal(0, scatter)
        length = (start.replace(year=year + 1) - start).days
        for n in range(length):
            # One degree every three days, down to 0 on the last frost day; up again at day 290.
            low = max(-12.0, min((n - last) / 3, (290 - n) / 3, 14.0))
            rows.append((start + dt.timedelta(days=n), f"{low:.2f}", f"{low + 9:.2f}"))
    with (folder / "weather.csv").open("w", newline="") as file:
        csv.writer(file).writerows([("date", "tmin_c", "tmax_c"), *rows])
    text = garden_text(
        plant("pear", "pear", at="gate"),
        lat=-43.4 if south else 46.9, weather="weather.csv", frost_pocket_c=pocket, climate=None,
    )  # fmt: skip
    return almanac_of(folder, text, "2027-07-10" if south else "2027-01-10").season()


def days(found: dt.date | None, start: dt.date) -> int:
    assert found is not None
    return (found - start).days


@pytest.mark.parametrize("south", [False, True])
def test_harder_frosts_end_sooner_and_begin_later(tmp_path: Path, south: bool) -> None:
    """32, 28 and 24 degF, light to severe freeze as freeze normals print them (recalled)."""
    found = season(tmp_path, south=south)
    assert [frost.threshold for frost in found.frosts] == [0.0, -2.2, -4.4]
    assert found.frost == found.frosts[0]
    start = dt.date(2027, 7 if south else 1, 1)
    lasts = [days(frost.last.likely, start) for frost in found.frosts]
    firsts = [days(frost.first.likely, start) for frost in found.frosts]
    # By construction three days a degree.
    assert np.diff(lasts).tolist() == pytest.approx([-6.6, -6.6], abs=1.1)
    assert np.diff(firsts).tolist() == pytest.approx([6.6, 6.6], abs=1.1)
    assert found.frost_free is not None
    assert found.frost_free.short <= found.frost_free.usual <= found.frost_free.long
    assert found.frost_free.usual == pytest.approx(firsts[0] - lasts[0] - 1, abs=2)


def test_a_frost_pocket_shows_the_station_beside_the_garden(tmp_path: Path) -> None:
    assert season(tmp_path).frosts[0].station_last is None
    found = season(tmp_path, pocket=-1.0)
    start = dt.date(2027, 1, 1)
    for frost in found.frosts:
        assert frost.station_last is not None
        assert frost.station_first is not None
        later = days(frost.last.likely, start) - days(frost.station_last.likely, start)
        sooner = days(frost.station_first.likely, start) - days(frost.first.likely, start)
        assert (later, sooner) == (pytest.approx(3, abs=1), pytest.approx(3, abs=1))


@pytest.mark.parametrize("moved", [-4.0, 4.0])
@pytest.mark.parametrize("south", [False, True])
def test_the_trend_of_the_last_frost_is_found(tmp_path: Path, moved: float, south: bool) -> None:
    found = season(tmp_path, years=25, days_a_decade=moved, south=south).frost_trend
    assert found is not None
    assert found.low <= found.days_per_decade <= found.high
    assert found.days_per_decade == pytest.approx(moved, abs=1.6)
    assert (found.since, found.years) == (2002, 25)
    way = "earlier" if moved < 0 else "later"
    assert found.words.startswith(
        f"last frost has come {round(abs(found.days_per_decade))} days a decade {way}"
    )
    assert " since 2002 (between " in found.words


def test_no_movement_is_said_so(tmp_path: Path) -> None:
    found = season(tmp_path, years=25, scatter=1.0).frost_trend
    assert found is not None
    assert found.words.startswith("last frost has hardly moved since 2002 (between ")


def test_fewer_than_fifteen_years_tell_no_trend(tmp_path: Path) -> None:
    assert season(tmp_path, years=14).frost_trend is None
    assert season(tmp_path, years=15).frost_trend is not None


def test_without_a_record_there_is_no_trend(tmp_path: Path) -> None:
    found = almanac_of(tmp_path, garden_text(climate=None, last_frost="04-24"), "2027-04-19").season()
    assert found.frost_trend is None
    assert len(found.frosts) == 3
    assert found.frost_free is not None


def test_a_date_that_half_the_years_hardly_have_is_told_with_its_late_side() -> None:
    on = dt.date(2027, 4, 19)
    told = day_words.about(Likely(None, dt.date(2027, 5, 1), dt.date(2027, 5, 9)), on)
    assert told == "about 1 May, by 9 May, not in every year"


@pytest.mark.parametrize(
    ("day", "told"), [("2015-05-10", True), ("2015-11-20", False), ("2015-12-20", False)]
)
def test_heat_tells_no_days_ahead_in_the_cold_of_the_year(day: str, told: bool, seattle_garden: Path) -> None:
    """Seattle 2015 (NOAA) was warm: in December its heat over the usual would read as months ahead."""
    heat = open_almanac(seattle_garden, dt.date.fromisoformat(day)).heading().heat
    assert heat.to_date > 0
    assert (heat.days_ahead is not None) == told
    assert heat.days_ahead is None or 5 <= heat.days_ahead <= 40
