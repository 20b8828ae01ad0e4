"""Gardens told in a line a thing under nine weathers, and their jobs by rule.

Monthly means from memory, to about a degree C and a fifth of the rain.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from leafturn.almanac import Almanac
from leafturn.journal.entries import HarvestNote, WeatherNote
from leafturn.tasks.model import Job
from tests.samples.garden_text import almanac_of, garden_text, plant

Place = tuple[tuple[float, float], dict[str, list[float]]]

GALICIA: Place = (
    (43.3, -8.5),
    {
        "tmax_c": [13.7, 14.2, 15.7, 16.4, 18.5, 20.7, 22.3, 23, 21.9, 19.2, 16, 14.2],
        "tmin_c": [8.3, 8.1, 9.3, 10.1, 12.1, 14.4, 16.1, 16.5, 15.3, 13, 10.5, 9],
        "rain_mm": [110, 90, 80, 85, 75, 45, 35, 40, 65, 125, 140, 130],
    },
)
BASEL: Place = (
    (47.55, 7.58),
    {
        "tmax_c": [4.9, 6.8, 11.5, 15.7, 19.9, 23.5, 25.7, 25.3, 20.7, 15.3, 9, 5.4],
        "tmin_c": [-0.5, -0.3, 2.7, 5.6, 9.7, 13.2, 15, 14.7, 11, 7.4, 2.9, 0.3],
        "rain_mm": [47, 46, 51, 62, 94, 85, 90, 88, 72, 74, 64, 66],
    },
)
VALENCIA: Place = (
    (39.47, -0.45),
    {
        "tmax_c": [16.4, 17.1, 19.3, 20.8, 23.4, 27.1, 29.7, 30.2, 27.9, 24.3, 19.8, 17],
        "tmin_c": [7.1, 7.8, 9.6, 11.5, 14.6, 18.6, 21.5, 21.9, 19.1, 15.2, 10.8, 8.1],
        "rain_mm": [37, 36, 33, 38, 39, 22, 8, 20, 70, 77, 47, 48],
    },
)
KENT: Place = (
    (51.3, 0.5),
    {
        "tmax_c": [7.8, 8.2, 11, 14.2, 17.6, 20.6, 23, 22.8, 19.6, 15.4, 11, 8.3],
        "tmin_c": [2.3, 2.1, 3.6, 5.3, 8.2, 11, 13.2, 13.2, 10.8, 8.2, 4.9, 2.8],
        "rain_mm": [62, 45, 40, 43, 48, 46, 48, 54, 52, 72, 74, 68],
    },
)
SAPPORO: Place = (
    (43.06, 141.35),
    {
        "tmax_c": [-0.4, 0.4, 4.5, 11.7, 17.9, 21.8, 25.4, 26.4, 22.8, 16.4, 8.7, 2],
        "tmin_c": [-6.4, -6.2, -2.4, 3.4, 9, 13.4, 17.9, 19.1, 14.8, 8, 1.6, -4],
        "rain_mm": [108, 92, 78, 55, 56, 60, 91, 127, 142, 110, 114, 114],
    },
)
BEND: Place = (
    (44.06, -121.3),
    {
        "tmax_f": [41, 45, 52, 58, 66, 74, 84, 84, 76, 63, 48, 40],
        "tmin_f": [24, 25, 28, 31, 37, 43, 49, 48, 41, 33, 27, 23],
        "rain_in": [1.5, 1.1, 0.8, 0.8, 1.0, 0.7, 0.5, 0.4, 0.4, 0.7, 1.3, 1.9],
    },
)
SEATTLE: Place = (
    (47.6, -122.3),
    {
        "tmax_f": [48, 50, 54, 59, 66, 71, 77, 78, 72, 60, 52, 47],
        "tmin_f": [38, 38, 40, 43, 49, 53, 57, 58, 53, 47, 41, 37],
        "rain_in": [5.8, 3.8, 4.2, 3.2, 1.9, 1.4, 0.6, 1.0, 1.6, 3.9, 6.3, 5.7],
    },
)
MINNEAPOLIS: Place = (
    (44.88, -93.22),
    {
        "tmax_f": [24, 28, 41, 57, 69, 79, 83, 81, 73, 59, 42, 29],
        "tmin_f": [8, 12, 25, 37, 49, 60, 65, 63, 54, 41, 27, 14],
        "rain_in": [0.9, 0.9, 1.7, 2.9, 3.9, 4.6, 4.1, 4.3, 3.0, 2.6, 1.6, 1.2],
    },
)
BARILOCHE: Place = (
    (-41.1, -71.3),
    {
        "tmax_c": [21.7, 21.9, 18.6, 13.9, 9.6, 6.5, 5.9, 7.5, 10.3, 13.6, 16.8, 19.7],
        "tmin_c": [7.1, 6.8, 4.7, 1.8, 0.4, -1, -1.6, -1.3, -0.5, 1.2, 3.6, 5.9],
        "rain_mm": [22, 22, 32, 54, 130, 140, 120, 110, 60, 45, 30, 32],
    },
)
TEMUCO: Place = (
    (-38.7, -72.6),
    {
        "tmax_c": [23.5, 23.7, 21.2, 17.3, 13.8, 11.4, 11, 12.4, 14.5, 16.7, 19.2, 21.6],
        "tmin_c": [8.8, 8.5, 7.3, 5.6, 5.2, 4.1, 3.4, 3.6, 4.2, 5.6, 7, 8.2],
        "rain_mm": [40, 45, 55, 90, 170, 190, 170, 140, 100, 80, 60, 55],
    },
)
TWO_APPLES = (
    plant("a", "apple", cultivar="Discovery", year=2005, at=[0, 0]),
    plant("b", "apple", cultivar="Fuji", year=2005, at=[5, 0]),
)


def opened(
    folder: Path, place: Place, *things: str, on: str = "", notes: tuple[WeatherNote | HarvestNote, ...] = ()
) -> Almanac:
    (lat, lon), climate = place
    text = garden_text(*things, climate=climate, lat=lat, lon=lon)
    return almanac_of(folder, text, on or ("2027-07-05" if lat < 0 else "2027-01-05"), *notes)


def of_rule(almanac: Almanac, rule: str) -> list[Job]:
    return [job for job in almanac.jobs() if job.rule == rule]


def likely(job: Job) -> dt.date:
    assert job.open.likely is not None
    return job.open.likely
