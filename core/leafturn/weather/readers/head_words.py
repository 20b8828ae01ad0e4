"""What the head of a column says that it holds: which quantity, in which unit.

Heads are read word by word, in whatever order and dress: `tmin_c`, `TMIN`, `temp_min`, `MinTemp`, "Minimum
temperature (°C)", `temperature_2m_min`, `T2M_MIN`, in English, and the plainest of them in German and French,
such as "Datum" and "Température maximale"; and in the short names of the daily tables of the German weather
service (TNK, TXK, RSK) and the French (TN, TX, RR), as their descriptions of the columns have them. A head
counts only if every word of it is known, so that "minimum grass temperature" or "rain rate" is left alone.
"""

from __future__ import annotations

import re
from typing import Literal

from leafturn.base.value import Value

Quantity = Literal["tmin", "tmax", "rain", "temp"]
Unit = Literal["C", "F", "mm", "in"]
DayPart = Literal["date", "time", "year", "month", "day"]


class Meaning(Value):
    """What a column holds; `unit` is None where its head does not say. "temp" is a reading at an hour."""

    quantity: Quantity
    unit: Unit | None = None


_WORDS: dict[Quantity, frozenset[str]] = {
    "tmin": frozenset(
        {"min", "minimum", "minima", "low", "lowest", "tmin", "tn", "tnk", "mint", "mintemp", "tempmin"}
        | {
            "minimal",
            "minimale",
            "mini",
            "tiefst",
            "tiefstwert",
            "tiefsttemperatur",
            "tagesminimum",
            "tagestiefsttemperatur",
        }
    ),
    "tmax": frozenset(
        {"max", "maximum", "maxima", "high", "highest", "tmax", "tx", "txk", "maxt", "maxtemp", "tempmax"}
        | {
            "maximal",
            "maximale",
            "maxi",
            "höchst",
            "höchstwert",
            "höchsttemperatur",
            "tagesmaximum",
            "tageshöchsttemperatur",
        }
    ),
    "rain": frozenset(
        {"rain", "rainfall", "prcp", "precip", "precipitation", "prec", "ppt", "rr", "rsk", "prectotcorr"}
        | {"regen", "niederschlag", "niederschlagsmenge", "pluie", "précipitation", "précipitations"}
    ),
}
_TEMPERATURE = frozenset(
    {"temp", "temperature", "temperatures", "t", "tair", "airtemp"}
    | {"temperatur", "lufttemperatur", "température", "températures"}
)
_BESIDE = frozenset(
    {"air", "daily", "day", "deg", "degree", "degrees", "of", "the", "sum", "total", "24", "h"}
)
_UNITS: dict[str, Unit] = {
    **dict.fromkeys(("c", "celsius", "degc", "centigrade"), "C"),
    **dict.fromkeys(("f", "fahrenheit", "degf"), "F"),
    **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeter", "millimeters"), "mm"),
    **dict.fromkeys(("in", "inch", "inches"), "in"),
}
_UNITS_OF_NAMES: dict[str, Unit] = {"tnk": "C", "txk": "C", "rsk": "mm"}  # of a service that has no others
_FITTING = {"rain": ("mm", "in")}
_DAY_PARTS: dict[str, DayPart] = {
    **dict.fromkeys(("date", "datetime", "date time", "timestamp", "observation date", "obs date"), "date"),
    **dict.fromkeys(("local date", "date local", "date utc", "date time utc", "date time local"), "date"),
    **dict.fromkeys(("datum", "mess datum", "aaaammjj"), "date"),
    **dict.fromkeys(("uhrzeit", "heure"), "time"),
    **dict.fromkeys(("jahr", "année"), "year"),
    **dict.fromkeys(("monat", "mois"), "month"),
    **dict.fromkeys(("tag", "jour"), "day"),
    **dict.fromkeys(("time", "hour", "local time", "time local", "time utc"), "time"),
    **dict.fromkeys(("year", "yyyy", "yr"), "year"),
    **dict.fromkeys(("month", "mo", "mon"), "month"),
    **dict.fromkeys(("day", "dy", "dd"), "day"),
}


def words_of(head: str) -> list[str]:
    """The words of a head in small letters, without what parts them and the 2 m a sensor hangs at."""
    parted = re.sub(r"(?<=[a-z])(?=[A-Z])", " ", head.replace("°", " deg ").replace("º", " deg "))
    words = re.findall(r"[^\W\d_]+|\d+", parted.lower())
    pairs = [place for place in range(len(words) - 1) if words[place : place + 2] == ["2", "m"]]
    return [word for place, word in enumerate(words) if place not in pairs and place - 1 not in pairs]


def unit_of(text: str) -> Unit | None:
    """The unit that a few letters name, as in "°C" or "mm"; None where they name none."""
    units = [_UNITS[word] for word in words_of(text) if word in _UNITS]
    return units[0] if len(units) == 1 else None


def meaning_of(head: str) -> Meaning | None:
    """What weather a column holds by its head; None where its words are not all known."""
    words = words_of(head)
    units = {_UNITS.get(word) or _UNITS_OF_NAMES.get(word) for word in words} - {None}
    rest = {word for word in words if word not in _UNITS} - _BESIDE
    named: list[Quantity] = [quantity for quantity, known in _WORDS.items() if rest & known]
    bare = {word for word in rest if not any(word in known for known in _WORDS.values())}
    quantity = named[0] if len(named) == 1 else "temp" if not named and bare else None
    allowed = frozenset[str]() if quantity == "rain" else _TEMPERATURE
    if quantity is None or len(units) > 1 or not bare <= allowed:
        return None
    unit = next(iter(units), None)
    if unit is not None and unit not in _FITTING.get(quantity, ("C", "F")):
        return None
    return Meaning(quantity=quantity, unit=unit)


def day_part_of(head: str) -> DayPart | None:
    """Which part of a date a column holds by its head, or None."""
    return _DAY_PARTS.get(" ".join(words_of(head)))
