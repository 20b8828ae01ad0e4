"""Places said in words: "8 m west of toll-ash", "between a and b", "gate".

This module reads the words only; where the things named stand is `positions`' business.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping

from leafturn.base.bounds import FARTHEST_M
from leafturn.base.faults import clipped, did_you_mean
from leafturn.base.patterns import pattern
from leafturn.base.units import METRES_IN
from leafturn.base.value import Value

POINTS = (
    ("north", "N"), ("north-northeast", "NNE"), ("northeast", "NE"), ("east-northeast", "ENE"),
    ("east", "E"), ("east-southeast", "ESE"), ("southeast", "SE"), ("south-southeast", "SSE"),
    ("south", "S"), ("south-southwest", "SSW"), ("southwest", "SW"), ("west-southwest", "WSW"),
    ("west", "W"), ("west-northwest", "WNW"), ("northwest", "NW"), ("north-northwest", "NNW"),
)  # fmt: skip
"""The points of the compass, clockwise from north: the word of each, and its letters."""
BETWEEN_POINTS = 22.5  # degrees


def _direction(degrees: float) -> tuple[float, float]:
    """Parts east and north of one metre along a bearing [deg, clockwise from north], exact on the axes."""
    east, north = math.sin(math.radians(degrees)), math.cos(math.radians(degrees))
    return round(east, 15) + 0.0, round(north, 15) + 0.0  # + 0.0 turns -0.0 into 0.0


#: East and north parts of one metre, by compass word without spaces or hyphens.
COMPASS: Mapping[str, tuple[float, float]] = {
    said: _direction(BETWEEN_POINTS * place)
    for place, (word, letters) in enumerate(POINTS)
    for said in (letters.lower(), word.replace("-", ""))
}

_PACES = ("pace", "paces", "step", "steps")

_DATUM = pattern(r"(?:(?:at|by|near)\s+)?(?:the\s+)?(?:gate|datum)", re.IGNORECASE)
_BETWEEN = pattern(r"(?:half\s*way\s+)?between\s+(?P<both>.+\s+and\s+.+)", re.IGNORECASE | re.DOTALL)
_BESIDE = pattern(r"(?:at|by|near|beside|under|on)\s+(?P<name>.+)", re.IGNORECASE | re.DOTALL)
_OFFSET = pattern(r"(?P<legs>[0-9.,].*?)\s+(?:of|from)\s+(?P<name>.+)", re.IGNORECASE | re.DOTALL)
_LEG_END = pattern(r"\s*(?:,(?![0-9])|\band\b|\bthen\b)\s*", re.IGNORECASE)
_LEG = pattern(
    r"(?P<number>[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+)\s*(?P<unit>[^\W\d_]+)\.?\s+"
    r"(?:to\s+the\s+|due\s+)?(?P<way>[^\W\d_]+(?:[\s-]+[^\W\d_]+){0,2})",
    re.IGNORECASE,
)
_LEG_AND_NAME = (
    r"(?P<leg>[0-9]+(?:[.,][0-9]+)?\s*[^\W\d_]+\.?\s+(?:to\s+the\s+|due\s+)?(?P<way>[^\W\d_]+(?:-[^\W\d_]+)?))"
    r"\s+(?P<name>.+)"
)

HOW_TO_SAY_IT = 'Write [24, 18] (metres east, north), "8 m west of NAME" or "between NAME and NAME".'


class UnclearPlace(ValueError):
    """Words that name no place.

    Parameters
    ----------
    message, hint : str
        What was not understood, and what to write instead.
    """

    def __init__(self, message: str, hint: str = HOW_TO_SAY_IT) -> None:
        super().__init__(message)
        self.message = message
        self.hint = hint


class PlaceWords(Value, kw_only=False):
    """What a place in words says.

    Parameters
    ----------
    east, north : float
        Offset from what is named [m].
    name : str or None
        What it is reckoned from, as written; None for the datum.
    between : bool
        Whether `name` holds two names with "and" between, and their middle is meant.
    """

    east: float = 0.0
    north: float = 0.0
    name: str | None = None
    between: bool = False


def read_place_words(words: str, pace_m: float = 0.75) -> PlaceWords:
    """What `words` say of a place.

    Parameters
    ----------
    words : str
        Such as "10 ft NNW of x", "12 paces north of x", "2 m north and 1,5 m east of x", "by x",
        "between a and b", "gate". A name may hold spaces.
    pace_m : float
        Length of a pace [m].

    Raises
    ------
    UnclearPlace
        If they say none.
    """
    words = " ".join(words.split())
    if not words:
        raise UnclearPlace("The place is empty.")
    if _DATUM.fullmatch(words):
        return PlaceWords()
    if found := _BETWEEN.fullmatch(words):
        return PlaceWords(name=found["both"], between=True)
    if found := _OFFSET.fullmatch(words):
        east = north = 0.0
        for leg in _LEG_END.split(found["legs"]):
            leg_east, leg_north = _read_leg(leg, words, pace_m)
            east, north = east + leg_east, north + leg_north
        name = found["name"]
        return PlaceWords(east, north, None if _DATUM.fullmatch(name) else name)
    if words[0].isdigit():
        raise _unclear_number(words)
    if found := _BESIDE.fullmatch(words):
        return PlaceWords(name=found["name"])
    return PlaceWords(name=words)


def _read_leg(leg: str, words: str, pace_m: float) -> tuple[float, float]:
    """East and north parts [m] of one stretch such as "8 m west"."""
    found = _LEG.fullmatch(leg)
    if found is None:
        raise UnclearPlace(f"The place {quoted(words)} is not understood.")
    unit, way = found["unit"].lower(), found["way"]
    metres_each = pace_m if unit in _PACES else METRES_IN.get(unit)
    if metres_each is None:
        raise UnclearPlace(
            f"{quoted(unit)} in {quoted(words)} is no length known here.", "Use m, ft or paces."
        )
    direction = _compass(way)
    if direction is None:
        near = did_you_mean(clipped(way), COMPASS)
        raise UnclearPlace(
            f"{quoted(way)} in {quoted(words)} is no compass word.",
            near or "Use north, NE, south-west, NNW and so on.",
        )
    metres = float(found["number"].replace(",", ".")) * metres_each
    if metres > FARTHEST_M:
        raise UnclearPlace(
            f"{quoted(words)} is farther than {FARTHEST_M / 1000:.0f} km.", "Check the number."
        )
    return metres * direction[0], metres * direction[1]


def _compass(way: str) -> tuple[float, float] | None:
    """East and north parts of one metre along a compass word, or None for another word."""
    return COMPASS.get(re.sub(r"[\s-]", "", way.lower()))


def _unclear_number(words: str) -> UnclearPlace:
    """Words that begin with a number but name nothing to reckon from."""
    pair = re.fullmatch(r"(-?[0-9]+(?:\.[0-9]+)?)[\s,;]+(-?[0-9]+(?:\.[0-9]+)?)", words)
    if pair:
        hint = f"Write [{pair[1]}, {pair[2]}] without quote marks."
    elif (named := re.fullmatch(_LEG_AND_NAME, words, re.IGNORECASE)) and _compass(named["way"]):
        hint = f'Write "{named["leg"]} of {clipped(named["name"])}".'
    elif (leg := _LEG.fullmatch(words)) and _compass(leg["way"]):
        hint = f'Say of what: "{clipped(words)} of gate".'
    else:
        hint = HOW_TO_SAY_IT
    return UnclearPlace(f"The place {quoted(words)} is not understood.", hint)


def quoted(words: str) -> str:
    """`words` in quote marks, cut to a length that fits a sentence."""
    return f"'{clipped(words, 40)}'"
