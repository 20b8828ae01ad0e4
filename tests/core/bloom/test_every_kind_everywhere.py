"""Every kind of the library in 150 places: no climate stops the program, and dates are of sense or none."""

from __future__ import annotations

import datetime as dt
import warnings
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest

from leafturn.almanac import open_almanac
from leafturn.kinds.library import load_library

ON = dt.date(2027, 4, 19)
SHARDS = 150
LATITUDES = (-54, -43, -37, -33, -25, -12, -1, 9, 21, 29, 34, 39, 44, 49, 53, 58, 62, 67, 72, 78)
MEANS = (-6.0, -1.0, 4.0, 8.0, 12.0, 16.0, 21.0, 27.0)


def places() -> Iterator[str]:
    """Garden files' [place] and [climate]: by latitude alone, by two frost dates, and by monthly normals."""
    for latitude in LATITUDES:
        for height in (0, 700, 1800):
            yield f"[place]\nlat = {latitude}\nlon = 5\nheight_m = {height}\n"
    for latitude in (-38, 35, 42, 47, 60):
        for last, first in (("03-01", "12-01"), ("04-24", "10-16"), ("06-01", "09-05"), ("06-25", "08-10")):
            if latitude < 0:
                last, first = first, last
            yield f'[place]\nlat = {latitude}\nlon = 5\nlast_frost = "{last}"\nfirst_frost = "{first}"\n'
    for latitude in (-36, 0, 48):
        for mean in MEANS:
            for swing in (1.0, 9.0, 18.0):
                yield normals(latitude, mean, swing)


def normals(latitude: float, mean: float, swing: float) -> str:
    month = np.arange(12)
    wave = mean - swing * np.cos(2 * np.pi * (month - 0.5) / 12) * (1 if latitude >= 0 else -1)
    high, low = (wave + 5).round(1).tolist(), (wave - 5).round(1).tolist()
    return f"[place]\nlat = {latitude}\nlon = 5\n[climate]\ntmax_c = {high}\ntmin_c = {low}\n"


PLACES = list(places())
LIBRARY = load_library()[0].kinds
# Kinds picked by the calendar: what is picked of carob or orange are the flowers of the year before.
BY_CALENDAR = {name.replace(" ", "-") for name, kind in LIBRARY.items() if kind.harvest.season is not None}
KINDS = "".join(f'[[plant]]\nkind = "{name}"\nyear = 2000\n' for name in LIBRARY)


def test_there_are_places_enough() -> None:
    assert len(PLACES) >= 150


@pytest.mark.sweep(each=SHARDS)
@pytest.mark.parametrize("shard", range(SHARDS))
def test_every_kind_is_forecast_everywhere(shard: int, tmp_path: Path) -> None:
    for place in PLACES[shard::SHARDS]:
        (tmp_path / "garden.toml").write_text(place + KINDS)
        with warnings.catch_warnings():
            warnings.simplefilter("error")
            almanac = open_almanac(tmp_path, ON)
            forecasts = almanac.forecasts
        axis = almanac.axis
        for plant, forecast in forecasts.items():
            stages = [forecast.first_open, forecast.full, forecast.end]
            assert not any(np.isnan(days).any() for days in stages), (place, plant)
            opens = np.median(forecast.first_open)
            if np.isfinite(opens):
                assert -31 <= opens < 520, (place, plant, axis.date(opens))
                assert np.median(forecast.full) >= opens - 1, (place, plant)
                assert np.median(forecast.end) >= np.median(forecast.full) - 1, (place, plant)
            fruit = forecast.ripe is not None and forecast.ripens and plant not in BY_CALENDAR
            if fruit and np.isfinite(np.median(forecast.ripe)):
                assert np.median(forecast.ripe) > np.median(forecast.full), (place, plant)


@pytest.mark.sweep(each=3)
@pytest.mark.parametrize("place", PLACES[:: len(PLACES) // 12])
def test_every_page_opens_with_a_few_kinds(place: str, tmp_path: Path) -> None:
    rows = "".join(
        f'[[plant]]\nkind = "{k}"\nyear = 2005\n' for k in ("ivy", "apple", "pear", "fig", "hazel")
    )
    (tmp_path / "garden.toml").write_text(place + rows)
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        almanac = open_almanac(tmp_path, ON)
        almanac.round()
        almanac.season()
        almanac.partners()
        almanac.larder()
        almanac.heading()
        almanac.learnt()
