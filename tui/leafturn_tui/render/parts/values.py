"""What all JSON answers are made of: their beginning, faults, dates, numbers, and the text itself."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Mapping
from functools import lru_cache
from numbers import Real
from typing import TYPE_CHECKING, Any

import msgspec

from leafturn import __version__
from leafturn.base.faults import Fault

if TYPE_CHECKING:
    from leafturn.base.date_range import Likely
    from leafturn_tui.almanac_face import AlmanacFace

Answer = dict[str, Any]

# Decimals of a number by the unit that its key ends in; what has none (chances, shares) gets three.
DECIMALS = {"metres": 2, "m": 2, "mm": 1, "percent": 1, "minutes": 1, "days": 1, "litres": 1}
OTHERS = 3
# Keys that do not name their unit: light under an open sky in percent, distances by the name of a place.
UNITS = {
    "light": "percent", "light_by_month": "percent", "full": "percent", "now": "percent", "gone": "percent",
    "later": "percent", "later_range": "percent", "points_back": "percent", "gainers": "percent",
    "trend_per_year": "percent", "seats": "metres", "roofs": "metres",
}  # fmt: skip


def json_text(answer: Mapping[str, Any]) -> str:
    """The object as text in plain ASCII, with everything in it as `plain_value` writes it."""
    return exact_json(plain_value(answer))


def exact_json(answer: Mapping[str, Any]) -> str:
    """An object of what JSON knows, with every digit of its numbers, as text in plain ASCII."""
    import json

    # Laid out by json itself it takes ten times as long.
    laid = msgspec.json.format(json.dumps(answer, allow_nan=False), indent=2)
    return laid.replace("\x7f", "\\u007f")


def shell(almanac: AlmanacFace) -> Answer:
    """What every answer begins with."""
    return {
        "leafturn": __version__,
        "garden": almanac.garden.place.name,
        "on": almanac.on,
        "faults": [fault(f) for f in almanac.faults],
        "notes": list(almanac.notes),
    }


def fields(said: object, *names: str, **others: str) -> Answer:
    """Attributes of a value as an object: some under their own names, `others` under a key of JSON's own.

    Parameters
    ----------
    names : str
        Attributes whose key is their name.
    others : str
        The attribute of each further key, as in `springs="notes"`.
    """
    return {key: getattr(said, name) for key, name in (dict(zip(names, names, strict=True)) | others).items()}


def fault(said: Fault) -> Answer:
    """One fault."""
    return fields(said, "file", "line", "message", "hint")


def unreadable(said: Fault, on: dt.date) -> Answer:
    """What is left to say of a garden that cannot be read."""
    return {
        "leafturn": __version__,
        "garden": None,
        "on": on,
        "faults": [fault(said)],
        "notes": [],
    }


def early_late(when: Likely) -> Answer:
    """The dates that leave out one year in ten at each end."""
    return fields(when, "early", "late")


def quantiles(when: Likely) -> Answer:
    """The same with the likely date between them, by their shares."""
    return fields(when, p10="early", p50="likely", p90="late")


def plain_value(value: object, unit: str = "") -> Any:
    """A value as JSON can hold it: dates as ISO, numbers finite, rounded by the unit in their key.

    Parameters
    ----------
    value : object
        Frozen values, named tuples, mappings, lists, dates, numbers, words; to any depth.
    unit : str
        That of the key it stands under, or, where this names none, of what holds it.
    """
    if value is None or isinstance(value, str | int):
        return value
    if isinstance(value, msgspec.Struct):
        value = msgspec.structs.asdict(value)
    elif isinstance(value, tuple) and hasattr(value, "_asdict"):
        value = value._asdict()
    if isinstance(value, Mapping):
        return {str(name): plain_value(part, _unit(str(name)) or unit) for name, part in value.items()}
    if isinstance(value, list | tuple):
        return [plain_value(part, unit) for part in value]
    if isinstance(value, dt.date):
        return value.isoformat()
    if isinstance(value, Real):
        return _rounded(float(value), DECIMALS.get(unit, OTHERS))
    return value


@lru_cache(maxsize=1024)
def _unit(key: str) -> str:
    """The unit that a key ends in; empty if it names none."""
    if key in UNITS:
        return UNITS[key]
    last = key.rpartition("_")[2]
    return last if last in DECIMALS else ""


def _rounded(number: float, decimals: int) -> float | int | None:
    if not math.isfinite(number):
        return None
    rounded = round(number, decimals)
    return int(rounded) if rounded.is_integer() else rounded
