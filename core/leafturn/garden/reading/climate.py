"""The climate a garden file gives: monthly normals and frost dates, under [climate] or [place]."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import msgspec

from leafturn.base.bounds import COLDEST_AIR_C, HOTTEST_AIR_C
from leafturn.base.day_words import MONTHS
from leafturn.base.units import TWINS
from leafturn.garden.model import Climate
from leafturn.garden.reading.frost_dates import frost_table
from leafturn.garden.reading.tables import Spot, known_keys, read_table

CLIMATE_KEYS = frozenset(known_keys(Climate))

# The wettest month ever measured had 9,300 mm (WMO archive of weather extremes; from memory). What lies
# beyond these is a slip of the pen.
_OF_AIR = (COLDEST_AIR_C, HOTTEST_AIR_C)
_BOUNDS = {"tmax_c": _OF_AIR, "tmin_c": _OF_AIR, "rain_mm": (0.0, 10_000.0)}
_FROSTS = ("last_frost", "first_frost")


def read_climate(sources: Sequence[tuple[Mapping[str, Any], Spot]]) -> Climate | None:
    """One climate from all tables that speak of it.

    Parameters
    ----------
    sources : sequence of (mapping, Spot)
        The tables, the weightiest first: what it gives is kept where another differs.

    Returns
    -------
    Climate or None
        None if the file says nothing of it.
    """
    merged: Climate | None = None
    givers: dict[str, Spot] = {}
    for table, spot in sources:
        part = _read_part(table, spot)
        given = {
            field: getattr(part, field)
            for field in Climate.__struct_fields__
            if getattr(part, field) is not None
        }
        for field in sorted(set(given) & set(givers)):
            lines = givers[field].line(field), spot.line(field)
            spot.add_fault(
                f"{field} is given twice, on lines {lines[0]} and {lines[1]}; the first is used.",
                "Keep one of them.",
                field,
            )
            del given[field]
        givers.update(dict.fromkeys(given, spot))
        merged = msgspec.structs.replace(merged or Climate(), **given)
    return merged


def _read_part(table: Mapping[str, Any], spot: Spot) -> Climate:
    ready = dict(table)
    for frost in _FROSTS:
        if frost in ready:
            date = frost_table(ready[frost], spot.inside(frost), frost)
            if date is None:
                del ready[frost]
            else:
                ready[frost] = date
    climate = read_table(ready, Climate, spot, "climate") or Climate()
    wrong = {
        key
        for key, (lowest, highest) in _BOUNDS.items()
        if not _fits(getattr(climate, key), key, lowest, highest, table, spot)
    }
    if not wrong and climate.tmax_c and climate.tmin_c:
        crossed = [
            month
            for month, low, high in zip(MONTHS, climate.tmin_c, climate.tmax_c, strict=True)
            if low > high
        ]
        if crossed:
            low, high = _written("tmin_c", table), _written("tmax_c", table)
            spot.add_fault(
                f"{low} (line {spot.line(low)}) lies above {high} (line {spot.line(high)}) in "
                f"{', '.join(crossed)}; both are left out.",
                "tmin is the usual night, tmax the usual day.",
                low,
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
) -> bool:
    """Whether a monthly list holds twelve numbers that can be."""
    if values is None:
        return True
    key_written = _written(key, table)
    if len(values) != 12:
        spot.add_fault(
            f"{key_written} holds {len(values)} numbers; it is left out.",
            "Write twelve, January first.",
            key_written,
        )
        return False
    beyond = [value for value in values if not lowest <= value <= highest]
    if beyond:
        unit = "mm" if key == "rain_mm" else "C"
        spot.add_fault(
            f"{key_written} holds {beyond[0]:.5g} {unit}, which no month has had; it is left out.",
            "Check the numbers and their unit.",
            key_written,
        )
    return not beyond
