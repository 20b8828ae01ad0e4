"""Reading a station file of GHCN-Daily with a column an element, as its archive hands it out for one station.

STATION and DATE lead the heads; each element has its value in tenths, and beside it a column of attributes:
measurement flag, quality flag and source flag with commas between. Elements that are not used, and days
that know only rain or only a mean, do no harm.

References
----------
.. [1] Menne, M. J., I. Durre, R. S. Vose, B. E. Gleason and T. G. Houston (2012). An overview of the Global
   Historical Climatology Network-Daily database. J. Atmos. Oceanic Technol. 29: 897-910.
.. [2] The archive's `readme.txt`, section III, for units and flags; the columns are those of its files by
   station.
"""

from __future__ import annotations

import csv
import datetime as dt

from leafturn.weather.readers.columns_read import NOT_USED, ColumnRead
from leafturn.weather.readers.file_rows import WeatherReading
from leafturn.weather.readers.ghcn_values import ELEMENTS, StationValues, column_words, day_of

_ATTRIBUTES = "_ATTRIBUTES"
LONGEST_HEADS = 20_000  # characters; those of a station with every element have under 4,000


def is_ghcn_table(text: str) -> bool:
    """Whether a file begins like a station file of the archive with a column an element."""
    heads = _heads(text)
    return {"STATION", "DATE"} <= set(heads) and any(element + _ATTRIBUTES in heads for element in ELEMENTS)


def _heads(text: str) -> list[str]:
    lines = text[:LONGEST_HEADS].lstrip().splitlines()
    return [head.strip().upper() for head in _cells(lines[0])] if lines else []


def _cells(line: str) -> list[str]:
    """The cells of a line; none if quote marks in it make no sense."""
    try:
        return next(csv.reader([line]), [])
    except csv.Error:
        return []


def read_ghcn_table(text: str, name: str) -> WeatherReading:
    """Read a station file of GHCN-Daily with a column an element.

    Parameters and result as in `leafturn.weather.readers.csv.read_csv_text`.
    """
    heads = _heads(text)
    values = StationValues(name)
    date = heads.index("DATE")
    elements = [
        (
            heads.index(element),
            heads.index(element + _ATTRIBUTES) if element + _ATTRIBUTES in heads else None,
            quantity,
        )
        for element, quantity in ELEMENTS.items()
        if element in heads
    ]
    first = (heads.index("STATION"), "")
    lines = text.splitlines()
    begun = next(number for number, line in enumerate(lines) if line.strip())
    for number, line in enumerate(lines[begun + 1 :], begun + 2):
        if not line.strip():
            continue
        cells = _cells(line)
        if len(cells) != len(heads):
            said = (
                f"{len(cells)} cells where the first line names {len(heads)} columns; the row was left out."
            )
            values.left_out.add(number, "cells", said)
            continue
        first = (first[0], first[1] or cells[first[0]])
        if cells[first[0]] != first[1]:
            said = (
                f"the station {cells[first[0]][:20]} is another than {first[1][:20]}; its rows were left out."
            )
            values.left_out.add(number, "station", said, "Keep one station a file.")
            continue
        try:
            day = _day(cells[date])
            for place, attributes, quantity in elements:
                if written := cells[place].strip():
                    flags = "" if attributes is None else cells[attributes]
                    values.take(day, quantity, int(written), _quality(flags))
        except ValueError:
            said = "a date or a number is not as the archive writes it; the row was left out."
            values.left_out.add(number, "value", said)
    return values.reading(_columns(heads))


def _day(cell: str) -> dt.date:
    year, month, day = cell.strip().split("-")
    return day_of(int(year), int(month), int(day))


def _quality(attributes: str) -> str:
    """The quality flag among a value's attributes; empty where it passed every check."""
    flags = attributes.split(",")
    return flags[1].strip() if len(flags) > 1 else ""


def _columns(heads: list[str]) -> tuple[ColumnRead, ...]:
    words = {element: column_words(quantity) for element, quantity in ELEMENTS.items()}
    words |= {e + _ATTRIBUTES: "flags: what the archive doubts is a gap" for e in ELEMENTS}
    words |= {"DATE": "the day", "STATION": "the station"}
    return tuple(ColumnRead(name=head, words=words.get(head, NOT_USED)) for head in heads)
