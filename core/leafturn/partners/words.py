"""Lists and small measures as they are read aloud."""

from __future__ import annotations

from collections.abc import Sequence

from leafturn.base import prose, quantities
from leafturn.base.value import Value


class Predicate(Value, kw_only=False):
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
    return prose.joined([str(first), *rest])


def a(noun: str) -> str:
    """The noun with its article; names of kinds that begin with "eu" or "u" take "a"."""
    sounds_as_vowel = noun[:1].lower() in "aeio" or noun[:2].lower() in ("um", "un")
    return f"{'an' if sounds_as_vowel and not noun.lower().startswith('eu') else 'a'} {noun}"


def metres_words(metres: float) -> str:
    """A distance as it is said: "0.6 m", "6 m", "38 m"."""
    return quantities.metres(metres, 1 if metres < 0.95 else 0)


def years_words(age: float) -> str:
    """An age in whole years: "1 year", "8 years"."""
    return prose.count(max(int(age), 0), "year")
