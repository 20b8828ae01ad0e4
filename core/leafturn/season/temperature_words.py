"""Reading a night's temperature as a person types it."""

from __future__ import annotations

import re

from leafturn.base import quantities
from leafturn.base.bounds import COLDEST_AIR_C, HOTTEST_AIR_C
from leafturn.base.faults import clipped
from leafturn.base.patterns import pattern
from leafturn.base.units import fahrenheit_to_celsius

# Outside these a typed figure is asked about (rules of thumb: once buds swell few nights are that
# cold, and a warmer one hurts nothing).
ODD_BELOW_C, ODD_ABOVE_C = -15.0, 10.0

_TYPED = pattern(
    r"(?P<sign>[-+−–]|minus\b)?\s*(?P<number>\d{1,9}(?:[.,]\d{0,9})?|[.,]\d{1,9})\s*"
    r"(?:°|º|deg(?:rees?)?\b)?\s*(?P<unit>c|f|celsius|fahrenheit)?\.?",
    re.IGNORECASE,
)


class NotATemperature(ValueError):
    """What was typed cannot be read. The message is one plain sentence."""


def read_temperature(text: str) -> tuple[float, str | None]:
    """Read "-3", "-3 C", "27F", "26.6 f" or "-2,5" as the temperature of a night.

    Parameters
    ----------
    text : str
        A number with or without its unit; where it has none, of the degrees that are spoken. A comma serves
        as a point.

    Returns
    -------
    celsius : float [degC]
    question : str or None
        What to ask before it is believed; None where nothing is odd about it.

    Raises
    ------
    NotATemperature
        If it is no temperature that air can have.
    """
    found = _TYPED.fullmatch(text.strip())
    if not text.strip():
        raise NotATemperature("no temperature yet; write -3 or 27F")
    if found is None:
        shown = text.strip() if len(text.strip()) <= 40 else text.strip()[:37] + "..."
        raise NotATemperature(f"{clipped(shown)!r} is no temperature; write -3 or 27F")
    degrees = float(found["number"].replace(",", "."))
    if found["sign"] and found["sign"] != "+":
        degrees = -degrees
    usual = quantities.celsius_unit()
    in_fahrenheit = (found["unit"] or usual).lower().startswith("f")
    celsius = fahrenheit_to_celsius(degrees) if in_fahrenheit else degrees
    if not COLDEST_AIR_C <= celsius <= HOTTEST_AIR_C:
        raise NotATemperature(
            f"{quantities.celsius(celsius, 0)} has never been measured in air; write -3 or 27F"
        )
    return celsius, _question(celsius, unit_given=bool(found["unit"]))


def is_temperature(text: str) -> bool:
    """Whether these words are a number of degrees, whatever it is."""
    return _TYPED.fullmatch(text.strip()) is not None


def _question(celsius: float, *, unit_given: bool) -> str | None:
    if ODD_BELOW_C <= celsius <= ODD_ABOVE_C:
        return None
    if celsius > ODD_ABOVE_C and not unit_given and quantities.spoken() == "metric":
        as_fahrenheit = fahrenheit_to_celsius(celsius)
        if as_fahrenheit <= ODD_ABOVE_C:
            return (
                f"that is {quantities.celsius(celsius)}, no cold night; {celsius:g}F would be "
                f"{quantities.celsius(as_fahrenheit)}: sure?"
            )
    return f"that is {quantities.celsius(celsius)}{', no cold night' if celsius > ODD_ABOVE_C else ''}: sure?"
