"""Stages end somewhere in every climate: the small gardens that once stopped the program."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import numpy as np
import pytest
from tests.samples.frost_years import steady

from leafturn.almanac import open_almanac
from leafturn.season.axis import AXIS_DAYS
from leafturn.season.ensemble import REPEATS
from leafturn.season.stage_duration import Pace

ON = dt.date(2027, 4, 19)


@pytest.mark.parametrize(
    ("kind", "lat", "height"),
    [("ivy", 52, 100), ("ivy", 50, 200), ("ivy", 46, 500), ("ivy", 48, 400), ("new england aster", 47, 600)],
)
def test_a_garden_of_one_late_plant_opens(tmp_path: Path, kind: str, lat: int, height: int) -> None:
    (tmp_path / "garden.toml").write_text(
        f'plant = [{{ kind = "{kind}" }}]\n[place]\nlat = {lat}\nlon = 5\nheight_m = {height}\n'
    )
    almanac = open_almanac(tmp_path, ON)
    almanac.round()
    almanac.season()
    almanac.partners()
    almanac.larder()


@pytest.mark.parametrize("mean", [-10.0, 3.0, 12.0, 30.0])
def test_a_stage_ends_after_it_began_from_any_day(mean: float) -> None:
    pace = Pace(steady(mean, members=3))
    for start in (-5.0, 0.0, 100.4, AXIS_DAYS - 1.5, AXIS_DAYS - 0.01, AXIS_DAYS + 3.0):
        for length in (0.0, 0.3, 12.0, 400.0):
            ended = pace.after(np.full(3 * REPEATS, start), length)
            assert np.isfinite(ended).all()
            assert (ended >= start - 1e-9).all()
