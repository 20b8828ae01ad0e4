"""Oranges and olives open when growers say they do; the months' temperatures are recalled, to about a degree.

Sources: K. Christensen, a grower of navels in California's valley (2014: "until after the first week of
April", in 25 years, once in March); University of Jaen (most olive pollen "in early May"); olive growers near
Corinth (blossoming on 19 May 2024).
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import numpy as np
import pytest
from tests.samples.garden_text import garden_text, plant

from leafturn.almanac import open_almanac

FRESNO = {
    "tmax_c": [12.8, 16.5, 20, 23.5, 28.5, 33, 36.7, 36, 33, 26.5, 18.5, 12.8],
    "tmin_c": [4, 5.5, 7.5, 9.5, 13, 16.5, 19.5, 18.8, 16.5, 11.5, 6.5, 3.5],
}
JAEN = {
    "tmax_c": [12.5, 14.5, 18, 20, 25, 30.5, 34.5, 34, 29, 22.5, 16.5, 13],
    "tmin_c": [5, 6, 8.5, 10.5, 14.5, 19, 22.5, 22.3, 18.5, 14, 9, 6],
}
CORINTH = {
    "tmax_c": [13.5, 14.5, 17, 20.5, 26, 31, 33.5, 33.5, 29, 24, 19, 15],
    "tmin_c": [5.5, 5.5, 7, 10, 14, 18.5, 21.5, 21.5, 18, 14, 10, 7],
}


@pytest.mark.parametrize(
    ("kind", "climate", "place", "begins", "ends"),
    [
        ("orange", FRESNO, {"lat": 36.7, "lon": -119.8}, "04-01", "04-20"),
        ("olive", JAEN, {"lat": 37.8, "lon": -3.8}, "04-28", "05-15"),
        ("olive", CORINTH, {"lat": 37.9, "lon": 22.9}, "05-05", "05-25"),
    ],
)
def test_full_bloom_lies_where_growers_saw_it(
    kind: str,
    climate: dict[str, list[float]],
    place: dict[str, float],
    begins: str,
    ends: str,
    tmp_path: Path,
) -> None:
    text = garden_text(plant("tree", kind, year=2000), climate=climate, **place)
    (tmp_path / "garden.toml").write_text(text, encoding="utf-8")
    almanac = open_almanac(tmp_path, on=dt.date(2027, 1, 5))
    first = almanac.axis.date(float(np.median(np.asarray(almanac.forecasts["tree"].first_open))))
    full = first + dt.timedelta(days=7)
    assert dt.date.fromisoformat(f"2027-{begins}") <= full <= dt.date.fromisoformat(f"2027-{ends}")
