"""The program's dates where it is told of a place and no more, against published local dates.

Rows and their sources: published_by_place.toml beside this file, in the form of published_dates.toml.
`python -m tests.checks.published_by_place` prints the misses.
"""

from __future__ import annotations

import tempfile
from functools import cache
from pathlib import Path

from tests.checks.published_dates import (
    NORMAL_YEAR,
    Miss,
    Row,
    compare,
    read_table,
    season_days,
    told,
    write_garden,
)

TABLE = Path(__file__).with_name("published_by_place.toml")


@cache
def rows_by_place() -> tuple[Row, ...]:
    """Every published row."""
    return read_table(TABLE)


@cache
def misses_by_place() -> tuple[Miss, ...]:
    """Every row against what the program says, the largest miss first."""
    found = []
    for station in {row.station.name: row.station for row in rows_by_place()}.values():
        rows = [row for row in rows_by_place() if row.station.name == station.name]
        with tempfile.TemporaryDirectory() as made:
            folder = Path(made)
            write_garden(folder, station, rows)
            years = {NORMAL_YEAR: season_days(folder, station, NORMAL_YEAR)}
        found += [compare(row, years) for row in rows]
    return tuple(sorted(found, key=lambda miss: -abs(miss.days if miss.days is not None else 365)))


def main() -> None:
    """Print every row by its miss."""
    for miss in misses_by_place():
        print(told(miss))


if __name__ == "__main__":
    main()
