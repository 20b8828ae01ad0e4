"""Feet, inches and degrees Fahrenheit beside metres, millimetres and degrees Celsius.

A key of the garden file may be written in either: ``height_ft`` for ``height_m``. The factors are exact by
definition.

References
----------
Thompson and Taylor 2008, Guide for the Use of the International System of Units, NIST Special Publication
811, appendix B.8: 1 ft = 0.3048 m, 1 in = 25.4 mm, 1 yd = 0.9144 m, t/degC = (t/degF - 32)/1.8.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any, TypeVar

from leafturn.base.value import Value

if TYPE_CHECKING:  # so that words are told without numpy
    from leafturn.base.arrays import FloatArray

_Number = TypeVar("_Number", float, "FloatArray")

METRES_IN_A_FOOT = 0.3048
METRES_IN_A_YARD = 0.9144
MILLIMETRES_IN_AN_INCH = 25.4
CENTIMETRES_IN_AN_INCH = 2.54


METRES_IN: Mapping[str, float] = {
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), 1.0),
    **dict.fromkeys(("cm", "centimetre", "centimetres", "centimeter", "centimeters"), 0.01),
    **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeter", "millimeters"), 0.001),
    **dict.fromkeys(("ft", "foot", "feet", "'"), METRES_IN_A_FOOT),
    **dict.fromkeys(("in", "inch", "inches", '"'), MILLIMETRES_IN_AN_INCH / 1000),
    **dict.fromkeys(("yd", "yard", "yards"), METRES_IN_A_YARD),
}
"""Metres in each unit of length that may be written, by its words."""


def fahrenheit_to_celsius(degrees_fahrenheit: _Number) -> _Number:
    """A temperature [degF] in degrees Celsius."""
    return (degrees_fahrenheit - 32.0) / 1.8


def celsius_to_fahrenheit(degrees_celsius: float) -> float:
    """A temperature [degC] in degrees Fahrenheit."""
    return degrees_celsius * 1.8 + 32.0


def fahrenheit_difference_to_celsius(degrees_fahrenheit: _Number) -> _Number:
    """A difference of temperatures [degF] in degrees Celsius: 1.8 degF is 1 degC."""
    return degrees_fahrenheit / 1.8


def feet_to_metres(feet: _Number) -> _Number:
    """A length [ft] in metres."""
    return feet * METRES_IN_A_FOOT


def square_feet_to_square_metres(square_feet: _Number) -> _Number:
    """An area [ft2] in square metres."""
    return square_feet * METRES_IN_A_FOOT**2


def inches_to_millimetres(inches: _Number) -> _Number:
    """A length or a depth of rain [in] in millimetres."""
    return inches * MILLIMETRES_IN_AN_INCH


def inches_to_centimetres(inches: _Number) -> _Number:
    """A length [in] in centimetres."""
    return inches * CENTIMETRES_IN_AN_INCH


class Twin(Value, kw_only=False):
    """A key in feet, inches or degrees Fahrenheit, and the metric key it stands for.

    Parameters
    ----------
    key, metric_key : str
        As written in a garden file: ``height_ft``, ``height_m``.
    convert : callable
        Takes one number in the unit of `key`, gives it in that of `metric_key`.
    """

    key: str
    metric_key: str
    convert: Callable[[float], float]


# The twin of every metric key in the garden file. A guard's height is in centimetres, a tree's in metres.
TWINS: Mapping[str, Twin] = {
    twin.metric_key: twin
    for twin in (
        Twin("at_ft", "at", feet_to_metres),
        Twin("bay_ft", "bay_m", feet_to_metres),
        Twin("size_ft", "size_m", feet_to_metres),
        Twin("crown_ft", "crown_m", feet_to_metres),
        Twin("frost_pocket_f", "frost_pocket_c", fahrenheit_difference_to_celsius),
        Twin("height_ft", "height_m", feet_to_metres),
        Twin("height_in", "height_cm", inches_to_centimetres),
        Twin("how_far_ft", "how_far_m", feet_to_metres),
        Twin("line_ft", "line", feet_to_metres),
        Twin("pace_ft", "pace_m", feet_to_metres),
        Twin("patch_ft2", "patch_m2", square_feet_to_square_metres),
        Twin("rain_in", "rain_mm", inches_to_millimetres),
        Twin("reach_ft", "reach_m", feet_to_metres),
        Twin("tmax_f", "tmax_c", fahrenheit_to_celsius),
        Twin("tmin_f", "tmin_c", fahrenheit_to_celsius),
        Twin("trunk_in", "trunk_cm", inches_to_centimetres),
        Twin("warming_f_per_decade", "warming_c_per_decade", fahrenheit_difference_to_celsius),
    )
}


def in_metric(value: Any, convert: Callable[[float], float]) -> Any:
    """`value` with every number in it converted; lists keep their shape, anything else stays as it is."""
    if isinstance(value, list):
        return [in_metric(item, convert) for item in value]
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        return convert(value)
    return value
