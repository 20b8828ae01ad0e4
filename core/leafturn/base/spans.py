"""Spans of time as people write them: "35 min", "two hours a week", "half an hour", "1 h 30"."""

from __future__ import annotations

import re
from typing import NamedTuple

from leafturn.base.patterns import pattern

_COUNTED = (
    "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
)  # fmt: skip
_UNIT = r"(?:hours?|hrs?|h|minutes?|mins?|m)(?![a-z])\.?"
_SPAN = pattern(
    rf"(?<![\w.,/-])(?:(?P<half>half(?= an? h)|½)(?: an?)?|(?P<number>\d+(?:[.,]\d+)?)"
    rf"|(?P<word>an?|{'|'.join(_COUNTED)})(?= (?:and a half )?{_UNIT}))"
    rf"(?P<more> and a half)? ?(?P<unit>{_UNIT})?(?P<later> and a half)?"
    r"(?:(?<=[hrs.])(?: and)? ?(?P<rest>\d+) ?(?:minutes?|mins?|m)?\b)?"
    r"(?: ?(?:a|per|each|every|/) ?week| weekly)?(?![\w/-])",
    re.IGNORECASE,
)


class SpanTold(NamedTuple):
    """A span within a line, with the words on either side of it."""

    before: str
    minutes: float
    after: str


def span_told(text: str, bare: str) -> SpanTold | None:
    """The first span of time in a line; None if it tells none.

    Parameters
    ----------
    text : str
        "Ana 2 hours a week, light".
    bare : str
        What a number without a unit counts: "h" or "min".
    """
    words = " ".join(text.split())
    found = _SPAN.search(words)
    if found is None:
        return None
    if found["half"]:
        many = 0.5
    elif found["number"]:
        many = float(found["number"].replace(",", "."))
    else:
        word = found["word"].lower()
        many = 1.0 if word in ("a", "an") else float(_COUNTED.index(word))
    many += 0.5 if found["more"] or found["later"] else 0.0
    in_hours = (found["unit"] or bare).lower().startswith("h")
    minutes = many * (60 if in_hours else 1) + float(found["rest"] or 0)
    return SpanTold(words[: found.start()].strip(" ,;:"), minutes, words[found.end() :].strip(" ,;:."))
