"""What several tests share."""

from __future__ import annotations

import csv
import os
import shutil
from collections.abc import Iterator
from importlib import resources
from pathlib import Path

import pytest

from in_process import opened
from leafturn.almanac import Almanac
from leafturn.base import quantities
from tests.samples.places import DEMO, DEMO_DAY, GARDENS


@pytest.fixture(scope="session", autouse=True)
def cache_folder_of_the_tests(tmp_path_factory: pytest.TempPathFactory) -> None:
    """What the program and the processes of tests keep lies in a folder of the tests, bytecode too.

    An installed program has its bytecode; without it each process would compile some four hundred modules.
    """
    os.environ["XDG_CACHE_HOME"] = str(tmp_path_factory.mktemp("cache"))
    os.environ["PYTHONPYCACHEPREFIX"] = str(tmp_path_factory.mktemp("bytecode"))
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)


@pytest.fixture(autouse=True)
def metric_is_spoken() -> Iterator[None]:
    """Whatever garden a test opens, the next one begins with metric units."""
    quantities.speak("metric")
    yield
    quantities.speak("metric")


@pytest.fixture(scope="session")
def weir_meadow() -> Almanac:
    """The demo garden on the day its stories are told; only to be looked at, since notes would be kept."""
    return opened(DEMO, DEMO_DAY)


@pytest.fixture(scope="session")
def seattle_garden(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of the Seattle test garden with its weather, 2012 to 2015.

    The days are those of `seattle-weather.csv` in vega-datasets (NOAA daily summaries, public domain): degC
    and mm, read straight from the package's file, since its own reader wants pandas.
    """
    folder = tmp_path_factory.mktemp("seattle")
    shutil.copy(GARDENS / "seattle" / "garden.toml", folder)
    packaged = resources.files("vega_datasets") / "_data" / "seattle-weather.csv"
    with packaged.open(encoding="utf-8", newline="") as source:
        rows = [
            (row["date"].replace("/", "-"), row["temp_min"], row["temp_max"], row["precipitation"])
            for row in csv.DictReader(source)
        ]
    with (folder / "weather.csv").open("w", encoding="utf-8", newline="") as target:
        csv.writer(target, lineterminator="\n").writerows([("date", "tmin_c", "tmax_c", "rain_mm"), *rows])
    return folder
