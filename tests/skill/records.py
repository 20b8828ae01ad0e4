"""Reading the two files of the skill measurement. Rows that cannot be understood are left out and counted."""

from __future__ import annotations

import csv
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from leafturn.weather import quality
from leafturn.weather.record import DailyRecord

LEAST_YEAR, MOST_YEAR = 1500, 2500
COLUMNS = {"observations": ("site", "year", "day_of_year"), "weather": ("site", "date", "tmin_c", "tmax_c")}


class Unusable(Exception):
    """A file that cannot be used, with one plain sentence."""


@dataclass(frozen=True)
class Read:
    """Values by site, and plain sentences on what was left out."""

    by_site: dict
    remarks: tuple[str, ...] = ()


def read_observations(path: Path) -> Read:
    """Days of the year by site and year."""
    by_site: dict[str, dict[int, int]] = {}
    left_out: list[int] = []
    for line, (site, year, day) in rows(path, COLUMNS["observations"]):
        try:
            if not site or not LEAST_YEAR <= int(year) <= MOST_YEAR or not -200 <= int(day) <= 400:
                raise ValueError
            by_site.setdefault(site, {}).setdefault(int(year), int(day))
        except ValueError:
            left_out.append(line)
    return Read(by_site, _remark(path, left_out, "site,year,day_of_year such as Weir,2014,97"))


def read_weather(path: Path) -> Read:
    """Daily records by site. Empty cells are gaps; impossible values are set aside."""
    dates: dict[str, list[str]] = {}
    values: dict[str, list[tuple[float, float]]] = {}
    left_out: list[int] = []
    for line, (site, date, tmin, tmax) in rows(path, COLUMNS["weather"]):
        try:
            if not site or len(date) != 10 or date[4] != "-" or date[7] != "-":
                raise ValueError
            pair = (float(tmin) if tmin else np.nan, float(tmax) if tmax else np.nan)
        except ValueError:
            left_out.append(line)
            continue
        dates.setdefault(site, []).append(date)
        values.setdefault(site, []).append(pair)
    by_site = {}
    for site, written in dates.items():
        try:
            by_site[site] = _record(np.array(written, dtype="datetime64[D]"), np.array(values[site]))
        except ValueError:
            raise Unusable(f"{path.name}: a date of {site} is no day of the calendar.") from None
    return Read(by_site, _remark(path, left_out, "site,date,tmin_c,tmax_c such as Weir,2014-04-07,3.1,12.8"))


def _record(dates: np.ndarray, values: np.ndarray) -> DailyRecord:
    first = dates.min()
    columns = np.full((2, int((dates.max() - first).astype(int)) + 1), np.nan)
    columns[:, (dates - first).astype(int)] = values.T
    rain = np.full(columns.shape[1], np.nan)
    day = first.astype(object)
    return quality.check(DailyRecord(first=day, tmin=columns[0], tmax=columns[1], rain=rain))


def rows(path: Path, wanted: Sequence[str]) -> Iterator[tuple[int, list[str]]]:
    """Line numbers and the wanted cells of each row.

    Raises
    ------
    Unusable
        If the file cannot be read, or lacks a column.
    """
    try:
        with path.open(encoding="utf-8-sig", newline="") as file:
            lines = csv.reader(file)
            header = [cell.strip().lower() for cell in next(lines, [])]
            missing = [name for name in wanted if name not in header]
            if missing:
                raise Unusable(
                    f"{path.name}, line 1: no column is named {' or '.join(missing)}. "
                    f"Begin with {','.join(wanted)}."
                )
            places = [header.index(name) for name in wanted]
            last = max(places)
            for row in lines:
                if len(row) > last:
                    yield lines.line_num, [row[place].strip() for place in places]
                elif row:
                    yield lines.line_num, [""] * len(places)
    except (OSError, UnicodeDecodeError, csv.Error) as error:
        raise Unusable(f"{path.name} cannot be read: {error}.") from None


def _remark(path: Path, left_out: list[int], example: str) -> tuple[str, ...]:
    if not left_out:
        return ()
    rows = "1 row" if len(left_out) == 1 else f"{len(left_out)} rows"
    return (f"{path.name}: {rows} left out, the first on line {left_out[0]}. Write {example}.",)
