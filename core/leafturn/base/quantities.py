"""The words of every quantity that is told: metres or feet, Celsius or Fahrenheit.

Values are metric throughout; only their words follow the garden. Which units are spoken is settled once for
the process, as a language is: by whoever opens a garden for a person to read (`speak`). Until then they are
metric.

What is told in US units has no more figures than it had in metric: whole degrees, whole feet from three on.
`digits` are the decimals of the metric number; None leaves it those it was written with.

References
----------
Thompson and Taylor 2008, Guide for the Use of the International System of Units, NIST Special Publication
811, appendix B.8: 1 gal (US) = 3.785412 L, 1 lb = 0.45359237 kg, 1 oz = 28.34952 g, 1 mi = 1.609344 km.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Literal

from leafturn.base.units import (
    CENTIMETRES_IN_AN_INCH,
    METRES_IN_A_FOOT,
    MILLIMETRES_IN_AN_INCH,
    celsius_to_fahrenheit,
)

Units = Literal["metric", "us"]

KILOGRAMS_IN_A_POUND = 0.45359237
GRAMS_IN_AN_OUNCE = 28.34952
LITRES_IN_A_GALLON = 3.785412
KILOMETRES_IN_A_MILE = 1.609344

_spoken: Units = "metric"


def speak(units: Units) -> None:
    """From now on tell quantities in these units."""
    global _spoken
    _spoken = units


@contextmanager
def speaking(units: Units) -> Iterator[None]:
    """For a while tell quantities in these units."""
    before = _spoken
    speak(units)
    try:
        yield
    finally:
        speak(before)


def spoken() -> Units:
    """The units in which quantities are told."""
    return _spoken


def number(value: float, digits: int | None) -> str:
    """A number with so many decimals, None for those it has, two at most; never a minus before nought."""
    text = f"{round(value, 2):g}" if digits is None else f"{value:.{digits}f}"
    return text.removeprefix("-") if not text.strip("-0.") else text


def _us() -> bool:
    return _spoken == "us"


def _few(value: float, whole_from: float) -> str:
    """A number in US units: whole from somewhere on, below that with one decimal that is not nought."""
    return number(value, 0 if abs(value) >= whole_from else 1).removesuffix(".0")


def metres(value: float, digits: int | None = 1) -> str:
    """A length [m]: "3.2 m", "10 ft"."""
    return f"{bare_metres(value, digits)} {metres_unit()}"


def bare_metres(value: float, digits: int | None = 1) -> str:
    """The number of a length [m] alone, for columns and ranges."""
    return _few(value / METRES_IN_A_FOOT, 0.0 if digits == 0 else 3.0) if _us() else number(value, digits)


def metres_unit() -> str:
    """The unit of `bare_metres`."""
    return "ft" if _us() else "m"


def centimetres(value: float, digits: int | None = 0) -> str:
    """A thickness or depth [cm]: "18 cm", "7 in"."""
    return f"{_few(value / CENTIMETRES_IN_AN_INCH, 3.0)} in" if _us() else f"{number(value, digits)} cm"


def kilometres(value: float) -> str:
    """A way [km]: "12 km", "7 mi"."""
    return f"{bare_kilometres(value)} {kilometres_unit()}"


def bare_kilometres(value: float) -> str:
    """The number of a way [km] alone."""
    return number(value / KILOMETRES_IN_A_MILE if _us() else value, 0)


def kilometres_unit() -> str:
    """The unit of `bare_kilometres`."""
    return "mi" if _us() else "km"


def celsius(value: float, digits: int | None = 1) -> str:
    """A temperature [degC]: "-2.2 C", "28 F"."""
    return f"{bare_celsius(value, digits)} {celsius_unit()}"


def bare_celsius(value: float, digits: int | None = 1) -> str:
    """The number of a temperature [degC] alone."""
    return number(celsius_to_fahrenheit(value), 0) if _us() else number(value, digits)


def celsius_unit() -> str:
    """The unit of `bare_celsius`."""
    return "F" if _us() else "C"


def degrees(difference: float, digits: int | None = 1) -> str:
    """A difference of temperatures [degC]: "1.5 C", "2.7 F"."""
    return f"{bare_degrees(difference, digits)} {celsius_unit()}"


def bare_degrees(difference: float, digits: int | None = 1) -> str:
    """The number of a difference of temperatures [degC] alone."""
    return number(difference * 1.8, 1 if digits is None else digits) if _us() else number(difference, digits)


def millimetres(value: float, digits: int | None = 0) -> str:
    """Rain, or water in the ground [mm]: "12 mm", "0.5 in"."""
    return f"{bare_millimetres(value, digits)} {'in' if _us() else 'mm'}"


def bare_millimetres(value: float, digits: int | None = 0) -> str:
    """The number of an amount of rain [mm] alone."""
    if not _us():
        return number(value, digits)
    inches = value / MILLIMETRES_IN_AN_INCH
    return number(inches, 1 if abs(inches) >= 0.95 or not inches else 2).removesuffix(".0")


def litres(value: float) -> str:
    """A volume [l]: "20 litres", "5.3 gallons"."""
    return f"{bare_litres(value)} {'gallons' if _us() else 'litres'}"


def bare_litres(value: float) -> str:
    """The number of a volume [l] alone."""
    return _few(value / LITRES_IN_A_GALLON, 10.0) if _us() else number(value, 0)


def litres_noun() -> str:
    """The unit of `bare_litres` as a word that begins a sentence."""
    return "Gallons" if _us() else "Litres"


def litre_rule() -> str:
    """How litres are measured by depth, where they are spoken: a bracket to put behind a list of them."""
    return "" if _us() else " (a millimetre on a square metre is one)"


def litres_unit() -> str:
    """The short unit of `bare_litres`."""
    return "gal" if _us() else "l"


def kilograms(value: float, digits: int | None = None) -> str:
    """A mass [kg]: "4.5 kg", "9.9 lb"."""
    if _us():
        return f"{_few(value / KILOGRAMS_IN_A_POUND, 10.0)} lb"
    return f"{number(value, digits)} kg"


def grams(value: float) -> str:
    """A small mass [g], a guess: "60 g", "2 oz"."""
    return f"{bare_grams(value)} {'oz' if _us() else 'g'}"


def bare_grams(value: float) -> str:
    """The number of a small mass [g] alone, with two figures."""
    return _few(value / GRAMS_IN_AN_OUNCE, 3.0) if _us() else f"{float(f'{value:.2g}'):g}"


def square_metres(value: float, digits: int | None = 0) -> str:
    """An area [m2]: "6 m2", "65 sq ft"."""
    if _us():
        return f"{number(value / METRES_IN_A_FOOT**2, 0)} sq ft"
    return f"{number(value, digits)} m2"


def heat(value: float) -> int:
    """A sum of degree-days [degC d] as a whole number of those that are spoken."""
    return round(value * 1.8 if _us() else value)


def heat_growth(metres_per_100: float) -> str:
    """Growth [m for every 100 degC d]: "0.5 m for every 100 degree-days"."""
    said = metres(metres_per_100 / 1.8) if _us() else f"{metres_per_100:g} m"
    return f"{said} for every 100 degree-days"


_IN_WORDS = {"a metre": "three feet"}  # lengths that packaged sentences tell without a figure
_WRITTEN = (
    r"(?P<first>-?\d+(?:\.\d+)?)(?:(?P<joint> to | or | and |-)(?P<last>-?\d+(?:\.\d+)?))?"
    r" (?P<unit>mm|cm|m|C|kg|litres|km|degree-days)\b"
)


def retold(text: str, units: Units | None = None) -> str:
    """A packaged sentence, which is written in metric, in other units.

    Its numbers are round ones of books and rules of thumb, so that what they come to is rounded too.

    Parameters
    ----------
    text : str
    units : str or None
        By default those that are spoken.
    """
    with speaking(units or _spoken):
        if not _us():
            return text
        for metric, instead in _IN_WORDS.items():
            text = text.replace(metric, instead)
        return re.sub(_WRITTEN, _retold, text)


def _small_length(value: float) -> str:
    """A length [mm] of packaged sentences, a mesh or a hole, in inches as the trade writes them: "1/4 in"."""
    eighths = max(round(value / MILLIMETRES_IN_AN_INCH * 8), 1)
    whole, part = divmod(eighths, 8)
    divisor = math.gcd(part, 8)
    fraction = f"{part // divisor}/{8 // divisor}" if part else ""
    return f"{' '.join(said for said in (f'{whole}' if whole else '', fraction) if said)} in"


def _retold(found: re.Match[str]) -> str:
    say: Callable[[float], str] = {
        "mm": _small_length, "cm": centimetres, "m": metres, "C": lambda value: celsius(value, 0),
        "kg": kilograms, "litres": litres, "km": kilometres,
        "degree-days": lambda value: f"{heat(value)} degree-days",
    }[found["unit"]]  # fmt: skip
    if found["last"] is None:
        return say(float(found["first"]))
    first = say(float(found["first"])).rpartition(" ")[0]
    return f"{first}{found['joint']}{say(float(found['last']))}"
