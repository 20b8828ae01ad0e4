"""Flowering cherry and mume of Japan against published dates, from monthly normals alone.

Cherry: first bloom of Somei-yoshino, normals 1991 to 2020 of the Japan Meteorological Agency, recalled.
Mume: growers of Minabe and a calendar of its orchards, 2020 (excerpts read): Wakayama in full bloom in
mid-February, picked green from the end of May, ripe by mid-June; north of Tokyo green in the first half of
June and ripe at its end. Nagano's late June is recalled. The towns' temperatures are normals of the same
agency, recalled, to about half a degree C.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.samples.garden_text import garden_text, plant
from tests.samples.towns import SAPPORO

from leafturn.almanac import open_almanac

TOWNS = {
    "wakayama": (
        34.2, 135.2,
        [10.6, 11.3, 14.5, 19.7, 23.9, 26.7, 30.6, 32.0, 28.5, 23.0, 17.8, 12.9],
        [3.2, 3.3, 6.0, 10.5, 15.2, 19.6, 23.7, 24.5, 21.1, 15.4, 9.9, 5.3],
    ),
    "tokyo": (
        35.7, 139.8,
        [9.8, 10.9, 14.2, 19.4, 23.6, 26.1, 29.9, 31.3, 27.5, 22.0, 16.7, 12.0],
        [1.2, 2.1, 5.0, 9.8, 14.6, 18.5, 22.4, 23.5, 20.3, 14.8, 8.8, 3.8],
    ),
    "sendai": (
        38.3, 140.9,
        [5.6, 6.5, 10.2, 15.5, 20.2, 23.1, 26.6, 28.2, 25.0, 19.8, 14.1, 8.3],
        [-1.3, -1.1, 1.4, 6.3, 11.7, 16.1, 19.9, 21.4, 17.8, 11.6, 5.5, 0.9],
    ),
    "nagano": (
        36.7, 138.2,
        [3.8, 5.3, 10.2, 17.4, 23.2, 26.1, 29.8, 31.2, 26.1, 19.6, 13.0, 6.7],
        [-3.9, -3.7, -0.6, 4.7, 10.5, 15.9, 20.4, 21.3, 17.0, 10.1, 3.4, -1.4],
    ),
    "sapporo": (43.1, 141.3, SAPPORO["tmax_c"], SAPPORO["tmin_c"]),
}  # fmt: skip


def day(folder: Path, town: str, kind: str, event: str) -> dt.date:
    lat, lon, warm, cold = TOWNS[town]
    climate = {"tmax_c": warm, "tmin_c": cold, "rain_mm": [100] * 12}
    text = garden_text(plant("tree", kind, year=2000), climate=climate, lat=lat, lon=lon, region="japan")
    (folder / "garden.toml").write_text(text, encoding="utf-8")
    events = open_almanac(folder, dt.date(2026, 1, 1)).season().events
    (found,) = [e.when.likely for e in events if e.event == event]
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("town", "published"),
    [("tokyo", "03-24"), ("sendai", "04-08"), ("nagano", "04-11"), ("sapporo", "05-01")],
)
def test_cherries_open_as_the_agency_saw_them(tmp_path: Path, town: str, published: str) -> None:
    told = day(tmp_path, town, "flowering cherry", "first open")
    assert abs((told - dt.date.fromisoformat(f"2026-{published}")).days) <= 4


def test_mume_of_wakayama_is_in_full_bloom_in_mid_february(tmp_path: Path) -> None:
    told = day(tmp_path, "wakayama", "japanese apricot", "full bloom")
    assert dt.date(2026, 2, 10) <= told <= dt.date(2026, 2, 20)


@pytest.mark.parametrize(
    ("town", "first", "last"),
    [("wakayama", "05-25", "06-15"), ("tokyo", "05-25", "06-20"), ("nagano", "06-15", "07-05")],
)
def test_mume_is_picked_in_june(tmp_path: Path, town: str, first: str, last: str) -> None:
    """It was told for 24 July in Nagano."""
    told = day(tmp_path, town, "japanese apricot", "ripe")
    assert dt.date.fromisoformat(f"2026-{first}") <= told <= dt.date.fromisoformat(f"2026-{last}")
