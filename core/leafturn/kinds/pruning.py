"""Ways of pruning and cutting: what comes off, from when to when, why, and when never; all from one table."""

from collections.abc import Iterable, Iterator, Mapping
from typing import TYPE_CHECKING, Literal

from msgspec import Struct

from leafturn.base.closed_words import Habit
from leafturn.base.day_words import SHORT_MONTHS, day_of_the_south
from leafturn.kinds.fact import Fact, Sure

if TYPE_CHECKING:
    from leafturn.kinds.library import Library
    from leafturn.kinds.model import Cultivar, Kind

Climate = Literal[
    "cold winters", "mild winters", "cool summers", "warm summers", "dry summers", "wet summers",
    "dry winters", "wet winters", "marked seasons", "even seasons", "drenched summers", "moderate summers",
    "parched summers", "watered summers", "parched springs", "watered springs",
    "rainless years", "rainy years",
]  # fmt: skip
Phrases = str | tuple[str, ...]
"""A moment of a rule or of a cut (leafturn.tasks.timing.phrases), or several."""
ONE_WAY = ","  # what stands before it names a way, what stands after it one of its cases


class CutWindow(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """One cut of a way.

    `cut` is what the rule that tells of it calls it. `open`, `best` and `close` are moments
    (leafturn.tasks.timing.phrases): of several, the window opens at the last and closes at the first.
    `winter` windows stand in the rest before the season. `what` is a sentence on what comes off; `why` and
    `if_skipped` stand before those of the way and of the rule, `holds` are further reasons to wait.
    """

    cut: str
    winter: bool = False
    open: Phrases
    best: Phrases
    close: Phrases
    what: str
    why: str = ""
    if_skipped: str = ""
    holds: tuple[str, ...] = ()
    source: str
    sure: Sure


class PruningWay(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Kinds that are cut at the same times for the same reason.

    It is for the `kinds` named, else for kinds with one of `traits` (of one of `habits`, if any are given);
    in climates where every word of `where` holds and not every word of `except_where`. `closed` are the spans
    of `never`, each from one moment to another, over New Year where the second comes before the first. `says`
    stands in for cuts that no rule tells of, `frost_why` is told beside `why` where frost comes.
    """

    kinds: tuple[str, ...] = ()
    traits: tuple[str, ...] = ()
    habits: tuple[Habit, ...] = ()
    where: tuple[Climate, ...] = ()
    except_where: tuple[Climate, ...] = ()
    says: Fact[str] | None = None
    why: Fact[str]
    frost_why: Fact[str] | None = None
    never: Fact[str] | None = None
    closed: tuple[tuple[str, str], ...] = ()
    cuts: dict[str, CutWindow] = {}

    def fits(self, climate: frozenset[str]) -> bool:
        """Whether it is meant for a climate, told by the words that hold of it."""
        return climate.issuperset(self.where) and not (
            self.except_where and climate.issuperset(self.except_where)
        )


def names_of_ways(names: Iterable[str]) -> tuple[str, ...]:
    """What a kind or a cultivar may name: the ways, however many cases they have."""
    return tuple(dict.fromkeys(_way_name(name) for name in names))


def _way_name(name: str) -> str:
    return name.partition(ONE_WAY)[0]


def ways_of(
    kind: "Kind", ways: Mapping[str, PruningWay], cultivar: "Cultivar | None" = None
) -> Mapping[str, PruningWay]:
    """Of all `ways` those a kind is cut, by name: one, or its cases for several climates; none if none fits.

    What the cultivar names goes first, then what the kind names, then the ways that list the kind, then those
    that ask for one of its traits.
    """
    named = (cultivar.pruning_way if cultivar is not None else None) or kind.pruning.way
    if named is not None:
        return {n: way for n, way in ways.items() if _way_name(n) == named.value}
    listed = {n: way for n, way in ways.items() if kind.name in way.kinds}
    if listed or kind.traits is None:
        return listed
    traits = set(kind.traits.value)
    asked = [
        _way_name(n)
        for n, way in ways.items()
        if traits.intersection(way.traits) and (not way.habits or kind.habit in way.habits)
    ]
    return {n: way for n, way in ways.items() if _way_name(n) in asked[:1]}


def way_of(
    kind: "Kind", library: "Library", climate: frozenset[str], cultivar: "Cultivar | None" = None
) -> PruningWay | None:
    """The way a kind is cut in a climate; None if nothing is known."""
    return next((way for way in ways_of(kind, library.pruning, cultivar).values() if way.fits(climate)), None)


def pruning_lines(
    kind: "Kind",
    library: "Library",
    cultivar: "Cultivar | None" = None,
    climate: frozenset[str] | None = None,
) -> Iterator[tuple[str, Fact[str]]]:
    """What a card says of a kind's cuts: "cut", "not cut" and "because".

    Those of every climate, told apart where that matters, or those of the one `climate` that is given.
    """
    own = kind.pruning
    for way in ways_of(kind, library.pruning, cultivar).values():
        if climate is not None and not way.fits(climate):
            continue
        where = _where(way) if climate is None else ""
        for cut in way.cuts.values():
            yield f"cut{where}", Fact(window_words(cut), cut.source, cut.sure)
        if way.says is not None:
            yield f"cut{where}", way.says
        if (never := own.avoid or way.never) is not None:
            yield f"not cut{where}", never
        yield f"because{where}", own.why or way.why
        if way.frost_why is not None and own.why is None:
            yield f"because{where}", way.frost_why


def window_words(cut: CutWindow) -> str:
    """A window in words: from when, best by when, until when, and what comes off."""
    opens, best, closes = (list(map(_aloud, each(m))) for m in (cut.open, cut.best, cut.close))
    later = "the later of " if len(opens) > 1 else ""
    sooner = "the earlier of " if len(closes) > 1 else ""
    first = f"from {later}{' and '.join(opens)}, best by {' and '.join(best)}"
    return f"{first}, until {sooner}{' and '.join(closes)}. {cut.what}"


def _where(way: PruningWay) -> str:
    """The climates of a way in words: " where winters are mild and summers warm"."""
    if way.where:
        return f" where {' and '.join(map(_climate, way.where))}"
    if way.except_where:
        return f" unless {' and '.join(map(_climate, way.except_where))}"
    return ""


def _climate(word: str) -> str:
    how, when = word.split()
    return f"{when} are {how}"


def each(phrases: Phrases) -> tuple[str, ...]:
    """The phrases one by one: a lone one may be written without a list."""
    return (phrases,) if isinstance(phrases, str) else phrases


def _aloud(phrase: str) -> str:
    """A moment as it is read aloud; a plain day with that of the south beside it."""
    if phrase[:2].isdigit() and phrase[2:3] == "-":
        month, day = int(phrase[:2]), int(phrase[3:])
        south, day_south = day_of_the_south(month, day)
        return f"{day} {SHORT_MONTHS[month - 1]} (south {day_south} {SHORT_MONTHS[south - 1]})"
    number, unit, rest = [*phrase.split(" ", 2), "", ""][:3]
    if not number.isdigit():
        return phrase
    rest = rest.replace("after done", "after the last cut")
    word = {"w": "week", "d": "day"}.get(unit, unit)
    return f"{number} {word}{'' if number == '1' else 's'} {rest}"
