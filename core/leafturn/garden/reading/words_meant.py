"""What people write in a garden file, and what of it is plain: other words for a word, numbers with a unit.

Only what can mean one thing is here. What is read by it costs no fault, as capitals cost none.
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Mapping
from typing import Any, Literal

from leafturn.base.units import METRES_IN, METRES_IN_A_FOOT

Number = Literal["whole", "any"]

# By field: what is written, and the word of the list that it means.
OTHER_WORDS: Mapping[str, Mapping[str, str]] = {
    "sex": {
        **dict.fromkeys(("f", "fem", "she", "♀"), "female"),
        **dict.fromkeys(("m", "he", "♂"), "male"),
        **dict.fromkeys(("hermaphrodite", "bisexual", "perfect", "male and female"), "both"),
    },
    "state": {
        **dict.fromkeys(("healthy", "good", "fine", "ok", "vigorous", "thriving", "alive"), "well"),
        **dict.fromkeys(("poor", "sick", "ailing", "stressed"), "weak"),
        **dict.fromkeys(("dying", "in decline", "failing"), "declining"),
        **dict.fromkeys(("dead", "standing dead", "snag"), "dead standing"),
        **dict.fromkeys(("removed", "felled", "cut down", "lost"), "gone"),
    },
    "raised": {
        **dict.fromkeys(("grafted", "budded", "grafting"), "graft"),
        **dict.fromkeys(("seed", "from seed", "seeds", "sown"), "seedling"),
        **dict.fromkeys(("cuttings", "from cutting", "from cuttings"), "cutting"),
        **dict.fromkeys(("layered", "layering"), "layer"),
    },
    "flower_order": {
        **dict.fromkeys(("protogynous", "female flowers first"), "female first"),
        **dict.fromkeys(("protandrous", "male flowers first"), "male first"),
    },
}  # fmt: skip

_NUMBER = (
    r"(?:about|ca\.?|circa|~)?\s*(?P<number>[-+]?\d{1,9}(?:[.,]\d{1,9})?)\s*"
    r"(?P<unit>[^\W\d_]+\d?|m²|ft²|[\"'])?\.?"
)
_AREAS = {"m2": 1.0, "m²": 1.0, "sqm": 1.0, "ft2": METRES_IN_A_FOOT**2, "ft²": METRES_IN_A_FOOT**2}
_HOURS = dict.fromkeys(("h", "hr", "hrs", "hour", "hours"), 1.0)
_YEARS = ("year", "years", "yr", "yrs", "y")
# How many of a key's own unit are one of each unit that may stand behind its number.
_UNITS: Mapping[str, Mapping[str, float]] = {
    "m": METRES_IN,
    "cm": {unit: 100 * metres for unit, metres in METRES_IN.items()},
    "m2": _AREAS,
    "week": _HOURS,
    "minutes": {unit: 60 * hours for unit, hours in _HOURS.items()}
    | dict.fromkeys(("min", "mins", "minute", "minutes"), 1.0),
}


def word_meant(written: str, field: str) -> str | None:
    """The word of a closed list that another word for it means; None where that is not plain."""
    return OTHER_WORDS.get(field, {}).get(written.casefold())


def number_meant(value: Any, metric_key: str, wanted: Number) -> tuple[float, bool] | None:
    """A number written as text, or a year as a date.

    Parameters
    ----------
    value : object
        As TOML gives it: "2015", "3 m", "10 ft", "2,5".
    metric_key : str
        The field: its ending tells the unit that counts.
    wanted : str
        Whether only a whole number will do.

    Returns
    -------
    (float, bool) or None
        The number, and whether it named its unit and so is in that of `metric_key`; else it is in the unit of
        the key as written. None where it is no such number.
    """
    if wanted == "whole" and isinstance(value, dt.date):
        return (float(value.year), False) if metric_key == "year" else None
    found = re.fullmatch(_NUMBER, value.strip(), re.IGNORECASE) if isinstance(value, str) else None
    if found is None:
        return None
    number, unit = float(found["number"].replace(",", ".")), (found["unit"] or "").lower()
    if wanted == "whole" and (not number.is_integer() or unit):
        return None
    if not unit or (metric_key == "age_when_planted" and unit in _YEARS):
        return number, False
    each = _UNITS.get(metric_key.rpartition("_")[2], {}).get(unit)
    return None if each is None else (number * each, True)
