"""What two weather archives send, written by hand in the form of their public guides, with invented weather.

NASA POWER: a GeoJSON feature as the guide of its daily service shows
(https://power.larc.nasa.gov/docs/services/api/temporal/daily/, answer of version 2.8). GHCN-Daily: columns by
sections III (station files), IV (ghcnd-stations.txt) and VII (ghcnd-inventory.txt) of its readme.txt.
"""

from __future__ import annotations

import datetime as dt
import json
import math
from collections.abc import Iterator
from functools import cache

FIRST, LAST = dt.date(2015, 1, 1), dt.date(2026, 11, 20)
GAP = -999.0

# Invented stations: id, latitude, longitude, height, name, years of each element.
STATIONS = (
    ("AUZ00000001", 46.98, 15.45, 377.0, "WEIRSTADT FLUGPLATZ", {"TMAX": (1894, 2026), "TMIN": (1894, 2026),
                                                               "PRCP": (1894, 2026)}),
    ("AUZ00000002", 47.07, 15.90, -999.9, "HOHE MUEHLE", {"TMAX": (1951, 2010), "TMIN": (1953, 2012)}),
    ("AUZ00000003", 46.94, 15.88, 340.0, "REGENBACH", {"PRCP": (1960, 2026)}),
    ("SWZ00000004", 59.35, 18.05, 52.0, "FAR AWAY", {"TMAX": (1860, 2026), "TMIN": (1860, 2026)}),
)  # fmt: skip


def days(first: dt.date = FIRST, last: dt.date = LAST) -> Iterator[tuple[dt.date, float, float, float]]:
    """Day, minimum, maximum [degC] and rain [mm]: a year's wave with a shorter one on it."""
    for number in range((last - first).days + 1):
        day = first + dt.timedelta(days=number)
        wave = -math.cos(2 * math.pi * (day.timetuple().tm_yday - 15) / 365.25)
        mean = 9.0 + 10.0 * wave + 3.0 * math.sin(number / 4.7)
        yield day, round(mean - 5.0, 1), round(mean + 6.0, 1), 6.0 if number % 3 == 0 else 0.0


@cache
def power_answer(height_m: float = 512.4) -> bytes:
    """Its last three days are still gaps, one day in between is wrong, another is a gap."""
    values: dict[str, dict[str, float]] = {"T2M_MIN": {}, "T2M_MAX": {}, "PRECTOTCORR": {}}
    for day, low, high, rain in days():
        values["T2M_MIN"][f"{day:%Y%m%d}"] = low
        values["T2M_MAX"][f"{day:%Y%m%d}"] = high
        values["PRECTOTCORR"][f"{day:%Y%m%d}"] = rain
    for ahead in range(1, 4):
        for told in values.values():
            told[f"{LAST + dt.timedelta(days=ahead):%Y%m%d}"] = GAP
    values["T2M_MAX"]["20200704"] = 77.0
    values["T2M_MIN"]["20210210"] = GAP
    names = {"T2M_MIN": "Temperature at 2 Meters Minimum", "T2M_MAX": "Temperature at 2 Meters Maximum",
             "PRECTOTCORR": "Precipitation Corrected"}  # fmt: skip
    return json.dumps(
        {
            "type": "Feature",
            "geometry": {"type": "Point", "coordinates": [15.87, 46.93, height_m]},
            "properties": {"parameter": values},
            "header": {
                "title": "NASA/POWER Source Native Resolution Daily Data",
                "api": {"version": "v2.8.0", "name": "POWER Daily API"},
                "sources": ["POWER", "MERRA2"],
                "fill_value": -999.0,
                "time_standard": "LST",
                "start": f"{FIRST:%Y%m%d}",
                "end": f"{LAST + dt.timedelta(days=3):%Y%m%d}",
            },
            "messages": [],
            "parameters": {
                code: {"units": "mm/day" if code == "PRECTOTCORR" else "C", "longname": name}
                for code, name in names.items()
            },
            "times": {"data": 0.718, "process": 0.03},
        }
    ).encode()


def inventory() -> bytes:
    """ID 1-11, latitude 13-20, longitude 22-30, element 32-35, first year 37-40, last year 42-45."""
    return "".join(
        f"{id} {lat:8.4f} {lon:9.4f} {element} {first} {last}\n"
        for id, lat, lon, _, _, held in STATIONS
        for element, (first, last) in held.items()
    ).encode()


def stations() -> bytes:
    """ID 1-11, latitude 13-20, longitude 22-30, height 32-37, state 39-40, name 42-71, flags and WMO id."""
    return "".join(
        f"{id} {lat:8.4f} {lon:9.4f} {height:6.1f}    {name:<30} {'':3} {'':3} {'':5}\n"
        for id, lat, lon, height, name, _ in STATIONS
    ).encode()


@cache
def station_file(id: str = STATIONS[0][0]) -> bytes:
    """A month of an element a line: id 1-11, year, month, element 18-21, then 31 of value 5 and three flags.

    The maximum of 4 July 2020 has failed a check of the archive.
    """
    cells: dict[tuple[int, int, str], list[str]] = {}
    for day, low, high, rain in days():
        for element, value in (("TMAX", high), ("TMIN", low), ("PRCP", rain)):
            month = cells.setdefault((day.year, day.month, element), ["-9999   "] * 31)
            flag = "I" if element == "TMAX" and day == dt.date(2020, 7, 4) else " "
            month[day.day - 1] = f"{round(10 * value):5d} {flag}S"
    return "".join(
        f"{id}{y}{m:02d}{element}{''.join(one)}\n" for (y, m, element), one in cells.items()
    ).encode()
