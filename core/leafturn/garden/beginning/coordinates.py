"""Latitude and longitude as people write them."""

from __future__ import annotations

import re
from typing import NamedTuple

from leafturn.garden.editing.edits import NotTaken

_MINUS = str.maketrans({"−": "-", "–": "-", "′": "'", "’": "'", "″": '"', "”": '"', "º": "°"})
_ANGLE = re.compile(
    r"""\s*(?P<before>[NSEW])?\s*
    (?P<degrees>[+-]?[0-9]{1,3}(?:[.,][0-9]+)?)\s*(?:°|deg(?:rees)?)?\s*
    (?:(?P<minutes>[0-9]{1,2}(?:[.,][0-9]+)?)\s*'\s*)?
    (?:(?P<seconds>[0-9]{1,2}(?:[.,][0-9]+)?)\s*(?:"|'')\s*)?
    (?P<after>north|south|east|west|[NSEW])?(?![a-z])\s*""",
    re.VERBOSE | re.IGNORECASE,
)
MOST = {"lat": 90, "lon": 180}
EXAMPLES = "46.9N 15.9E, or 46°54' N, or 42 S, or -42.5 171.2"


class Coordinates(NamedTuple):
    """Degrees north and east; None for what was not said."""

    lat: float | None = None
    lon: float | None = None


def read_coordinates(text: str) -> Coordinates:
    """Where a place lies.

    Parameters
    ----------
    text : str
        "46.9N 15.9E", "46°54' N, 15°54' E", "42 S", "-42.5, 171.2", "46,9 15,9": both, latitude first unless
        letters say otherwise, or one of them.

    Raises
    ------
    NotTaken
        If it is not understood, or no such place is on the earth.
    """
    words = text.translate(_MINUS).strip()
    found: list[tuple[float, str]] = []
    position = 0
    while position < len(words) and len(found) < 3:
        angle = _ANGLE.match(words, position)
        if angle is None:
            raise NotTaken(f"{text.strip()!r} is not understood as a place. Write {EXAMPLES}.")
        found.append(_degrees(angle, text))
        position = angle.end()
        position += len(words[position:]) - len(words[position:].lstrip(" ,;/"))
    if not 1 <= len(found) <= 2:
        raise NotTaken(f"{text.strip()!r} is not understood as a place. Write {EXAMPLES}.")
    if len(found) == 2 and found[0][1] in ("", "lat") and found[1][1] == "":
        found[1] = (found[1][0], "lon")
    if len(found) == 2 and found[0][1] == "lon":
        found.reverse()
    kinds = [kind or "lat" for _, kind in found]
    if kinds not in (["lat"], ["lon"], ["lat", "lon"]):
        raise NotTaken(f"{text.strip()!r} names one direction twice. Write {EXAMPLES}.")
    if kinds[0] == "lat" and abs(found[0][0]) > MOST["lat"]:
        raise NotTaken(_too_far(text, "lat"))
    return Coordinates(**{kind: degrees for kind, (degrees, _) in zip(kinds, found, strict=True)})


def _degrees(angle: re.Match[str], text: str) -> tuple[float, str]:
    """Degrees, south and west negative, and "lat" or "lon" where a letter tells which."""
    letter = (angle["before"] or angle["after"] or " ")[0].upper()
    parts = [float((angle[part] or "0").replace(",", ".")) for part in ("degrees", "minutes", "seconds")]
    size = abs(parts[0]) + parts[1] / 60 + parts[2] / 3600
    kind = {"N": "lat", "S": "lat", "E": "lon", "W": "lon"}.get(letter, "")
    signed = angle["degrees"].startswith("-")
    if signed and letter in "SW":
        raise NotTaken(f"{text.strip()!r} is south or west twice over. Write 42 S or -42.")
    if size > MOST[kind or "lon"] or parts[1] >= 60 or parts[2] >= 60:
        raise NotTaken(_too_far(text, kind or "lon"))
    return round(-size if signed or letter in "SW" else size, 5), kind


def _too_far(text: str, kind: str) -> str:
    what = {"lat": "latitude", "lon": "longitude"}[kind]
    return f"{text.strip()!r} is no {what}: it goes from -{MOST[kind]} to {MOST[kind]}. Write {EXAMPLES}."
