"""Amounts and temperatures as people type them."""

from __future__ import annotations

import re

from leafturn.base import quantities as spoken
from leafturn.base.faults import clipped
from leafturn.base.patterns import pattern
from leafturn.base.units import MILLIMETRES_IN_AN_INCH, fahrenheit_to_celsius
from leafturn.base.value import Value
from leafturn_tui.notes import NotUnderstood

_AMOUNT = pattern(r"\s*(\d+(?:[.,]\d+)?)\s*([^\d\s.,].*)?", re.DOTALL)
_RAIN = pattern(r"\s*(\d+(?:[.,]\d+)?)\s*(mm|millimet(?:re|er)s?|cm|in|inch|inches|\")?\s*", re.IGNORECASE)
_DEGREES = pattern(r"\s*([-−+]?\d+(?:[.,]\d+)?)\s*(?:°|degrees?\b)?\s*([cCfF]?)\s*")


class Amount(Value, kw_only=False):
    """A picked amount: kilograms where the unit tells them, and the words as typed."""

    kg: float | None
    words: str


def amount(text: str) -> Amount:
    """Read "4.5 kg", "10 lb", "300 g" or anything else ("2 baskets"), which is kept in words."""
    text = text.strip()
    found = _AMOUNT.fullmatch(text)
    if not found:
        return Amount(None, text)
    number, unit = float(found[1].replace(",", ".")), (found[2] or "").strip().lower()
    factor = {
        **dict.fromkeys(("kg", "kilo", "kilos"), 1.0), "g": 0.001,
        **dict.fromkeys(("lb", "lbs", "pound", "pounds"), spoken.KILOGRAMS_IN_A_POUND),
    }.get(unit)  # fmt: skip
    return Amount(None if factor is None else round(number * factor, 3), text)


def is_weight(text: str) -> bool:
    """Whether these words are a weight and nothing else."""
    return amount(text).kg is not None


def celsius(text: str) -> float:
    """Read "58", "58 C" or "136F" as degrees Celsius; a bare number is of the degrees that are spoken."""
    found = _DEGREES.fullmatch(text)
    if not found:
        raise NotUnderstood(f"{clipped(text)!r} is no temperature; write 58 or 136F")
    degrees = float(found[1].replace(",", ".").replace("−", "-"))
    if (found[2] or spoken.celsius_unit()).lower() == "f":
        degrees = fahrenheit_to_celsius(degrees)
    if not -60 <= degrees <= 120:
        raise NotUnderstood(f"{spoken.celsius(degrees)} is no temperature of a garden; write 58 or 136F")
    return round(degrees, 1)


def is_temperature(text: str) -> bool:
    """Whether these words are a number of degrees and nothing else."""
    return _DEGREES.fullmatch(text) is not None


def millimetres(text: str) -> float:
    """Read rain: "12", "12 mm", "1.2 cm" or "0.5 in" as millimetres; a bare number is of what is spoken."""
    found = _RAIN.fullmatch(text)
    if not found:
        raise NotUnderstood(f"{clipped(text)!r} is no amount of rain; write rain 12 or rain 0.5in")
    unit = (found[2] or ("in" if spoken.spoken() == "us" else "mm")).lower()
    factor = 10.0 if unit == "cm" else MILLIMETRES_IN_AN_INCH if unit[0] in 'i"' else 1.0
    return round(float(found[1].replace(",", ".")) * factor, 1)
