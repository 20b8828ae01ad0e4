"""Cultivars that ripen weeks from their kind, in the places whose growers tell when.

Pages read: KSEE, 3 November 2020 (in central California navels from November, Valencia from April); Green
Tree Nursery and The Almond Company (Butte is picked 18 days after Nonpareil, Monterey 26, Fritz 40); L.
Szalay, Evaluation of fruit cultivars (Aurora begins about 10 June near Budapest); King Orchards, Central
Lake (apricots, Goldcot of the first, usually by the end of July); Petals from the Past, Jemison (Tifblue
from 20 June); Battistini, Cesena (Bouche de Bétizac in the first twenty days of September); a nursery of
Ferrara (Burlat about 25 May, Ferrovia 23 days later). Monthly means from memory, to about a degree.
Before their days were known apart, Valencia was told with the navels in December, Fritz with Nonpareil,
Aurora a month late, Bouche de Bétizac three weeks early.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant

NEAR_DAYS = 17  # two weeks, and three days for what is recalled

PLACES: dict[str, tuple[float, float, dict[str, list[float]]]] = {
    "Fresno": (
        36.78, -119.72,
        {
            "tmax_f": [54.5, 61.5, 68, 74.5, 83.5, 91.5, 97.5, 96, 90.5, 79.5, 65, 54.5],
            "tmin_f": [38.5, 41.5, 45.5, 49, 56, 62, 67, 65.5, 61, 52.5, 43, 38],
        },
    ),
    "Budapest": (
        47.5, 19.0,
        {
            "tmax_c": [3.2, 6.0, 11.5, 17.8, 22.4, 26.0, 28.0, 27.8, 22.4, 16.2, 9.4, 3.8],
            "tmin_c": [-1.8, -1.0, 2.4, 6.8, 11.2, 14.8, 16.4, 16.2, 11.8, 7.0, 3.0, -0.8],
        },
    ),
    "Central Lake": (
        45.1, -85.27,
        {
            "tmax_f": [28.5, 30, 39.5, 52, 65, 75, 79.5, 78, 71, 57.5, 45, 34],
            "tmin_f": [16.5, 15, 21.5, 32.5, 43, 53, 58.5, 57.5, 51, 41, 32, 23],
        },
    ),
    "Jemison": (
        32.9, -86.7,
        {
            "tmax_f": [54, 58.5, 67, 74.5, 81.5, 87.5, 90.5, 90, 85.5, 75.5, 64.5, 56.5],
            "tmin_f": [32.5, 35.5, 42, 49, 58, 66, 69.5, 68.5, 62.5, 51, 41, 35],
        },
    ),
    "Romagna": (
        44.1, 12.2,
        {
            "tmax_c": [7, 9.3, 14, 18, 23.2, 27.4, 30.2, 30, 25, 19, 12.6, 8],
            "tmin_c": [-0.3, 0.6, 3.9, 7.4, 11.8, 15.6, 18, 18, 14.3, 10.2, 5.2, 1.1],
        },
    ),
}  # fmt: skip


def picked(folder: Path, place: str, kind: str, cultivar: str) -> dt.date:
    """The likely day of the first ripe fruit of the season of 2026."""
    lat, lon, climate = PLACES[place]
    text = garden_text(plant("tree", kind, year=2000, cultivar=cultivar), climate=climate, lat=lat, lon=lon)
    events = almanac_of(folder, text, "2026-12-31").season().events
    told = next(e.when.likely for e in events if e.event in {"ripe", "ready to pick"})
    assert told is not None
    return told


@pytest.mark.sweep(each=4)
@pytest.mark.parametrize(
    ("place", "kind", "cultivar", "published"),
    [
        ("Fresno", "orange", "Washington Navel", "11-10"),
        ("Fresno", "orange", "Valencia", "04-01"),
        ("Budapest", "apricot", "Aurora", "06-11"),
        ("Central Lake", "apricot", "Goldcot", "07-25"),
        ("Jemison", "rabbiteye blueberry", "Tifblue", "06-20"),
        ("Romagna", "sweet chestnut", "Bouche de Bétizac", "09-10"),
        ("Romagna", "sweet cherry", "Burlat", "05-25"),
        ("Romagna", "sweet cherry", "Ferrovia", "06-17"),
    ],
)
def test_each_is_ripe_when_its_growers_say(
    place: str, kind: str, cultivar: str, published: str, tmp_path: Path
) -> None:
    told = picked(tmp_path, place, kind, cultivar)
    off = (told - dt.date.fromisoformat(f"2026-{published}")).days % 365
    assert min(off, 365 - off) <= NEAR_DAYS, told


@pytest.mark.sweep(each=1)
@pytest.mark.parametrize(("cultivar", "days"), [("Butte", 18), ("Monterey", 26), ("Fritz", 40)])
def test_almonds_fall_so_many_days_after_nonpareil(cultivar: str, days: int, tmp_path: Path) -> None:
    first, other = (picked(tmp_path, "Fresno", "almond", name) for name in ("Nonpareil", cultivar))
    assert abs((other - first).days - days) <= 5
