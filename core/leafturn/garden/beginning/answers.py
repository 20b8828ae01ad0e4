"""What a person answers when a garden is begun, as values of the garden file."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Any

from leafturn.base.closed_words import SKILLS
from leafturn.base.faults import clipped
from leafturn.base.patterns import pattern
from leafturn.base.told_times import span_told
from leafturn.garden.editing.edits import NotTaken
from leafturn.garden.editing.typed import number_of
from leafturn.garden.model import Helper
from leafturn.garden.reading.frost_dates import month_and_day, share_of_years
from leafturn.garden.regions import region_named

HEIGHT = pattern(r"(-?[0-9]+(?:[.,][0-9]+)?)\s*(m|metres?|meters?|ft|feet|foot)?\.?", re.IGNORECASE)
_ROUGH_HOURS = pattern(r"\d\s*[-–/]\s*\d")
_ABLE = pattern(r"[\s,;:&]+|\b(?:and|or|with|can)\b")
_WORDY_DAY = pattern(r"(\d{1,2})(?:st|nd|rd|th)?\.?(?: of)? ([a-z]+)\.?(?:,? \d{4})?", re.IGNORECASE)
_MONTH_FIRST = pattern(r"([a-z]+)\.? (\d{1,2})(?:st|nd|rd|th)?(?:,? \d{4})?", re.IGNORECASE)
_POINTS = pattern(r"(\d{1,2})\.\s?(\d{1,2})\.(?:\s?\d{4})?")


def height_typed(text: str) -> dict[str, float]:
    """How high a garden lies, "360", "360 m" or "1200 ft", as key and value of [place]."""
    found = HEIGHT.fullmatch(text.strip())
    if found is None:
        raise NotTaken(f"{clipped(text.strip())!r} is no height above the sea. Write 360, 360 m or 1200 ft.")
    return {"height_ft" if (found[2] or "m").lower().startswith("f") else "height_m": number_of(found[1])}


def region_typed(text: str) -> str:
    """The country, state or continent as written; NotTaken if its dates and lists are not known."""
    words = " ".join(text.split())
    if words and region_named(words) is None:
        raise NotTaken(
            f"{clipped(words)!r} is not known here. Write a country, state or continent, such as germany, "
            "oregon or europe; or elsewhere."
        )
    return words


def frost_typed(text: str) -> str:
    """A frost as the file gives it: "30 October", "October 30th" or "30.10." as "10-30"; "1 year in 5".

    Raises
    ------
    NotTaken
        If it is neither a day of the year nor a share of years.
    """
    words = " ".join(text.split())
    if share_of_years(words) is not None:
        return words.lower()
    plain = words
    if found := _WORDY_DAY.fullmatch(words):
        plain = f"{found[1]} {found[2]}"
    elif found := _MONTH_FIRST.fullmatch(words):
        plain = f"{found[2]} {found[1]}"
    elif found := _POINTS.fullmatch(words):
        plain = f"{found[2]}-{found[1]}"
    day = month_and_day(plain)
    if day is None:
        raise NotTaken(
            f'{clipped(words)!r} is no day of the year. Write 24 April, or "never", or "1 year in 5".'
        )
    return day


def helper_typed(text: str, usual: Iterable[str] = ("anything",)) -> dict[str, Any]:
    """Someone who helps: "Ana 3 light kneel" as a name, hours a week and what they can do.

    Parameters
    ----------
    text : str
    usual : iterable of str
        What they can do where no word behind the hours tells.

    Raises
    ------
    NotTaken
        If there is no name, or a word behind the hours is none of `SKILLS`.
    """
    told = span_told(text, bare="h")
    name = (" ".join(text.split()) if told is None else told.before).strip(" ,;:")
    if not name:
        raise NotTaken('A name comes first: "Ana 3 light kneel".')
    if told is None and _ROUGH_HOURS.search(name):
        raise NotTaken(
            f"How many hours is {clipped(name)!r}? Write one number: Ana 1.5, or Ana half an hour."
        )
    helper: dict[str, Any] = {"name": name}
    if told is not None:
        hours = round(told.minutes / 60, 2)
        if not hours <= 168:
            raise NotTaken("A week has 168 hours.")
        helper["hours_per_week"] = int(hours) if hours.is_integer() else hours
        helper["can"] = [_skill(word) for word in _ABLE.split(told.after.lower()) if word] or [*usual]
    return helper


def helper_changes(helper: Helper, fields: Mapping[str, Any]) -> dict[str, Any]:
    """What is said otherwise of a helper than the garden file has it.

    Parameters
    ----------
    helper : Helper
    fields : mapping
        As `helper_typed` gives them; what they leave out stays as it is.
    """
    now = {"hours_per_week": helper.hours_per_week, "can": [*helper.can]}
    return {key: fields[key] for key in now if key in fields and fields[key] != now[key]}


def _skill(word: str) -> str:
    """What a helper can, by its word or near it: "ladders", "kneeling"."""
    for skill in SKILLS:
        if word in (skill, f"{skill}s", f"{skill}ing"):
            return skill
    raise NotTaken(
        f"{clipped(word)!r} is not among what a helper can. Write only what they can do: {', '.join(SKILLS)}."
    )
