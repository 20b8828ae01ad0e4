"""What several tests share."""

from __future__ import annotations

import csv
import gc
import os
import shutil
import signal
import sys
from collections.abc import Generator, Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

from leafturn.almanac import Almanac
from leafturn.base import quantities
from tests.in_process import opened
from tests.samples.packaged_tables import rows_of
from tests.samples.places import DEMO, DEMO_DAY, GARDENS
from tests.samples.sweeps import mark_sweeps

# Objects made before Python looks for rings of them that nobody holds; looks before it goes through what they
# left. Looking each 700 objects, as it does by itself, took a twelfth of the time of all tests.
LOOKED_THROUGH_AFTER = (20_000, 10, 10)
gc.set_threshold(*LOOKED_THROUGH_AFTER)

# How long one example takes tells of what else the machine does.
settings.register_profile("on a busy machine", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("on a busy machine")


def pytest_configure(config: pytest.Config) -> None:
    """Bytecode lies with what pytest keeps, where it is not to lie beside the code.

    Without any, to read the tests takes three times as long in each of their processes, at each run, and each
    program that a test starts compiles some four hundred modules.
    """
    if sys.dont_write_bytecode and config.cache is not None:
        os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
        os.environ["PYTHONPYCACHEPREFIX"] = sys.pycache_prefix = str(config.cache.mkdir("bytecode"))
        sys.dont_write_bytecode = False


@pytest.fixture(scope="session", autouse=True)
def cache_folder_of_the_tests(tmp_path_factory: pytest.TempPathFactory) -> None:
    """What the program and the processes of tests keep lies in a folder of the tests."""
    os.environ["XDG_CACHE_HOME"] = str(tmp_path_factory.mktemp("cache"))


@pytest.hookimpl(wrapper=True, optionalhook=True)
def pytest_xdist_auto_num_workers() -> Generator[None, int, int]:
    """Three processes for two cores: a quarter of the time they wait, for disks, terminals and processes."""
    cores = yield
    return cores + cores // 2


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Before tests are chosen by their markers."""
    mark_sweeps(items)
    items.sort(key=lambda item: item.get_closest_marker("first") is None)


def pytest_collection_finish() -> None:
    """What was read to know the tests is looked through no more for objects that only hold each other.

    It is so much that Python would seldom look at all, and gardens that are gone would fill the memory.
    """
    gc.collect()
    gc.freeze()
    gc.collect()  # by what is found now Python tells how soon to look again


@pytest.fixture(scope="session", autouse=True)
def ctrl_c_is_heard() -> None:
    """What a shell starts in the background passes Ctrl-C over, and so would the programs of tests."""
    signal.signal(signal.SIGINT, signal.default_int_handler)


@pytest.fixture(autouse=True)
def gardens_that_are_gone_are_found() -> Iterator[None]:
    """A process of one command seldom looks for objects that only hold each other; that of the tests does."""
    yield
    gc.set_threshold(*LOOKED_THROUGH_AFTER)


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
    and mm.
    """
    folder = tmp_path_factory.mktemp("seattle")
    shutil.copy(GARDENS / "seattle" / "garden.toml", folder)
    rows = [
        (row["date"].replace("/", "-"), row["temp_min"], row["temp_max"], row["precipitation"])
        for row in rows_of("seattle-weather.csv")
    ]
    with (folder / "weather.csv").open("w", encoding="utf-8", newline="") as target:
        csv.writer(target, lineterminator="\n").writerows([("date", "tmin_c", "tmax_c", "rain_mm"), *rows])
    return folder
