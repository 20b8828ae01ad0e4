"""What all JSON answers are made of: their beginning, faults, dates, numbers, and the text itself."""

from __future__ import annotations

import dataclasses
import datetime as dt
import json
import math
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from leafturn import __version__
from leafturn.base.faults import Fault

if TYPE_CHECKING:
    from leafturn.base.date_range import Likely
    from leafturn_tui.almanac_face import AlmanacFace

Answer = dict[str, Any]


def json_text(answer: Mapping[str, Any]) -> str:
    """The object as text in plain ASCII."""
    return json.dumps(answer, indent=2, allow_nan=False).replace("\x7f", "\\u007f")


def shell(almanac: AlmanacFace) -> Answer:
    """What every answer begins with."""
    return {
        "leafturn": __version__,
        "garden": almanac.garden.place.name,
        "on": almanac.on.isoformat(),
        "faults": [fault(f) for f in almanac.faults],
        "notes": list(almanac.notes),
    }


def fault(said: Fault) -> Answer:
    """One fault."""
    return {"file": said.file, "line": said.line, "message": said.message, "hint": said.hint}


def unreadable(said: Fault, on: dt.date) -> Answer:
    """What is left to say of a garden that cannot be read."""
    return {
        "leafturn": __version__,
        "garden": None,
        "on": on.isoformat(),
        "faults": [fault(said)],
        "notes": [],
    }


def iso(day: dt.date | None) -> str | None:
    return None if day is None else day.isoformat()


def early_late(when: Likely) -> Answer:
    return {"early": iso(when.early), "late": iso(when.late)}


def quantiles(when: Likely) -> Answer:
    return {"p10": iso(when.early), "p50": iso(when.likely), "p90": iso(when.late)}


def number(value: float | None) -> float | int | None:
    """A finite number with at most three decimals, else null."""
    if value is None or not math.isfinite(value):
        return None
    rounded = round(float(value), 3)
    return int(rounded) if rounded.is_integer() else rounded


def plain_value(value: object) -> Any:
    """A frozen value as JSON can hold it: dates as ISO, numbers finite and with three decimals at most."""
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return {f.name: plain_value(getattr(value, f.name)) for f in dataclasses.fields(value)}
    if isinstance(value, tuple) and hasattr(value, "_fields"):
        return {name: plain_value(part) for name, part in zip(value._fields, value, strict=True)}
    if isinstance(value, Mapping):
        return {str(key): plain_value(part) for key, part in value.items()}
    if isinstance(value, list | tuple):
        return [plain_value(part) for part in value]
    if isinstance(value, dt.date):
        return value.isoformat()
    if isinstance(value, float):
        rounded = round(value, 3) if math.isfinite(value) else None
        return int(rounded) if rounded is not None and rounded.is_integer() else rounded
    return value
