"""Plant names as people write them: case, accents, hyphens, plurals and slips."""

from __future__ import annotations

import difflib
import functools
import unicodedata
from collections.abc import Iterable, Iterator, Mapping

from leafturn.base.closed_words import HABITS, Habit
from leafturn.base.patterns import pattern

_QUOTED = pattern(r"(?:^|\s)['\"‘’“”][^'\"‘’“”]+['\"‘’“”](?=\s|$)")
_APOSTROPHES = pattern(r"['’‘`´]")
_NOT_WORD = pattern(r"[^a-z0-9]+")
_LONGEST_NAME = 80  # anything longer is no slip of the pen
_SHORTEST_FOR_SLIPS = 4  # in shorter names one letter more or less is another word
_ENDINGS = ("berry", "berries", "apple", "apples", "tree", "nut", "nuts", "root", "wort", "weed", "flower")

# A word such as "tree" may be left away only where it fits: a strawberry tree is no strawberry.
_HABIT_WORDS: dict[str, tuple[Habit, ...]] = {
    "tree": ("tree", "shrub"),
    "bush": ("shrub", "cane", "tree"),
    "shrub": ("shrub", "cane", "tree"),
    "cane": ("cane",),
    "vine": ("climber",),
    "climber": ("climber",),
    "plant": HABITS,
}


@functools.lru_cache(maxsize=8192)  # a garden asks for the same few names again and again
def normalised(name: str) -> str:
    """A name in plain small letters with single spaces: "Belle d'Épine-Dumas" gives "belle depine dumas"."""
    plain = unicodedata.normalize("NFKD", name.casefold().replace("×", " ").replace("ß", "ss"))
    plain = "".join(letter for letter in plain if not unicodedata.combining(letter))
    return " ".join(_NOT_WORD.sub(" ", _APOSTROPHES.sub("", plain)).split())


def without_spaces(name: str) -> str:
    """A normalised name without its spaces, so that "sea-buckthorn" and "seabuckthorn" agree."""
    if name.isascii():
        return _NOT_WORD.sub("", name.lower())  # the same, several times faster
    return normalised(name).replace(" ", "")


def genus_of(botanical: str) -> str:
    """The first word of a botanical name, without spaces; empty if there is none."""
    return without_spaces(next(iter(botanical.split()), ""))


def without_quoted(name: str) -> str:
    """A name without the cultivar in quote marks after it."""
    return _QUOTED.sub(" ", name)


def singular_forms(word: str) -> Iterator[str]:
    """The word itself, then what it may be the plural of."""
    yield word
    if word.endswith("ies"):
        yield word[:-3] + "y"
    if word.endswith("ves"):
        yield word[:-3] + "f"
    if word.endswith("es"):
        yield word[:-2]
    if word.endswith("s"):
        yield word[:-1]


def spellings(name: str) -> Iterator[tuple[str, tuple[Habit, ...] | None]]:
    """Ways to read a name, likeliest first, without spaces; with the habits it must then have (None: any)."""
    words = normalised(without_quoted(name)).split() or normalised(name).split()
    if not words:
        return
    for last in singular_forms(words[-1]):
        yield "".join([*words[:-1], last]), None
    for last in singular_forms(words[-1]):
        habits = _HABIT_WORDS.get(last)
        if habits and len(words) > 1:
            for inner in singular_forms(words[-2]):
                yield "".join([*words[:-2], inner]), habits


def nearest(letters: str, known: Iterable[str]) -> str | None:
    """The known name of which this is most likely a slip of the pen, or None; all are without spaces.

    A shared ending is left out of the comparison, so that a barberry is not read as a bayberry.
    """
    if not _SHORTEST_FOR_SLIPS <= len(letters) <= _LONGEST_NAME:
        return None
    best, likeness = None, 0.0
    matcher = difflib.SequenceMatcher(b=letters, autojunk=False)
    for name in known:
        if abs(len(name) - len(letters)) > 2 or name[:1] != letters[0]:
            continue
        matcher.set_seq1(name)
        if matcher.real_quick_ratio() > likeness and matcher.quick_ratio() > likeness:
            found = matcher.ratio()
            if found > likeness and found >= _least_likeness(len(letters)) and _stems_agree(name, letters):
                best, likeness = name, found
    return best


def _stems_agree(one: str, other: str) -> bool:
    """Whether two names still look alike without the ending they share."""
    for ending in _ENDINGS:
        if one.endswith(ending) and other.endswith(ending):
            one, other = one.removesuffix(ending), other.removesuffix(ending)
            longer = max(len(one), len(other))
            if longer < _SHORTEST_FOR_SLIPS:
                return False
            return difflib.SequenceMatcher(a=one, b=other).ratio() >= _least_likeness(longer)
    return True


def _least_likeness(length: int) -> float:
    """The share of letters in common [0 to 1] from which a name of this length may be a slip."""
    return 0.75 if length <= 5 else 0.8 if length <= 7 else 0.86


def find_loosely(name: str, names: Mapping[str, str], noise: Iterable[str] = ()) -> str | None:
    """The entry of `names` that a cultivar or rootstock name means, or None.

    Tried in turn: the same letters; the same after leaving out `noise` words; the only entry that
    holds all its words; a slip of the pen.

    Parameters
    ----------
    name : str
        As the user wrote it.
    names : mapping
        Folded name (with spaces) to whatever stands for it.
    noise : iterable of str
        Words that say nothing here, such as "pear" after a pear's name.
    """
    unsaid = set(noise)
    by_letters = {known.replace(" ", ""): meant for known, meant in names.items()}
    words = normalised(name).split()
    for attempt in (words, [word for word in words if word not in unsaid]):
        if attempt and (meant := by_letters.get("".join(attempt))) is not None:
            return meant
    wanted = {word for word in words if word not in unsaid}
    if not wanted:
        return None
    holding = {meant for known, meant in names.items() if wanted <= set(known.split())}
    if holding:
        return holding.pop() if len(holding) == 1 and max(map(len, wanted)) >= 4 else None
    near = nearest("".join(word for word in words if word not in unsaid), by_letters)
    return None if near is None else by_letters[near]
