"""Where a garden lies, as people write it in one line: latitude and longitude, or one of them."""

from __future__ import annotations

import re
from typing import NamedTuple

from leafturn.base.faults import clipped
from leafturn.base.patterns import pattern
from leafturn.garden.editing.edits import NotTaken
from leafturn.garden.reading.degrees import degrees_in

EXAMPLES = "46.9N 15.9E, or 46°54' N, or 42 S, or -42.5 171.2"
_MOST = {"lat": ("latitude", 90), "lon": ("longitude", 180)}
_PARTING = pattern(r"[\s,;/]+|(?<=[a-z°'\"])(?=[0-9+-])", re.IGNORECASE)


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
        letters say otherwise, or one of them; each as `degrees_in` takes it.

    Raises
    ------
    NotTaken
        If it is not understood, or no such place is on the earth.
    """
    words = text.strip()
    marked = any(mark in words for mark in "°º'′’")
    found = (_one(words) or _both(words)) if marked else (_both(words) or _one(words))
    if found is None:
        raise NotTaken(f"{clipped(words)!r} is not understood as a place. Write {EXAMPLES}, as maps tell it.")
    for which, degrees in found._asdict().items():
        name, most = _MOST[which]
        if degrees is not None and abs(degrees) > most:
            raise NotTaken(
                f"{clipped(words)!r} is no {name}: it goes from -{most} to {most}. Write {EXAMPLES}."
            )
    return found


def _one(words: str) -> Coordinates | None:
    lat = degrees_in(words, "lat")
    lon = degrees_in(words, "lon") if lat is None else None
    return None if lat is None and lon is None else Coordinates(_rounded(lat), _rounded(lon))


def _both(words: str) -> Coordinates | None:
    """Latitude and longitude, in the other order only where a letter says so."""
    for parting in _PARTING.finditer(words):
        if parting[0] == "," and "." not in words:
            continue  # a decimal comma
        first, second = words[: parting.start()], words[parting.end() :]
        swapped = [(second, first)] if re.search("[ew]", first, re.IGNORECASE) else []
        for north, east in ((first, second), *swapped):
            lat, lon = degrees_in(north, "lat"), degrees_in(east, "lon")
            if lat is not None and lon is not None:
                return Coordinates(_rounded(lat), _rounded(lon))
    return None


def _rounded(degrees: float | None) -> float | None:
    """To a metre, which is more than anybody knows of a garden."""
    return None if degrees is None else round(degrees, 5)
