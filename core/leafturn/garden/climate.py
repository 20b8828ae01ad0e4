"""The climate a garden file gives: monthly normals and frost dates, under [climate] or [place]."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Mapping, Sequence
from typing import Any

import msgspec

from leafturn.garden.fault_list import FaultList
from leafturn.garden.model import Climate
from leafturn.garden.tables import Spot, TableReader, known_keys
from leafturn.garden.units import TWINS
from leafturn.toml_words import clipped

CLIMATE_KEYS = frozenset(known_keys(Climate))

# Coldest and warmest ever measured are -89.2 and 56.7 degC, the wettest month 9,300 mm (WMO archive of
# weather extremes; from memory). A monthly mean beyond these is a slip of the pen.
_BOUNDS = {"tmax_c": (-90.0, 60.0), "tmin_c": (-90.0, 60.0), "rain_mm": (0.0, 10_000.0)}
_MONTHS = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip
_FROSTS = ("last_frost", "first_frost")
_FROST_PARTS = ("usual", "one_year_in_ten_after", "one_year_in_ten_before")


def month_and_day(value: object) -> str | None:
    """A frost date as "MM-DD".

    Parameters
    ----------
    value : object
        "04-24", "4-24", "24 April", "Apr 24", or a whole date, whose year is dropped.

    Returns
    -------
    str or None
        None if no such day is meant.
    """
    if isinstance(value, dt.date):
        return f"{value.month:02}-{value.day:02}"
    if not isinstance(value, str):
        return None
    words = value.strip().lower()
    if found := re.fullmatch(r"(?:\d{4}-)?(\d{1,2})-(\d{1,2})", words):
        month, day = int(found[1]), int(found[2])
    elif found := re.fullmatch(r"(\d{1,2})\.? ([a-z]{3,9})|([a-z]{3,9})\.? (\d{1,2})", words):
        begins = found[2] or found[3]
        months = [place for place, name in enumerate(_MONTHS, start=1) if name.lower().startswith(begins)]
        month, day = months[0] if months else 0, int(found[1] or found[4])
    else:
        return None
    try:
        dt.date(2024, month, day)  # a leap year, so that 29 February passes
    except ValueError:
        return None
    return f"{month:02}-{day:02}"


def read_climate(
    sources: Sequence[tuple[Mapping[str, Any], Spot]], reader: TableReader, faults: FaultList
) -> Climate | None:
    """One climate from all tables that speak of it.

    Parameters
    ----------
    sources : sequence of (mapping, Spot)
        The tables, the weightiest first: what it gives is kept where another differs.
    reader, faults
        Read the tables, and take what is wrong.

    Returns
    -------
    Climate or None
        None if the file says nothing of it.
    """
    merged: Climate | None = None
    givers: dict[str, Spot] = {}
    for table, spot in sources:
        part = _read_part(table, spot, reader, faults)
        given = {
            field: getattr(part, field)
            for field in Climate.__struct_fields__
            if getattr(part, field) is not None
        }
        for field in sorted(set(given) & set(givers)):
            lines = givers[field].line(field), spot.line(field)
            faults.add(
                spot.fault(
                    f"{field} is given twice, on lines {lines[0]} and {lines[1]}; the first is used.",
                    "Keep one of them.",
                    field,
                )
            )
            del given[field]
        givers.update(dict.fromkeys(given, spot))
        merged = msgspec.structs.replace(merged or Climate(), **given)
    return merged


def _read_part(table: Mapping[str, Any], spot: Spot, reader: TableReader, faults: FaultList) -> Climate:
    ready = dict(table)
    for frost in _FROSTS:
        if frost in ready:
            date = _frost_date(ready[frost], spot.inside(frost), frost, faults)
            if date is None:
                del ready[frost]
            else:
                ready[frost] = date
    climate = reader.read(ready, Climate, spot, "climate", may_lose=None) or Climate()
    wrong = {
        key
        for key, (lowest, highest) in _BOUNDS.items()
        if not _fits(getattr(climate, key), key, lowest, highest, table, spot, faults)
    }
    if not wrong and climate.tmax_c and climate.tmin_c:
        crossed = [
            month
            for month, low, high in zip(_MONTHS, climate.tmin_c, climate.tmax_c, strict=True)
            if low > high
        ]
        if crossed:
            low, high = _written("tmin_c", table), _written("tmax_c", table)
            faults.add(
                spot.fault(
                    f"{low} (line {spot.line(low)}) lies above {high} (line {spot.line(high)}) in "
                    f"{', '.join(crossed)}; both are left out.",
                    "tmin is the usual night, tmax the usual day.",
                    low,
                )
            )
            wrong = {"tmin_c", "tmax_c"}
    return msgspec.structs.replace(climate, **dict.fromkeys(wrong))


def _written(key: str, table: Mapping[str, Any]) -> str:
    """How the table spells a key: in metric or by its twin."""
    return key if key in table else TWINS[key].key


def _fits(
    values: tuple[float, ...] | None,
    key: str,
    lowest: float,
    highest: float,
    table: Mapping[str, Any],
    spot: Spot,
    faults: FaultList,
) -> bool:
    """Whether a monthly list holds twelve numbers that can be."""
    if values is None:
        return True
    key_written = _written(key, table)
    if len(values) != 12:
        faults.add(
            spot.fault(
                f"{key_written} holds {len(values)} numbers; it is left out.",
                "Write twelve, January first.",
                key_written,
            )
        )
        return False
    beyond = [value for value in values if not lowest <= value <= highest]
    if beyond:
        unit = "mm" if key == "rain_mm" else "C"
        faults.add(
            spot.fault(
                f"{key_written} holds {beyond[0]:.5g} {unit}, which no month has had; it is left out.",
                "Check the numbers and their unit.",
                key_written,
            )
        )
    return not beyond


def _frost_date(value: object, spot: Spot, frost: str, faults: FaultList) -> dict[str, Any] | None:
    """The table of one frost date with its dates as "MM-DD"; None if its usual day is not to be had."""
    table = dict(value) if isinstance(value, dict) else {"usual": value}
    for part in _FROST_PARTS:
        if part not in table:
            continue
        date = month_and_day(table[part])
        if date is None:
            faults.add(
                spot.fault(
                    f"{frost} {clipped(str(table[part]), 40)!r} is not a day of the year; it is left out.",
                    f'Write "{_swapped(table[part]) or "04-24"}" (month-day).',
                    part,
                )
            )
            del table[part]
        else:
            table[part] = date
    if "usual" not in table:
        if isinstance(value, dict) and "usual" not in value:
            faults.add(
                spot.fault(
                    f"{frost} has no usual day; it is left out.", f'Write {frost} = {{ usual = "04-24" }}'
                )
            )
        return None
    _drop_wrong_side(table, spot, frost, faults)
    return table


def _swapped(value: object) -> str | None:
    """A day written before its month, the right way round."""
    found = re.fullmatch(r"\s*(\d{1,2})[-./ ](\d{1,2})\.?\s*", value) if isinstance(value, str) else None
    return month_and_day(f"{found[2]}-{found[1]}") if found else None


def _drop_wrong_side(table: dict[str, Any], spot: Spot, frost: str, faults: FaultList) -> None:
    """Leave out a one-year-in-ten date that lies on the wrong side of the usual one, New Year apart."""
    for part, sign in (("one_year_in_ten_after", 1), ("one_year_in_ten_before", -1)):
        if part in table and sign * _days_from(table["usual"], table[part]) <= 0:
            faults.add(
                spot.fault(
                    f"{part} of {frost} is {table[part]}, which is not {part[16:]} the usual "
                    f"{table['usual']}; it is left out.",
                    "",
                    part,
                )
            )
            del table[part]


def _days_from(usual: str, other: str) -> int:
    """Days from one "MM-DD" to another by the shorter way round the year, -183 to 182."""
    first, second = (dt.date.fromisoformat(f"2024-{day}") for day in (usual, other))
    return ((second - first).days + 183) % 366 - 183
