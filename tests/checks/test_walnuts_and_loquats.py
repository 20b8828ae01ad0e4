"""When walnuts fall in California and Isere, and loquats are picked in China and Japan.

Walnuts wait for shorter days: by days and warmth from bloom alone those of California were told five weeks
early. Monthly means from memory, to about a degree C.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import numpy as np
import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant

DAVIS = {
    "tmax_c": [12.5, 15.7, 19, 22.4, 27, 31.2, 33.8, 33.5, 31.2, 25.8, 18.3, 12.6],
    "tmin_c": [3.5, 5, 6.5, 7.8, 10.7, 13.3, 14.3, 14, 12.9, 9.9, 6.1, 3.5],
}
ISERE = {
    "tmax_c": [6.5, 8.7, 13.3, 16.9, 21, 25, 27.8, 27.5, 22.5, 17.4, 10.8, 6.9],
    "tmin_c": [-1.5, -0.9, 2.1, 5.2, 9.5, 12.9, 14.8, 14.5, 10.9, 7.4, 2.5, -0.6],
}
CHENGDU = {  # Climates to Travel, Chengdu, read
    "tmax_c": [9, 12, 16, 22, 27, 28, 30, 30, 26, 21, 16, 11],
    "tmin_c": [3, 5, 8, 13, 17, 21, 22, 22, 19, 15, 10, 4],
}
NAGASAKI = {
    "tmax_c": [10.7, 12, 15.3, 19.9, 23.9, 26.5, 30.3, 31.9, 28.9, 24.1, 18.5, 13.1],
    "tmin_c": [4, 4.5, 7.4, 11.9, 16.2, 20.2, 24.7, 25.4, 22, 16.7, 11, 6.1],
}
SUZHOU = {
    "tmax_c": [8, 10.5, 15, 20.5, 25.5, 28.5, 32.5, 32, 28, 23, 17, 11],
    "tmin_c": [1.5, 3.2, 6.8, 12, 17.2, 21.5, 25.5, 25.4, 21.3, 15.4, 9, 3.3],
}
PLACES: dict[str, tuple[float, float, dict[str, list[float]]]] = {
    "davis": (38.5, -121.8, DAVIS),
    "isere": (45.3, 5.2, ISERE),
    "chengdu": (30.7, 104.0, CHENGDU),
    "nagasaki": (32.7, 129.9, NAGASAKI),
    "suzhou": (31.3, 120.6, SUZHOU),
}


def picked(folder: Path, place: str, kind: str, **tree: object) -> tuple[dt.date, dt.date]:
    """The middle of the first and of the last day of picking."""
    lat, lon, climate = PLACES[place]
    text = garden_text(plant("tree", kind, year=2000, **tree), climate=climate, lat=lat, lon=lon)
    almanac = almanac_of(folder, text, "2027-04-20")
    forecast = almanac.forecasts["tree"]
    assert forecast.ripe is not None
    assert forecast.picked is not None
    first, last = (almanac.axis.date(float(np.median(days))) for days in (forecast.ripe, forecast.picked))
    return first, last


@pytest.mark.parametrize(
    ("cultivar", "published"),
    [
        ("Chandler", "10-08"), ("Cisco", "10-12"), ("Fernette", "10-13"), ("Forde", "10-08"),
        ("Franquette", "10-17"), ("Gillet", "09-27"),
    ],
)  # fmt: skip
def test_walnuts_of_california_are_picked_when_they_are_there(
    cultivar: str, published: str, tmp_path: Path
) -> None:
    """Harvest dates of the University of California's walnut cultivar table (read)."""
    first, last = picked(tmp_path, "davis", "persian walnut", cultivar=cultivar)
    harvest = dt.date.fromisoformat(f"2027-{published}")
    assert first - dt.timedelta(days=4) <= harvest <= last + dt.timedelta(days=4)


def test_those_of_isere_stay_where_they_are_picked(tmp_path: Path) -> None:
    """Franquette in the first half of October and after (growers of Grenoble, recalled)."""
    first, last = picked(tmp_path, "isere", "persian walnut", cultivar="Franquette")
    assert dt.date(2027, 9, 28) <= first <= dt.date(2027, 10, 12)
    assert last <= dt.date(2027, 10, 28)


def test_what_was_noted_goes_before(tmp_path: Path) -> None:
    first, _ = picked(tmp_path, "davis", "persian walnut", cultivar="Payne", ripe="08-25")
    assert abs((first - dt.date(2027, 8, 25)).days) <= 5


@pytest.mark.parametrize(
    ("place", "published"),
    [("chengdu", ("04-01", "04-30")), ("suzhou", ("05-10", "05-31")), ("nagasaki", ("05-01", "06-30"))],
)
def test_loquats_are_picked_when_they_come_to_market(
    place: str, published: tuple[str, str], tmp_path: Path
) -> None:
    """Longquan of Chengdu in April, Suzhou from 10 May, Nagasaki in May and June (pages, read)."""
    first, last = picked(tmp_path, place, "loquat")
    begins, ends = (dt.date.fromisoformat(f"2027-{day}") for day in published)
    shared = (min(last, ends) - max(first, begins)).days
    assert shared >= 14
    assert abs((first - begins).days) <= 21
