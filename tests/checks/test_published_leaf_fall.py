"""When leaves are down, from months alone, against published dates.

Sources, pages read: Japan Meteorological Agency, tables of seasonal observations of its stations at
Fukushima, Tottori, Kumamoto and Kagoshima (normal day on which about 80 % of a ginkgo's leaves have
fallen; of Sapporo, the 9 November of 2021 that was two days before it); the German weather service's mean
days of leaf fall, half of the leaves, as a garden page gives them for the country (late autumn: rowan 14,
horse chestnut 19, birch 24, beech 28 October; winter: late apples early in November, oak 3, larch 6
November); Central Statistics Office of Ireland 2021 (leaf fall of downy birch at Valentia 1969-2020,
earliest 25 September, latest 26 November). Monthly means of maxima and minima [degC] are from memory.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import numpy as np
import pytest
from tests.samples.garden_text import almanac_of, garden_text, own_job, plant
from tests.samples.towns import SAPPORO

PLACES: dict[str, tuple[float, float, list[float], list[float]]] = {
    "Kagoshima": (
        31.6, 130.6, [13.1, 14.6, 17.5, 21.8, 25.5, 27.5, 31.9, 32.7, 30.2, 25.8, 20.6, 15.3],
        [4.9, 5.8, 8.7, 12.9, 17.3, 21.3, 25.3, 26.0, 23.2, 18.0, 12.2, 6.9],
    ),
    "Kumamoto": (
        32.8, 130.7, [10.7, 12.4, 16.2, 21.7, 26.3, 28.4, 32.2, 33.5, 30.2, 24.7, 18.5, 12.9],
        [1.6, 2.6, 5.8, 10.5, 15.6, 20.2, 24.3, 24.8, 21.1, 14.4, 8.1, 3.1],
    ),
    "Tottori": (
        35.5, 134.2, [8.3, 9.1, 13.0, 18.8, 24.0, 27.0, 31.0, 32.4, 27.9, 22.6, 16.7, 10.9],
        [1.4, 1.3, 3.5, 8.2, 13.4, 18.2, 22.8, 23.6, 19.4, 13.0, 7.6, 3.3],
    ),
    "Fukushima": (
        37.8, 140.5, [5.8, 6.9, 11.0, 17.7, 23.2, 25.9, 29.2, 30.5, 26.2, 20.3, 14.2, 8.3],
        [-1.5, -1.4, 1.1, 6.3, 12.0, 16.6, 20.8, 21.9, 17.9, 11.3, 5.2, 0.7],
    ),
    "Sapporo": (43.1, 141.3, SAPPORO["tmax_c"], SAPPORO["tmin_c"]),
    "Hesse": (
        50.6, 8.7, [3.6, 5.1, 9.7, 14.7, 18.8, 22.1, 24.4, 24.1, 19.5, 13.7, 7.7, 4.1],
        [-1.7, -1.7, 0.6, 3.3, 7.5, 10.9, 12.9, 12.4, 8.9, 5.4, 2.0, -0.7],
    ),
    "Valentia": (
        51.9, -10.2, [9.7, 9.8, 10.8, 12.7, 15.1, 17.0, 18.3, 18.3, 17.0, 14.3, 11.8, 10.1],
        [5.0, 4.8, 5.3, 6.5, 8.7, 11.0, 12.8, 12.8, 11.5, 9.3, 6.9, 5.5],
    ),
}  # fmt: skip

PUBLISHED = [  # place, kind, day, and how far off it may be [d]
    ("Kagoshima", "ginkgo", "12-03", 8),
    ("Kumamoto", "ginkgo", "12-08", 8),
    ("Tottori", "ginkgo", "12-04", 8),
    ("Fukushima", "ginkgo", "11-16", 8),
    ("Sapporo", "ginkgo", "11-11", 8),
    ("Hesse", "horse chestnut", "10-19", 8),
    ("Hesse", "silver birch", "10-24", 8),
    ("Hesse", "beech", "10-28", 12),
    ("Hesse", "apple", "11-05", 8),
    ("Hesse", "english oak", "11-03", 8),
    ("Hesse", "larch", "11-06", 10),
    ("Valentia", "silver birch", "10-27", 12),  # the middle of the earliest and the latest of fifty years
]


def days_off(folder: Path, place: str, kinds: list[str]) -> dict[str, dt.date]:
    """The likely day on which the leaves of each kind are down, as a job of one's own is told."""
    lat, lon, warm, cold = PLACES[place]
    climate = {"tmax_c": warm, "tmin_c": cold, "rain_mm": [60] * 12}
    ids = {f"p{n}": kind for n, kind in enumerate(kinds)}
    things = [plant(one, kind, year=2000, at=[15 * n, 0]) for n, (one, kind) in enumerate(ids.items())]
    jobs = [own_job(f"look-{one}", f"look at {one}", when=f"leaf fall of {one}", yearly=True) for one in ids]
    text = garden_text(*things, *jobs, climate=climate, lat=lat, lon=lon)
    almanac = almanac_of(folder, text, dt.date(2027, 6, 1))
    opens = {job.title: job.open.likely for job in almanac.jobs()}
    return {kind: opens[f"look at {one}"] for one, kind in ids.items()}  # type: ignore[misc]


@pytest.mark.parametrize("place", PLACES)
def test_leaves_are_down_when_they_are_seen_to_be(tmp_path: Path, place: str) -> None:
    rows = [row for row in PUBLISHED if row[0] == place]
    told = days_off(tmp_path, place, [kind for _, kind, _, _ in rows])
    for _, kind, day, most in rows:
        seen = dt.date.fromisoformat(f"2027-{day}")
        assert abs((told[kind] - seen).days) <= most, f"{kind}: {told[kind]}, seen {seen}"


def test_all_of_them_are_neither_early_nor_late(tmp_path: Path) -> None:
    """Told from the first frost alone they were three weeks late on the mean."""
    off = []
    for place in PLACES:
        (tmp_path / place).mkdir()
        rows = [row for row in PUBLISHED if row[0] == place]
        told = days_off(tmp_path / place, place, [kind for _, kind, _, _ in rows])
        off += [(told[kind] - dt.date.fromisoformat(f"2027-{day}")).days for _, kind, day, _ in rows]
    assert abs(np.mean(off)) <= 3
    assert np.mean(np.abs(off)) <= 6
