"""Kinds that want little chill, in winters too mild for apples.

Pages read: a gardening page on blueberries of northeast Florida (Climax flowers from late in February to
early in March); a gardener of Bakersfield (buds of Santa Rosa break between 11 and 24 February, 2009 to
2013, so that the first flowers stand open in the second half of the month). Recalled: Tifblue in half
bloom at Tifton about 20 March, Santa Rosa near Valencia in the first days of March, kaki at Gainesville
in April. Monthly means from memory, to about a degree. With the cold that other kinds want they were told
up to five weeks late.

Table grapes about Fresno break their buds in mid-March (The Packer, April 2013, read), raisin and table
grapes before wine grapes, which begin in the first half of March (Wines and Vines, 2017, read); those of
Ludhiana are pruned in the last week of January (a trial of the Punjab Agricultural University, 2014, read).

Lima, whose winter has no day under 15 C: figs from the middle of December to the last week of February
(Agraria.pe, read); rain of the second week of March 2023 fell days before vintage south of Lima (Rutas
Golosas, read). No date was told there.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant
from tests.samples.towns import LIMA, LUDHIANA, VALENCIA

from leafturn.tasks.model import Job

NEAR_DAYS = 14

PLACES: dict[str, tuple[float, float, dict[str, list[float]]]] = {
    "Gainesville": (
        29.7, -82.3,
        {
            "tmax_f": [66, 70, 75, 80, 87, 90, 91, 91, 87.5, 81, 73, 68],
            "tmin_f": [42.5, 45.5, 50.5, 56, 63.5, 70, 72, 72, 69, 60.5, 50.5, 45],
        },
    ),
    "Tifton": (
        31.45, -83.5,
        {
            "tmax_f": [60.5, 64.5, 71, 77.5, 84.5, 89, 91, 90.5, 86.5, 78.5, 69.5, 62.5],
            "tmin_f": [38.5, 41.5, 46.5, 53, 61.5, 68.5, 71, 70.5, 66.5, 56, 46, 40.5],
        },
    ),
    "Bakersfield": (
        35.4, -119.05,
        {
            "tmax_f": [57, 63.5, 69.5, 75.5, 84, 92, 97.5, 96.5, 90.5, 79.5, 66, 56.5],
            "tmin_f": [39.5, 43, 46.5, 50, 57.5, 64, 70, 68.5, 63.5, 54.5, 44.5, 38.5],
        },
    ),
    "Valencia": (39.5, -0.4, VALENCIA),
    "Lima": (-12.1, -77.0, LIMA),
    "Ludhiana": (30.9, 75.85, LUDHIANA),
    "Fresno": (
        36.7, -119.8,
        {
            "tmax_c": [12.8, 16.5, 20, 23.5, 28.5, 33, 36.7, 36, 33, 26.5, 18.5, 12.8],
            "tmin_c": [4, 5.5, 7.5, 9.5, 13, 16.5, 19.5, 18.8, 16.5, 11.5, 6.5, 3.5],
        },
    ),
}  # fmt: skip


@pytest.mark.sweep(each=3)
@pytest.mark.parametrize(
    ("place", "kind", "cultivar", "stage", "published"),
    [
        ("Gainesville", "rabbiteye blueberry", "Climax", "full bloom", "03-04"),
        ("Bakersfield", "japanese plum", "Santa Rosa", "first open", "02-21"),
        ("Tifton", "rabbiteye blueberry", "Tifblue", "full bloom", "03-20"),
        ("Valencia", "japanese plum", "Santa Rosa", "full bloom", "03-01"),
        ("Gainesville", "kaki", "Fuyu", "full bloom", "04-12"),
    ],
)
def test_they_flower_when_they_are_seen_to(
    place: str, kind: str, cultivar: str, stage: str, published: str, tmp_path: Path
) -> None:
    lat, lon, climate = PLACES[place]
    text = garden_text(plant("one", kind, year=2000, cultivar=cultivar), climate=climate, lat=lat, lon=lon)
    events = almanac_of(tmp_path, text, "2026-12-31").season().events
    told = next(e.when.likely for e in events if e.event == stage)
    assert told is not None
    assert abs((told - dt.date.fromisoformat(f"2026-{published}")).days) <= NEAR_DAYS, told


def _vine(folder: Path, place: str, job: str) -> Job:
    lat, lon, climate = PLACES[place]
    text = garden_text(plant("vine", "grape", year=2010), climate=climate, lat=lat, lon=lon)
    found = almanac_of(folder, text, "2027-02-01").job(f"vine:{job}")
    assert found is not None
    return found


def test_vines_of_the_central_valley_are_in_leaf_in_the_first_three_weeks_of_march(tmp_path: Path) -> None:
    tied_in = _vine(tmp_path, "Fresno", "tie-in").open.likely  # two weeks after leaf-out
    assert tied_in is not None
    assert dt.date(2027, 3, 1) <= tied_in - dt.timedelta(weeks=2) <= dt.date(2027, 3, 21)


def test_vines_of_the_punjab_are_best_pruned_within_three_weeks_of_the_day_of_growers(tmp_path: Path) -> None:
    best = _vine(tmp_path, "Ludhiana", "winter-cut").best.likely
    assert best is not None
    assert abs((best - dt.date(2027, 1, 28)).days) <= 21


@pytest.mark.parametrize(
    ("kind", "first", "last"), [("fig", "2027-12-15", "2028-02-28"), ("grape", "2028-03-10", "2028-03-25")]
)
def test_what_bears_without_cold_is_told_at_lima(tmp_path: Path, kind: str, first: str, last: str) -> None:
    lat, lon, climate = PLACES["Lima"]
    text = garden_text(plant("one", kind, year=2010), climate=climate, lat=lat, lon=lon)
    pick = almanac_of(tmp_path, text, "2027-08-01").job("one:pick")
    assert pick is not None
    opens, closes = pick.open.likely, pick.close.likely
    assert opens is not None
    assert closes is not None
    assert opens < dt.date.fromisoformat(last)
    assert closes > dt.date.fromisoformat(first)
    away = dt.timedelta(days=NEAR_DAYS)
    assert dt.date.fromisoformat(first) - away <= opens
    assert closes <= dt.date.fromisoformat(last) + away
