"""Fruit where no season is cold, apricots under monsoon, and young trees in mild dry winters.

Read: Notodimedjo et al. 1981 (Acta Horticulturae 120, abstract): apples of East Java are stripped of their
leaves three to four weeks after harvest, break bud three to four weeks later and ripen after four to five
months. Nauni University, February 2024: fruit trees of the lower hills of Himachal are pruned by early
February. Colorado State Forest Service and University of Nebraska: young trees are watered through dry
winters on mild days. Monthly means from memory, to about a degree C and a fifth of the rain.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import numpy as np
from tests.samples.garden_text import almanac_of, garden_text, plant
from tests.samples.towns import SIMLA

from leafturn.almanac import Almanac
from leafturn.journal.entries import BloomNote
from leafturn.tasks.model import Job

SABANA = {
    "tmax_c": [20, 20.1, 20, 19.7, 19.4, 18.9, 18.5, 18.7, 19.1, 19.2, 19.3, 19.6],
    "tmin_c": [5, 6, 7.2, 8.2, 8.3, 7.9, 7.4, 7.1, 6.9, 7.4, 7.4, 5.9],
    "rain_mm": [33, 43, 66, 111, 94, 57, 41, 49, 73, 115, 88, 54],
}
ZURICH = {
    "tmax_c": [3, 5, 10, 14, 19, 22, 25, 24, 19, 14, 8, 4],
    "tmin_c": [-2, -2, 1, 4, 9, 12, 14, 14, 10, 6, 2, -1],
    "rain_mm": [65, 60, 70, 80, 110, 125, 120, 120, 95, 85, 75, 75],
}
KUNMING = {
    "tmax_c": [15.8, 17.6, 21, 23.9, 24.4, 24.6, 24.3, 24.3, 22.7, 20.6, 18, 15.4],
    "tmin_c": [3, 4.5, 7.5, 11, 14.2, 16.7, 16.9, 16.4, 14.6, 12, 7.4, 3.7],
    "rain_mm": [16, 16, 20, 24, 97, 181, 202, 204, 120, 79, 42, 11],
}


def garden(
    folder: Path, day: str, lat: float, lon: float, climate: dict[str, list[float]], *plants: str
) -> Almanac:
    return almanac_of(folder, garden_text(*plants, climate=climate, lat=lat, lon=lon), day)


def only(almanac: Almanac, rule: str) -> Job:
    (job,) = [job for job in almanac.jobs() if job.rule == rule]
    return job


def test_once_noted_in_flower_an_apple_without_winter_is_foretold_and_stripped_after_picking(
    tmp_path: Path,
) -> None:
    apple = plant("apple", "apple", year=2012, at=[0, 0])
    almanac = garden(tmp_path, "2027-03-01", 4.8, -74.0, SABANA, apple)
    said = " ".join(almanac.season().notes)
    assert "no date of bloom or picking is given until one is noted in flower: apple." in said
    assert not [job for job in almanac.jobs() if job.rule == "strip-leaves"]

    opened = dt.date(2027, 2, 1)
    note = BloomNote(on=opened, plant="apple", stage="first open", bbch=61)
    almanac, _ = almanac.note(note, almanac.on)
    forecast = almanac.forecasts["apple"]
    assert forecast.ripe is not None
    assert forecast.picked is not None
    ripe, picked = (almanac.axis.date(float(np.median(days))) for days in (forecast.ripe, forecast.picked))
    assert 120 - 10 <= (ripe - opened).days <= 150 + 10
    assert all(event.days_from_normal is None for event in almanac.season().events)
    assert not any("before their leaves are down" in said for said in almanac.season().notes)
    strip = only(almanac, "strip-leaves")
    assert strip.open.likely is not None
    assert 20 <= (strip.open.likely - picked).days <= 22
    assert "three to four weeks" in " ".join(strip.why)


def test_apricots_are_cut_at_rest_under_monsoon_and_not_into_july_elsewhere(tmp_path: Path) -> None:
    apricot = plant("apricot", "apricot", year=2010, at=[0, 0])
    simla = garden(tmp_path / "simla", "2027-01-25", 31.1, 77.2, SIMLA, apricot)
    (cut,) = [job for job in simla.jobs() if job.verb in ("winter prune", "prune")]
    assert cut.open.likely is not None
    assert cut.close.likely is not None
    assert cut.open.likely <= dt.date(2027, 1, 15)
    assert cut.close.likely <= dt.date(2027, 3, 25)
    zurich = garden(tmp_path / "zurich", "2027-04-10", 47.4, 8.5, ZURICH, apricot)
    closes = [job.close.likely for job in zurich.jobs() if "prune" in job.verb]
    assert closes
    assert all(close is not None and close < dt.date(2027, 6, 20) for close in closes)


def test_young_trees_are_watered_through_mild_dry_winters_with_frost(tmp_path: Path) -> None:
    loquat = plant("loquat", "loquat", year=2025, at=[0, 0])
    kunming = garden(tmp_path / "kunming", "2027-02-25", 25.0, 102.7, KUNMING, loquat)
    water = only(kunming, "water-all-year")
    assert water.state in ("due", "late")
    cold = garden(tmp_path / "cold", "2027-02-25", 47.4, 8.5, ZURICH, loquat)
    assert not [job for job in cold.jobs() if job.rule == "water-all-year"]
