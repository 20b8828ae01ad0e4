"""Highbush blueberry in Harvard Forest, 1990 to 2001, each spring forecast from the eleven others.

The notes (open flowers, BBCH 501, of four bushes) and daily mean temperatures are those that the package
pyphenology 0.7.1 carries; its CSV files are read, it is neither installed nor run. Which of the four bushes a
row is of is not kept, and they differ by 2.7 d within a spring, so what is forecast is the bushes' mean day.
"""

from __future__ import annotations

import csv
import datetime as dt
import io
import zipfile
from collections import defaultdict
from pathlib import Path

import numpy as np
import pytest

from leafturn.bloom.learning import fit_prior, predict
from leafturn.weather.record import DailyRecord
from tests.skill.fetch import NotFetched, wheel_in

pytestmark = pytest.mark.reference

FIRST = dt.date(1989, 10, 1)
OPEN_FLOWERS = "501"


def rows(package: zipfile.ZipFile, name: str) -> list[dict[str, str]]:
    with package.open(f"pyPhenology/data/vaccinium_{name}.csv") as file:
        return list(csv.DictReader(io.TextIOWrapper(file, encoding="utf-8")))


@pytest.fixture(scope="module")
def package(data_folder: Path) -> zipfile.ZipFile:
    data_folder.mkdir(parents=True, exist_ok=True)
    try:
        return zipfile.ZipFile(wheel_in(data_folder, "pyphenology==0.7.1", "pyPhenology-0.7.1-*.whl"))
    except NotFetched as why:
        pytest.skip(str(why))


@pytest.fixture(scope="module")
def bushes(package: zipfile.ZipFile) -> dict[int, list[float]]:
    """Days of the year on which the four bushes had open flowers."""
    found = defaultdict(list)
    for row in rows(package, "obs"):
        if row["phenophase"] == OPEN_FLOWERS:
            found[int(row["year"])].append(float(row["doy"]))
    return dict(found)


@pytest.fixture(scope="module")
def weather(package: zipfile.ZipFile) -> DailyRecord:
    """The daily mean as minimum and maximum alike; each year's rows begin 66 days before 1 January.

    October of 1989 is not in the file. Those days are given the mean of the other Octobers, without which
    the first season would count as too little known.
    """
    means = {
        dt.date(int(row["year"]), 1, 1) + dt.timedelta(days=int(row["doy"]) - 1): float(row["temperature"])
        for row in rows(package, "temperature")
    }
    values = np.full((max(means) - FIRST).days + 1, np.nan)
    for day, value in means.items():
        values[(day - FIRST).days] = value
    for place in range((min(means) - FIRST).days):
        day = FIRST + dt.timedelta(days=place)
        same = [value for date, value in means.items() if (date.month, date.day) == (day.month, day.day)]
        values[place] = np.mean(same) if same else np.nan
    return DailyRecord(first=FIRST, tmin=values, tmax=values, rain=np.full(len(values), np.nan))


def test_each_spring_from_the_eleven_others(bushes: dict[int, list[float]], weather: DailyRecord) -> None:
    """1.44 d reached; the mean of the other springs gives 5.8 d."""
    assert sum(len(days) for days in bushes.values()) == 48
    mean = {year: float(np.mean(days)) for year, days in bushes.items()}
    missed, by_mean = [], []
    for year, observed in mean.items():
        others = {y: day for y, day in mean.items() if y != year}
        prior = fit_prior({"Harvard Forest": others}, {"Harvard Forest": weather})
        missed.append(predict(prior, others, weather, year).mean - observed)
        by_mean.append(np.mean(list(others.values())) - observed)
    assert np.sqrt(np.mean(np.square(missed))) <= 1.5
    assert np.sqrt(np.mean(np.square(by_mean))) > 5
