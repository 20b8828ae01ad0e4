"""What was reckoned of a garden goes with it: who opens one after another holds no more than the last."""

from __future__ import annotations

import datetime as dt
import gc
import shutil
import weakref
from pathlib import Path

import pytest
from tests.samples.places import DEMO, DEMO_DAY

from leafturn.almanac import open_almanac
from leafturn.season.ensemble import Ensemble
from leafturn.weather.record import DailyRecord

LARGE = (Ensemble, DailyRecord)  # tens of years of days


def held() -> set[int]:
    gc.collect()
    return {id(one) for one in gc.get_objects() if isinstance(one, LARGE)}


@pytest.fixture
def demo(tmp_path: Path) -> Path:
    return Path(shutil.copytree(DEMO, tmp_path / "garden"))


def test_no_weather_outlasts_its_garden(demo: Path) -> None:
    before = held()
    for week in range(2):
        almanac = open_almanac(demo, DEMO_DAY + dt.timedelta(weeks=week))
        almanac.round(), almanac.water(), almanac.climbers(), almanac.larder(), almanac.learnt()
        while_open = held() - before
    gone = weakref.ref(almanac)
    del almanac
    assert while_open, "nothing large was made"
    assert not held() - before
    assert gone() is None
