"""What in a rule of one's own can be read and yet cannot be meant: words nobody knows, impossible figures."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Collection, Iterable, Iterator
from functools import partial
from typing import get_args

from leafturn.base.bloom_stages import BY_MOMENT, StageName
from leafturn.base.closed_words import CARRIERS, HABITS, HEAP_STAGES, LAYERS
from leafturn.base.faults import clipped, did_you_mean
from leafturn.base.patterns import pattern
from leafturn.garden.model import Plan
from leafturn.journal.entries import KINDS
from leafturn.kinds.fact import value_of
from leafturn.kinds.library import Library
from leafturn.kinds.model import Kind
from leafturn.kinds.pruning import each
from leafturn.partners.model import PartnerStanding
from leafturn.tasks.rule_model import Rule, load_rules
from leafturn.tasks.timing.phrases import Moment, NoMoment, read_moment, stranger

MOST_HARM = 3.0
BLOOM_COURSE = tuple(BY_MOMENT)
AT_LEAST_NOTHING = ("minutes", "minutes_each", "soon_days", "layer_cm", "water_mm")
_BRACES = pattern(r"\{[^{}]*\}?|\}")


def complaints(
    rule: Rule, library: Library, grown: Collection[str] = (), plants: Collection[str] = ()
) -> Iterator[str]:
    """Sentences about what keeps a rule from being used, the gravest first; none if it can be.

    Parameters
    ----------
    rule : Rule
    library : Library
        Whose kinds, traits and picked parts a rule may name.
    grown : collection of str
        Kinds that stand in the garden, known to the library or not.
    plants : collection of str
        Ids of the garden's plants, which moments may name.
    """
    if rule.cut is None:
        yield from _moments(rule, plants)
    else:
        yield from _cut(rule.cut, library)
    yield from _holds(rule)
    if ":" in rule.verb:
        yield "its verb holds a colon, which parts the words of a job's id."
    yield from _title(rule.title)
    yield from _title(rule.title_ahead or "")
    yield from _figures(rule)
    yield from _closing(rule)
    yield from _follows(rule)
    yield from _kinds(rule, library, grown)
    yield from _words(rule, library)


def _moments(rule: Rule, plants: Collection[str]) -> Iterator[str]:
    try:
        for key in ("open", "best", "close"):
            for phrase in each(getattr(rule, key)):
                if said := stranger(read_moment(phrase), plants):
                    yield f"{key} = {clipped(phrase)!r}: {said}"
    except NoMoment as error:
        yield f"{key} = {error}"
        return
    for opens in each(rule.open):
        for closes in each(rule.close):
            if _never_after(read_moment(closes), read_moment(opens), rule.winter):
                yield (
                    f"close = {clipped(closes)!r} never comes after open = {clipped(opens)!r}, "
                    "so its window never opens. " + _later(read_moment(opens), rule.winter)
                )


def _cut(name: str, library: Library) -> Iterator[str]:
    known = {cut.cut for way in library.pruning.values() for cut in way.cuts.values()}
    if name not in known:
        hint = did_you_mean(name, known) or f"Write one of: {', '.join(sorted(known))}."
        yield f"no way of pruning has a cut {clipped(name)!r}. {hint}"


def _later(opens: Moment, winter: bool) -> str:
    """What to write instead: only windows from November on may run over New Year."""
    if opens.anchor == "date" and opens.month_day >= "11" and not winter:
        return "Write a close that comes later; a window from November over New Year wants winter = true."
    return "Write a close that comes later."


def _never_after(closes: Moment, opens: Moment, winter: bool) -> bool:
    """Whether a window between two moments is shut in every year; False where the weather decides."""
    if closes.plant != opens.plant:
        return False
    if closes.anchor == opens.anchor:
        if opens.anchor == "heat":
            if (closes.base, closes.month_day) != (opens.base, opens.month_day):
                return False
            return closes.need <= opens.need and closes.shift <= opens.shift and closes != opens
        if opens.anchor == "grown":
            return closes.need <= opens.need and closes.shift <= opens.shift and closes != opens
        return _place(closes, winter) < _place(opens, winter)
    if closes.anchor in BLOOM_COURSE and opens.anchor in BLOOM_COURSE:
        before = BLOOM_COURSE.index(closes.anchor) < BLOOM_COURSE.index(opens.anchor)
        return before and closes.shift <= opens.shift
    return False


def _place(moment: Moment, winter: bool) -> int:
    """A day number that orders moments of one anchor."""
    if moment.anchor == "day":
        return dt.date.fromisoformat(moment.month_day).toordinal() + moment.shift
    if moment.anchor == "date":
        # November and December are those before the season in rules of the winter's rest.
        before = winter and moment.month_day >= "11"
        year = 2023 if before else 2024
        return dt.date.fromisoformat(f"2024-{moment.month_day}").replace(year=year).toordinal() + moment.shift
    return moment.shift


def _holds(rule: Rule) -> Iterator[str]:
    holds = load_rules().holds
    for hold in rule.holds:
        if hold not in holds:
            known = f"Holds are: {', '.join(holds)}."
            yield f"there is no hold {clipped(hold)!r}. {known} {did_you_mean(hold, holds)}".strip()


def _title(title: str) -> Iterator[str]:
    for slip in _BRACES.findall(title):
        if slip != "{name}":
            yield f"its title holds {slip}. Did you mean {{name}}? That alone is filled in."


def _figures(rule: Rule) -> Iterator[str]:
    for key in AT_LEAST_NOTHING:
        figure = getattr(rule, key)
        if figure is not None and not figure >= 0:
            yield f"{key} = {figure:g} cannot be less than 0."
    if not 0 <= rule.harm <= MOST_HARM:
        known = "0 none, 1 slight, 2 a crop, 3 a plant or a person"
        yield f"harm = {rule.harm:g} is no harm it knows. Write {known}."


def _closing(rule: Rule) -> Iterator[str]:
    """Words of notes that would close its job: a kind of note, and of a bloom its stage."""
    if rule.closed_by is not None and rule.closed_by not in KINDS:
        hint = did_you_mean(rule.closed_by, KINDS) or f"Write one of: {', '.join(KINDS)}."
        yield f"closed_by = {clipped(rule.closed_by)!r} is no kind of note, so nothing would close it. {hint}"
    if rule.closed_by_stage is None:
        return
    if rule.closed_by != "bloom":
        yield 'closed_by_stage is for notes of bloom alone. Write closed_by = "bloom" with it.'
    stages = get_args(StageName)
    if rule.closed_by_stage not in stages:
        hint = did_you_mean(rule.closed_by_stage, stages) or f"Write one of: {', '.join(stages)}."
        yield f"closed_by_stage = {clipped(rule.closed_by_stage)!r} is no stage. {hint}"


def _follows(rule: Rule) -> Iterator[str]:
    known = {one.id for one in load_rules().rules}
    if rule.follows is not None and rule.follows not in known:
        hint = did_you_mean(rule.follows, known) or "leafturn rules GARDEN lists them by id."
        yield f"follows = {clipped(rule.follows)!r} is no rule of the program. {hint}"


def _kinds(rule: Rule, library: Library, grown: Collection[str]) -> Iterator[str]:
    for name in rule.applies.kinds:
        if name not in library.kinds and name not in grown:
            said = f"kinds names {clipped(name)!r}, which is no kind it knows."
            yield f"{said} {_kind_hint(name, library)}".strip()


def _words(rule: Rule, library: Library) -> Iterator[str]:
    applies = rule.applies
    for key, one, known in (
        ("habits", "habit", HABITS),
        ("layers", "layer", LAYERS),
        ("plans", "plan", get_args(Plan)),
        ("stages", "stage of a heap", HEAP_STAGES),
        ("carriers", "carrier of pollen", CARRIERS),
        ("partners", "standing with partners", get_args(PartnerStanding)),
    ):
        yield from _unknown(key, one, getattr(applies, key), partial(tuple, known))
    for key in ("traits", "without_traits"):
        yield from _unknown(key, "trait", getattr(applies, key), lambda: _of_kinds(library, _traits))
    yield from _unknown("parts", "part that is picked", applies.parts, lambda: _of_kinds(library, _part))


def _unknown(key: str, one: str, said: Iterable[str], known: Callable[[], Iterable[str]]) -> Iterator[str]:
    """Words that are not known; what is known is asked for only where the program's rules do not use it."""
    used = _used(key)
    for word in said:
        if word not in used and word not in (words := tuple(known())):
            hint = did_you_mean(word, words) or f"Write one of: {', '.join(words)}."
            yield f"{key} names {clipped(word)!r}, which is no {one}. {hint}"


def _used(key: str) -> set[str]:
    return {word for rule in load_rules().rules for word in getattr(rule.applies, key)}


def _kind_hint(name: str, library: Library) -> str:
    """The kind a name means: another of its names, or the nearest."""
    match = library.match(name)
    if not match.kind.guessed:
        return f"Did you mean {match.kind.name}?"
    return did_you_mean(name, library.kinds)


def _of_kinds(library: Library, words: Callable[[Kind], Iterable[str]]) -> list[str]:
    return sorted({word for kind in library.kinds.values() for word in words(kind)})


def _traits(kind: Kind) -> Iterable[str]:
    return value_of(kind.traits, ())


def _part(kind: Kind) -> Iterable[str]:
    return (kind.harvest.part.value,) if kind.harvest.part else ()
