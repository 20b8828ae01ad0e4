"""The points of a table: comma, semicolon or tab between columns, their names in the first line."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence

from leafturn.base.faults import Fault, Unreadable
from leafturn.garden.points.model import Marked, Surveyed

LATITUDE = ("lat", "latitude", "decimallatitude", "y")
LONGITUDE = ("lon", "lng", "long", "longitude", "decimallongitude", "x")
NAME = ("id", "name", "plant", "title", "label")
KIND = ("kind", "species", "scientificname", "type")
HINT = "Name the columns in the first line: name, lat, lon, and kind if known."


def read_table(data: bytes, file: str) -> Surveyed:
    """The points of a comma-separated table (RFC 4180); lines without numbers are counted as left out.

    Raises
    ------
    Unreadable
        If no column is called lat or lon.
    """
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        said = "this is not UTF-8 text."
        raise Unreadable(Fault(file=file, line=None, message=said, hint="Save the table as UTF-8.")) from None
    head = text.partition("\n")[0]
    between = max(",;\t", key=head.count)
    try:
        rows = list(csv.reader(io.StringIO(text, newline=""), delimiter=between))
    except csv.Error as why:
        raise Unreadable(
            Fault(file=file, line=None, message=f"the table cannot be read: {why}.", hint=HINT)
        ) from None
    names = [name.strip().casefold() for name in rows[0]] if rows else []
    latitude, longitude = _column(names, LATITUDE), _column(names, LONGITUDE)
    if latitude is None or longitude is None:
        lacks = "lat" if latitude is None else "lon"
        raise Unreadable(Fault(file=file, line=1, message=f"no column is called {lacks}.", hint=HINT))
    name, kind = _column(names, NAME), _column(names, KIND)
    body = [row for row in rows[1:] if any(cell.strip() for cell in row)]
    points = []
    for row in body:
        place = _number(_cell(row, latitude), between), _number(_cell(row, longitude), between)
        if place[0] is not None and place[1] is not None:
            points.append(
                Marked(name=_cell(row, name), kind=_cell(row, kind), latitude=place[0], longitude=place[1])
            )
    return Surveyed(points=tuple(points), left_out=len(body) - len(points))


def _column(names: Sequence[str], wanted: Sequence[str]) -> int | None:
    return next((names.index(name) for name in wanted if name in names), None)


def _cell(row: Sequence[str], column: int | None) -> str:
    return row[column].strip() if column is not None and column < len(row) else ""


def _number(text: str, between: str) -> float | None:
    """A number; where no comma parts the columns, one may part its decimals."""
    text = text.replace("\N{MINUS SIGN}", "-")  # of print, of which Python reads none
    try:
        return float(text if between == "," else text.replace(",", "."))
    except ValueError:
        return None
