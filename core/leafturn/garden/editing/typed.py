"""What a person types for a key of a plant, as the value that the garden file is to hold."""

from __future__ import annotations

import re
from typing import Any

from leafturn.base.patterns import pattern
from leafturn.base.units import TWINS
from leafturn.garden.editing.edits import NotTaken
from leafturn.garden.model import Place, Plant
from leafturn.garden.reading.place_phrases import POINTS, UnclearPlace, read_place_words
from leafturn.garden.reading.tables import Field, fields_of

_WAYS = {said: word for word, letters in POINTS for said in (letters.lower(), word.replace("-", ""))}
_LEG = r"([0-9]+(?:[.,][0-9]+)?)\s*([a-z]+?)??\s*(" + "|".join(sorted(_WAYS, key=len, reverse=True)) + r")"
_LEGS = pattern(rf"{_LEG}(?:\s*(?:,|and)?\s*{_LEG})?", re.IGNORECASE)
_METRES = pattern(r"\[?\s*(-?[0-9]+(?:\.[0-9]+)?)\s*[,;\s]\s*(-?[0-9]+(?:\.[0-9]+)?)\s*\]?")
_OF = pattern(r"(.*?)\s+(?:of|from)\s+(.+)", re.IGNORECASE | re.DOTALL)

# Keys of a plant that are asked for when it is changed; its place is moved, and its id is what notes name.
CHANGEABLE = tuple(
    key for key, field in fields_of(Plant).items() if key not in ("id", "at") and field.table is None
)

_UNITS = ("m", "m2", "cm", "ft", "ft2", "in")
_METRIC = {twin.key: twin.metric_key for twin in TWINS.values()}


def key_in(units: str, key: str) -> str:
    """The key by which a garden of these units is changed: "crown_ft" for "crown_m" where feet are spoken."""
    return TWINS[key].key if units == "us" and key in TWINS else key


def key_in_words(key: str) -> str:
    """A key of a plant as one reads it: "age_when_planted" as "age when planted", "crown_m" as "crown, m"."""
    first, _, last = key.rpartition("_")
    words = f"{first}, {last}" if last in _UNITS else key.replace("_", " ")
    return words.replace("s alleles", "S-alleles")


def key_typed(text: str, units: str = "metric") -> str | None:
    """The key of a plant that is meant, as in the file or in words; without a unit in that of the garden."""
    typed = _letters(text)
    for key in CHANGEABLE:
        for given in (key, key_in("us", key)):
            if typed == _letters(given):
                return given
        if typed == _letters(_without_unit(key)):
            return key_in(units, key)
    return None


def _without_unit(key: str) -> str:
    return key_in_words(key).partition(",")[0]


def _letters(text: str) -> str:
    return re.sub(r"[\W_]+", " ", text).strip().casefold()


def place_typed(text: str, beside: str = "gate", pace_m: float = 0.75) -> str | list[float] | None:
    """A place as the file holds it.

    Parameters
    ----------
    text : str
        "5n" or "5 n" (paces), "5 m n 2 m e", "12 paces north of toll-ash", "24, 18" (metres east and north of
        the gate), any other words that `read_place_words` takes; nothing typed is no place.
    beside : str
        What a way without a name begins at: the plant placed before.
    pace_m : float
        Length of a pace [m].

    Raises
    ------
    NotTaken
        If it is no place.
    """
    text = " ".join(text.split())
    if not text:
        return None
    if pair := _METRES.fullmatch(text):
        return [number_of(pair[1]), number_of(pair[2])]
    named = _OF.fullmatch(text)
    way, name = (named[1], named[2]) if named else (text, beside)
    words = f"{said} of {name}" if (said := _spelled_out(way)) else text
    try:
        read_place_words(words, pace_m)
    except UnclearPlace as why:
        raise NotTaken(f"{why.message} {why.hint}") from None
    return words


def place_keys(text: str, beside: str, place: Place) -> dict[str, Any]:
    """A place as key and value of the file; empty where nothing is typed. Bare numbers are metres, or feet.

    Parameters
    ----------
    text, beside : str
        As for `place_typed`.
    place : Place
        Of the garden: its pace and its units.

    Raises
    ------
    NotTaken
        If it is no place.
    """
    at = place_typed(text, beside, place.pace_m)
    in_feet = isinstance(at, list) and place.units == "us"
    return {} if at is None else {"at_ft" if in_feet else "at": at}


def _spelled_out(way: str) -> str:
    """ "5n 2.5m e" as "5 paces north and 2.5 m east"; empty if it is no way."""
    found = _LEGS.fullmatch(way.strip())
    if found is None:
        return ""
    parts = [part for part in (found.groups()[:3], found.groups()[3:]) if part[0]]
    return " and ".join(
        f"{number} {unit or ('pace' if number == '1' else 'paces')} {_WAYS[way.lower()]}"
        for number, unit, way in parts
    )


def number_of(text: str) -> float:
    """ "12,5" as 12.5 and "12" as the whole number 12."""
    number = float(text.replace(",", "."))
    return int(number) if number.is_integer() else number


def value_typed(key: str, text: str) -> Any:
    """The value of a key of a plant; None where nothing is typed, which takes the key away.

    What is no number where one is wanted stays text: the reader of the file says what to write instead.

    Parameters
    ----------
    key : str
        One of `CHANGEABLE`, or its twin in feet or inches.
    """
    field, text = _field_of(key), text.strip()
    if not text:
        return None
    if field.is_text_list:
        return [word for word in re.split(r"\s*,\s*", text) if word]
    if field.words:
        return text.lower()
    if field.is_text:
        return text
    try:
        return number_of(text)
    except (ValueError, OverflowError):
        return text


def words_of(key: str) -> tuple[str, ...]:
    """The only words that a key takes; none where any will do."""
    return _field_of(key).words


def typed_now(plant: Plant, key: str) -> str:
    """What the garden holds for a key of a plant, as it would be typed; empty for none."""
    value = getattr(plant, _METRIC.get(key, key))
    if key in _METRIC and value is not None:
        value = round(value / TWINS[_METRIC[key]].convert(1.0), 1)
    if isinstance(value, tuple | list):
        return ", ".join(map(str, value))
    return "" if value is None else f"{value:g}" if isinstance(value, float) else str(value)


def _field_of(key: str) -> Field:
    return fields_of(Plant)[_METRIC.get(key, key)]
