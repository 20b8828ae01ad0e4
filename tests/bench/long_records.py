"""The demo with a journal of any length, or with weather of any number of years, for speed alone."""

from __future__ import annotations

import datetime as dt
import shutil
from collections.abc import Iterator
from pathlib import Path

from tests.samples.places import DEMO

from leafturn.journal.entries import BloomNote, Done, Entry, HarvestNote, PlainNote
from leafturn.journal.store.sealing import written_text

FIRST, LAST = 1997, 2026  # of the years in which notes are written, and of the demo's whole years of weather
DAY = dt.timedelta(days=1)
PLANTS = ("comice-1", "comice-2", "early-plum", "hazel-b", "kiwi-f1", "quince")


def much_noted(folder: Path, notes: int) -> Path:
    """The demo with so many notes more, spread evenly over thirty years, and its folder."""
    garden = folder / f"notes_{notes}"
    shutil.copytree(DEMO, garden)
    a_year = notes // (LAST - FIRST + 1)
    for year in range(FIRST, LAST + 1):
        with (garden / "journal" / f"{year}.toml").open("a", encoding="utf-8") as file:
            file.writelines(_notes(year, a_year))
    return garden


def _notes(year: int, many: int) -> Iterator[str]:
    """Notes as the program writes them."""
    for n in range(many):
        on, plant = dt.date(year, 1, 1) + n * 364 // many * DAY, PLANTS[n % len(PLANTS)]
        given = {"id": f"{on}.{1000 + n}.long", "on": on}
        kinds: tuple[Entry, ...] = (
            PlainNote(text="walked the rows", **given),
            HarvestNote(plant=plant, kg=2.5, **given),
            Done(task=f"{plant}:look-over:{year}", by="steward", minutes=20.0, **given),
            BloomNote(plant=plant, stage="first open", bbch=60, **given),
        )
        yield f"\n{written_text(kinds[n % len(kinds)])}"


def long_watched(folder: Path, years: int) -> Path:
    """The demo with its weather told again for so many years before its own, and its folder."""
    garden = folder / f"years_{years}"
    shutil.copytree(DEMO, garden)
    file = garden / "weather.csv"
    lines = file.read_text(encoding="utf-8").splitlines()
    first = next(n for n, line in enumerate(lines) if line[:4].isdigit())
    by_day = dict(line.split(",", 1) for line in lines[first:])
    on = dt.date(LAST + 1 - years, 1, 1)
    earlier = []
    while on.year < FIRST:
        again = FIRST + (on.year - FIRST) % 28  # the same days of the week and leap years
        earlier.append(f"{on},{by_day[f'{again}-{on:%m-%d}']}")
        on += DAY
    file.write_text("\n".join([*lines[:first], *earlier, *lines[first:]]) + "\n", encoding="utf-8")
    return garden
