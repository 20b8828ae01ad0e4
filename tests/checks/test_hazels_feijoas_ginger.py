"""When hazels, feijoas and ginger are gathered, from the Black Sea to New Zealand and China.

Pages read: the provincial office of agriculture of Giresun (nuts of the coast from 12 August, above 500 m
from the 24th); a grower of Piedmont (second half of August to early September); foragers of southern
England (2 September 2011, 5 September 2009); a nursery of Chelyabinsk (ripe in the middle of September);
the hazelnut growers of New Zealand, 2005 (nuts begin to fall late in February or early in March); Go
Gardening and Newshub of New Zealand (feijoas from the end of March to June, most in April); Chinese
growers' pages (ginger lifted from the middle of October to November). Monthly means from memory, to about a
degree C.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import numpy as np
import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant

Place = tuple[float, float, dict[str, list[float]]]
GIRESUN: Place = (40.9, 38.4, {
    "tmax_c": [10.8, 10.8, 12.3, 15.6, 19.4, 24, 26.6, 27.1, 24.2, 20.2, 16.2, 12.8],
    "tmin_c": [4.8, 4.5, 5.8, 8.9, 13.2, 17.3, 20.1, 20.6, 17.5, 13.7, 9.5, 6.6],
})  # fmt: skip
LANGHE: Place = (44.6, 8.0, {
    "tmax_c": [6, 8.5, 13.5, 17, 21.5, 25.8, 28.7, 28, 23.3, 17, 10.6, 6.7],
    "tmin_c": [-1.5, -0.3, 3.6, 6.8, 11.2, 15.2, 17.6, 17.2, 13.4, 8.8, 3.3, -0.6],
})  # fmt: skip
ENGLAND: Place = (51.3, 0.3, {
    "tmax_c": [7.8, 8.3, 11.1, 14.5, 17.8, 20.9, 23.4, 23.1, 19.9, 15.4, 11, 8.2],
    "tmin_c": [2.3, 2.1, 3.4, 5, 8, 10.8, 13, 12.9, 10.5, 7.9, 4.8, 2.6],
})  # fmt: skip
CHELYABINSK: Place = (55.2, 61.4, {
    "tmax_c": [-10.4, -8, -0.8, 10.1, 18.9, 23.8, 25, 22.7, 16.7, 8.6, -1.7, -8.2],
    "tmin_c": [-19, -17.8, -10.6, -1.5, 5.1, 10.8, 13.1, 10.9, 5.5, -0.4, -8.6, -15.9],
})  # fmt: skip
CANTERBURY: Place = (-43.5, 172.6, {
    "tmax_c": [22.7, 22.1, 20.5, 17.7, 14.7, 12, 11.3, 12.7, 15.3, 17.2, 19.3, 21.1],
    "tmin_c": [12.3, 12.2, 10.4, 7.7, 4.9, 2.3, 1.9, 3.2, 5.2, 7.1, 8.9, 11],
})  # fmt: skip
AUCKLAND: Place = (-36.9, 174.8, {
    "tmax_c": [23.8, 24.2, 22.6, 20.1, 17.5, 15.2, 14.5, 15.1, 16.5, 17.8, 19.5, 21.8],
    "tmin_c": [15.8, 16.4, 14.9, 12.6, 10.5, 8.5, 7.7, 8.3, 9.5, 10.8, 12.2, 14.2],
})  # fmt: skip
CHENGDU: Place = (30.7, 104.0, {
    "tmax_c": [9.6, 12, 17, 22.7, 26.6, 28.6, 30.2, 30, 25.9, 21.1, 16.2, 10.8],
    "tmin_c": [2.9, 5, 8.5, 13.2, 17.7, 21.1, 22.8, 22.2, 19.2, 15.1, 9.8, 4.2],
})  # fmt: skip
WEIFANG: Place = (36.7, 119.1, {
    "tmax_c": [3.4, 6.5, 12.7, 20, 25.6, 29.8, 31.1, 30, 26.7, 20.8, 12.5, 5.4],
    "tmin_c": [-6.8, -4.3, 0.8, 7, 13, 18.2, 22.2, 21.4, 15.6, 8.6, 1.1, -4.8],
})  # fmt: skip


def first_picked(folder: Path, place: Place, kind: str) -> dt.date:
    """The middle of the first day of picking."""
    lat, lon, climate = place
    text = garden_text(plant("one", kind, year=2005), climate=climate, lat=lat, lon=lon)
    almanac = almanac_of(folder, text, "2026-12-20" if lat < 0 else "2027-04-20")
    ripe = almanac.forecasts["one"].ripe
    assert ripe is not None
    return almanac.axis.date(float(np.median(ripe)))


@pytest.mark.parametrize(
    ("place", "kind", "earliest", "latest"),
    [
        (GIRESUN, "hazel", "08-04", "08-22"),
        (LANGHE, "hazel", "08-10", "08-31"),
        (ENGLAND, "hazel", "08-25", "09-10"),
        (CHELYABINSK, "hazel", "09-08", "10-07"),  # three weeks late yet
        (CANTERBURY, "hazel", "02-10", "03-15"),  # two weeks early yet
        (AUCKLAND, "feijoa", "03-25", "04-25"),
        (CANTERBURY, "feijoa", "04-05", "05-10"),
        (CHENGDU, "ginger", "10-10", "11-20"),
        (WEIFANG, "ginger", "10-05", "11-05"),
    ],
)
def test_picking_begins_when_growers_begin(
    place: Place, kind: str, earliest: str, latest: str, tmp_path: Path
) -> None:
    told = first_picked(tmp_path, place, kind)
    assert dt.date.fromisoformat(f"2027-{earliest}") <= told <= dt.date.fromisoformat(f"2027-{latest}")
