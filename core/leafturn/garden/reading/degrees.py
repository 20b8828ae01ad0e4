"""Latitudes and longitudes as people write them."""

from __future__ import annotations

import re
from typing import Literal

Which = Literal["lat", "lon"]

_SIDES: dict[Which, dict[str, int]] = {
    "lat": {"n": 1, "north": 1, "s": -1, "south": -1},
    "lon": {"e": 1, "east": 1, "w": -1, "west": -1},
}
_WRITTEN = (
    r"(?P<before>[a-z]+)?\s*(?P<sign>[-+−–])?\s*(?P<degrees>\d{1,3}(?:[.,]\d{1,12})?)\s*(?:°|º|deg(?:rees?)?|d)?"
    r"(?:(?<!\d)\s*(?P<minutes>\d{1,2}(?!\d)(?:[.,]\d{1,9})?)\s*['′’]?"
    r"(?:\s*(?P<seconds>\d{1,2}(?:[.,]\d{1,9})?)\s*(?:\"|″|”|'')?)?)?\s*(?P<after>[a-z]+)?\.?"
)  # fmt: skip


def degrees_in(text: str, which: Which) -> float | None:
    """A latitude or longitude from words.

    Parameters
    ----------
    text : str
        "46.9", "-42", "46,9 N", "42 S", "W 71.1", "46°55'12\\" N".
    which : str
        "lat" or "lon": which letters may stand for its side.

    Returns
    -------
    float or None [deg]
        South and west negative; None where it is none. Its bounds are not looked at.
    """
    found = re.fullmatch(_WRITTEN, text.strip(), re.IGNORECASE)
    if found is None:
        return None
    parts = [found[name] for name in ("degrees", "minutes", "seconds")]
    numbers = [float(part.replace(",", ".")) if part else 0.0 for part in parts]
    if parts[1] and not parts[0].isdigit():
        return None  # two numbers: nobody writes minutes after a share of a degree
    sides = [side.lower() for side in (found["before"], found["after"]) if side]
    if max(numbers[1:]) >= 60 or len(sides) > 1 or (sides and found["sign"]):
        return None
    if sides and sides[0] not in _SIDES[which]:
        return None
    degrees = numbers[0] + numbers[1] / 60 + numbers[2] / 3600
    negative = _SIDES[which][sides[0]] < 0 if sides else found["sign"] in ("-", "−", "–")
    return -degrees if negative else degrees
