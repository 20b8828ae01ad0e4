"""Small gardens with notes, on a file of weather, on twelve normals, or on two frost dates."""

from __future__ import annotations

import csv
import datetime as dt
from collections.abc import Iterable
from pathlib import Path

import numpy as np

from leafturn.almanac import Almanac, open_almanac
from tests.samples.garden_text import MONTHS, climate_text
from tests.samples.invented_sites import invented_weather

YEAR = 2012  # the season asked for; invented weather ends with 2011
NEW_YEAR = dt.date(YEAR, 1, 1)

NORMALS = {key: MONTHS[key] for key in ("tmax_c", "tmin_c")}
FROSTS = """
[climate]
last_frost = { usual = "04-24" }
first_frost = { usual = "10-16" }
"""
WEATHER = {"a file": 'weather = "weather.csv"\n', "normals": climate_text(NORMALS), "frost dates": FROSTS}

Noted = tuple[str, dt.date, str]  # plant, day, stage


def plant(id: str, kind: str, more: str = "") -> str:
    return f'\n[[plant]]\nid = "{id}"\nkind = "{kind}"\nyear = 1990\nat = [0, 0]\n{more}'


def write_garden(
    folder: Path,
    plants: str,
    notes: Iterable[Noted] = (),
    weather: str = "normals",
    lat: float = 47.0,
    by: str | None = None,
) -> Path:
    """A garden's folder, written anew: plants as TOML text, weather as a key of WEATHER or TOML text.

    All notes are of one hand, if `by` is given.
    """
    folder.mkdir(parents=True, exist_ok=True)
    text = f"[place]\nlat = {lat}\nlon = 15.87\n{WEATHER.get(weather, weather)}{plants}"
    (folder / "garden.toml").write_text(text, encoding="utf-8")
    if weather == "a file":
        record = invented_weather(50)
        days = [record.first + dt.timedelta(days=i) for i in range(len(record))]
        with (folder / "weather.csv").open("w", encoding="utf-8", newline="") as file:
            out = csv.writer(file, lineterminator="\n")
            out.writerow(("date", "tmin_c", "tmax_c", "rain_mm"))
            out.writerows(
                zip(days, np.round(record.tmin, 2), np.round(record.tmax, 2), "0" * len(days), strict=True)
            )
    (folder / "journal").mkdir(exist_ok=True)
    by_year: dict[int, list[str]] = {}
    for number, (target, on, stage) in enumerate(notes):
        said = f'\n[[entry]]\nid = "{on}.{number:04d}"\non = {on}\nwhat = "bloom"\nplant = "{target}"\n'
        said += f'stage = "{stage}"\n' + (f'by = "{by}"\n' if by else "")
        by_year.setdefault(on.year, []).append(said)
    for year, entries in by_year.items():
        (folder / "journal" / f"{year}.toml").write_text("".join(entries), encoding="utf-8")
    return folder


def opened(
    folder: Path,
    plants: str,
    notes: Iterable[Noted] = (),
    weather: str = "normals",
    on: dt.date = NEW_YEAR,
    **more: float,
) -> Almanac:
    """The almanac of such a garden; it must have been read without a fault."""
    almanac = open_almanac(write_garden(folder, plants, notes, weather, **more), on)
    assert almanac.faults == ()
    return almanac


def usual(almanac: Almanac, target: str, stage: str = "first_open") -> dt.date:
    """The likely day of a stage."""
    days = getattr(almanac.forecasts[target], stage)
    return almanac.axis.date(float(np.median(days)))


def same_days(target: str, day: dt.date, years: Iterable[int], stage: str = "first open") -> list[Noted]:
    """Notes about one day of the year, a day earlier and later by turns."""
    return [
        (target, day.replace(year=year) + dt.timedelta(days=(0, 1, -1)[i % 3]), stage)
        for i, year in enumerate(years)
    ]
