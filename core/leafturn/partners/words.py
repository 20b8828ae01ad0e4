"""Chances and lists as they are read aloud."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

NEVER = 0.005
ROUND_NUMBERS = (10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100, 150, 200)


class Predicate(NamedTuple):
    """What is said of a plant, read after its name: "is" with what it is, or a verb with what it does."""

    verb: str
    rest: str

    def __str__(self) -> str:
        return f"{self.verb} {self.rest}"

    @property
    def tells_state(self) -> bool:
        """Whether it says what the plant is."""
        return self.verb == IS


IS = "is"


def in_one_breath(predicates: Sequence[Predicate]) -> str:
    """Several predicates as one: "flowers about 2030", "is 2 years old and 38 m off"."""
    first = predicates[0]
    rest = [p.rest if p.tells_state and first.tells_state else str(p) for p in predicates[1:]]
    return joined([str(first), *rest])


def a(noun: str) -> str:
    """The noun with its article; names of kinds that begin with "eu" or "u" take "a"."""
    sounds_as_vowel = noun[:1].lower() in "aeio" or noun[:2].lower() in ("um", "un")
    return f"{'an' if sounds_as_vowel and not noun.lower().startswith('eu') else 'a'} {noun}"


def one_in(chance: float) -> str:
    """A chance in words: "none", "1 in 50", "1 in 4", "about even", "7 in 10", "nearly sure".

    Parameters
    ----------
    chance : float
        Between 0 and 1. Under 1 in 200 it is "none": no garden record could tell it from nought.
    """
    if chance < NEVER:
        return "none"
    if chance < 0.36:
        return f"1 in {_whole(1 / chance)}"
    if chance < 0.45:
        return "2 in 5"
    if chance <= 0.55:
        return "about even"
    if chance < 0.95:
        return f"{min(max(round(chance * 10), 6), 9)} in 10"
    return "nearly sure"


def metres_words(metres: float) -> str:
    """A distance as it is said: "0.6 m", "6 m", "38 m"."""
    if metres < 0.95:
        return f"{metres:.1f} m"
    return f"{metres:.0f} m"


def years_words(age: float) -> str:
    """An age in whole years: "1 year", "8 years"."""
    years = max(int(age), 0)
    return f"{years} year" if years == 1 else f"{years} years"


def joined(parts: Sequence[str]) -> str:
    """A list in words: "a", "a and b", "a, b and c"."""
    if len(parts) < 2:
        return "".join(parts)
    return f"{', '.join(parts[:-1])} and {parts[-1]}"


def _whole(number: float) -> int:
    """To two figures at most, and above ten to the round numbers people use."""
    if number < 10.5:
        return round(number)
    return min(ROUND_NUMBERS, key=lambda n: abs(n - number) / n)
