"""Times as people write them: "35 min", "two hours a week", "1 h 30"; "mid October", "the end of June"."""

from __future__ import annotations

import re
from typing import NamedTuple

from leafturn.base.day_words import DAYS_IN_MONTHS, MONTHS
from leafturn.base.patterns import pattern

NUMBER_WORDS = (
    "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
)  # fmt: skip
_UNIT = r"(?:hours?|hrs?|h|minutes?|mins?|m)(?![a-z])\.?"
_SPAN = pattern(
    rf"(?<![\w.,/-])(?:(?P<half>half(?= an? h)|½)(?: an?)?|(?P<number>\d+(?:[.,]\d+)?)"
    rf"|(?P<word>an?|{'|'.join(NUMBER_WORDS)})(?= (?:and a half )?{_UNIT}))"
    rf"(?P<more> and a half)? ?(?P<unit>{_UNIT})?(?P<later> and a half)?"
    r"(?:(?<=[hrs.])(?: and)? ?(?P<rest>\d+) ?(?:minutes?|mins?|m)?\b)?"
    r"(?: ?(?:a|per|each|every|/) ?week| weekly)?(?![\w/-])",
    re.IGNORECASE,
)
_PARTS = {"beginning": 1, "start": 1, "early": 5, "middle": 15, "mid": 15, "late": 25}  # days, guesses
_PART = pattern(
    rf"(?:the )?(?P<part>end|{'|'.join(_PARTS)})[ -](?:of )?(?P<month>[a-z]{{3,9}})\.?", re.IGNORECASE
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
        many = 1.0 if word in ("a", "an") else float(NUMBER_WORDS.index(word))
    many += 0.5 if found["more"] or found["later"] else 0.0
    in_hours = (found["unit"] or bare).lower().startswith("h")
    minutes = many * (60 if in_hours else 1) + float(found["rest"] or 0)
    return SpanTold(words[: found.start()].strip(" ,;:"), minutes, words[found.end() :].strip(" ,;:."))


def part_of_month(text: str) -> tuple[int, int] | None:
    """Month and day of "mid October", "late April", "the end of June"; None of other words."""
    found = _PART.fullmatch(" ".join(text.split()))
    begins = found["month"].lower() if found else ""
    months = [n for n, name in enumerate(MONTHS, start=1) if name.lower().startswith(begins)]
    if found is None or len(months) != 1:
        return None
    return months[0], _PARTS.get(found["part"].lower(), DAYS_IN_MONTHS[months[0] - 1])
