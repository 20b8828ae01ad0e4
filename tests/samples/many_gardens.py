"""Many gardens, generated: each like the others in size and unlike them in place, plants, weather and notes.

    write_gardens(folder, 2000, broken=20)

writes 2,000 folders in three regions of invented gardens; 20 of them, spread evenly, cannot be read.
"""

from __future__ import annotations

import datetime as dt
import math
import random
from pathlib import Path

from tests.samples.climates import COLD, MILD, WARM
from tests.samples.garden_text import garden_text, helper, plant

REGIONS = (
    ("england", 51.4, -0.9, MILD),
    ("wisconsin", 43.1, -89.4, COLD),
    ("georgia", 34.5, -83.5, WARM),
)
KINDS = (
    ("pear", ("Comice", "Conference", None)),
    ("apple", ("Cox", "Gala", None)),
    ("european plum", ("Victoria", None)),
    ("sweet cherry", ("Stella", "Lapins", None)),
    ("hazel", (None,)),
    ("quince", (None,)),
    ("apricot", (None,)),
)
BROKEN = (
    '{ lat = 46\n',
    'name = "nowhere"\n',
    '[place]\nlat = "high"\nlon = 3\n',
    'plant = [ { kind = "pear" } ]\n',
)  # fmt: skip
NOTES_EVERY, WEATHER_EVERY = 4, 8


def write_gardens(
    folder: Path, count: int, *, broken: int = 0, plants: int = 5
) -> tuple[list[str], list[str]]:
    """The gardens, and the names of those that can be read and of those that cannot."""
    every = count // broken if broken else count + 1
    sound, wrong = [], []
    for number in range(count):
        name = f"g{number // 100:03d}/{number:05d}"
        here = folder / name
        here.mkdir(parents=True)
        if number % every == every - 1:
            wrong.append(name)
            (here / "garden.toml").write_text(BROKEN[len(wrong) % len(BROKEN)], encoding="utf-8")
        else:
            sound.append(name)
            _write(here, number, plants)
    return sound, wrong


def _write(folder: Path, number: int, plants: int) -> None:
    chance = random.Random(number)
    region, lat, lon, months = REGIONS[number % len(REGIONS)]
    trees = []
    for n in range(plants):
        kind, cultivars = chance.choice(KINDS)
        cultivar = chance.choice(cultivars)
        more = {"cultivar": cultivar} if cultivar else {}
        at = [chance.randrange(40), chance.randrange(40)]
        trees.append(plant(f"t{n}", kind, year=chance.randrange(1990, 2020), at=at, **more))
    weather = {"weather": "weather.csv"} if number % WEATHER_EVERY == 0 else {}
    text = garden_text(
        *trees,
        helper("gardener", hours_per_week=5, can=["anything"], keeper=True),
        climate=months,
        lat=round(lat + chance.uniform(-1, 1), 3),
        lon=round(lon + chance.uniform(-1, 1), 3),
        name=f"Garden {number}",
        region=region,
        **weather,
    )
    (folder / "garden.toml").write_text(text, encoding="utf-8")
    if weather:
        (folder / "weather.csv").write_text(_weather(chance, months), encoding="utf-8")
    if number % NOTES_EVERY == 0:
        (folder / "journal").mkdir()
        for year in (2025, 2026):
            (folder / "journal" / f"{year}.toml").write_text(_notes(chance, year), encoding="utf-8")


def _weather(chance: random.Random, months: dict[str, list[float]]) -> str:
    rows = ["date,tmin_c,tmax_c,rain_mm"]
    for number in range(800):
        day = dt.date(2025, 2, 1) + dt.timedelta(days=number)
        stray = 3.0 * math.sin(number / 5.1) + chance.uniform(-1, 1)
        low, high = (months[key][day.month - 1] + stray for key in ("tmin_c", "tmax_c"))
        rows.append(f"{day},{low:.1f},{high:.1f},{chance.choice((0, 0, 4))}")
    return "\n".join(rows) + "\n"


def _notes(chance: random.Random, year: int) -> str:
    day = dt.date(year, 4, 10) + dt.timedelta(days=chance.randrange(20))
    return f'[[entry]]\non = {day}\nwhat = "bloom"\nplant = "t0"\nstage = "first open"\n'
