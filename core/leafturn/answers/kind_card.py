"""A kind's own page: every fact with its source, its cultivars, and where sources disagree."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from leafturn.base.value import Value
from leafturn.kinds.facts import FactLine, cultivar_facts, facts_of
from leafturn.kinds.library import Library
from leafturn.kinds.model import Fact, Kind
from leafturn.kinds.shared_facts import conflicts_of, stages_of
from leafturn.tasks.usual_work import usual_work

_MATTERS = {
    "when it blooms": ("bloom", "first_open_heat"),
    "years to flower": ("age", None),
    "winter chill": ("chill", None),
    "temperatures that kill its flowers": ("frost", None),
    "water use": ("water", None),
    "hardiness": ("hardiness", "zone"),
    "juglone": ("soil", "juglone"),
    "what it gives bees": ("forage", None),
}


class ConflictLine(Value):
    """A matter on which sources disagree: what each says, and what the program takes."""

    about: str
    readings: tuple[FactLine, ...]
    taken: str


class CultivarLine(Value):
    """A cultivar with what it does otherwise than its kind."""

    name: str
    also_called: tuple[str, ...]
    facts: tuple[FactLine, ...]


class KindCard(Value):
    """All that the library knows of one kind.

    `said` tells what was assumed of the name asked for, empty if nothing; `choices` the kinds it may
    mean. `crosses` are groups that fertilise it in part, `stages` BBCH codes with words, and `not_known`
    the matters of which nothing is known. `work` are the verbs of what it asks for in a usual year, empty
    where it asks for nothing.
    """

    kind: Kind
    said: str
    choices: tuple[str, ...]
    cautions: tuple[FactLine, ...]
    facts: tuple[FactLine, ...]
    not_known: tuple[str, ...]
    crosses: tuple[FactLine, ...]
    stages: tuple[tuple[str, str], ...]
    conflicts: tuple[ConflictLine, ...]
    cultivars: tuple[CultivarLine, ...]
    also_grown: tuple[str, ...]
    rootstocks: tuple[FactLine, ...]
    work: tuple[str, ...] = ()


def kind_card(library: Library, name: str) -> KindCard:
    """All that is known of the kind that a name means.

    Parameters
    ----------
    library : Library
    name : str
        Common or botanical, singular or plural, with small slips of the pen.

    Returns
    -------
    KindCard
        Of a name nobody knows a card of guesses; `guessed` of its kind then says so.
    """
    match = library.match(name)
    kind = match.kind
    return KindCard(
        kind=kind,
        said=match.sentence,
        choices=match.choices,
        cautions=tuple(_line("take care", caution.value, caution, library) for caution in kind.cautions),
        facts=tuple(facts_of(kind, library)),
        not_known=tuple(_not_known(kind)),
        crosses=tuple(_crosses(kind, library)),
        stages=tuple(stages_of(kind, library).items()),
        conflicts=tuple(conflict_lines(kind, library)),
        cultivars=tuple(_cultivars(kind, library)),
        also_grown=tuple(kind.also_grown),
        rootstocks=tuple(_rootstocks(kind, library)),
        work=usual_work(kind, library),
    )


def _line(what: str, value: str, fact: Fact[Any], library: Library) -> FactLine:
    read = library.was_read(fact)
    return FactLine(what=what, value=value, sure=fact.sure, source=library.cite(fact), at=fact.at, read=read)


def conflict_lines(kind: Kind, library: Library) -> Iterator[ConflictLine]:
    """Where the sources of a kind's facts disagree."""
    for about, conflict in conflicts_of(kind, library):
        readings = tuple(_line(about, reading.value, reading, library) for reading in conflict.readings)
        yield ConflictLine(about=about, readings=readings, taken=conflict.taken)


def _not_known(kind: Kind) -> Iterator[str]:
    for matter, (section, field) in _MATTERS.items():
        held = getattr(kind, section)
        fields = held.__struct_fields__ if field is None else (field,)
        if all(getattr(held, each) is None for each in fields):
            yield matter


def _crosses(kind: Kind, library: Library) -> Iterator[FactLine]:
    group = kind.pollination.cross_group
    if group is None:
        return
    for pair, share in library.crosses.items():
        if group.value in pair:
            (other,) = pair - {group.value}
            yield _line(f"set with pollen of {other}, share", f"{share.value:g}", share, library)


def _cultivars(kind: Kind, library: Library) -> Iterator[CultivarLine]:
    for name, cultivar in kind.cultivars.items():
        facts = tuple(cultivar_facts("", cultivar, kind, library))
        yield CultivarLine(name=name, also_called=cultivar.also_called, facts=facts)


def _rootstocks(kind: Kind, library: Library) -> Iterator[FactLine]:
    for stock in library.rootstocks:
        if kind.name not in stock.kinds:
            continue
        named = (
            ("height", stock.height_share),
            ("years to flower", stock.flower_years),
            ("juglone", stock.juglone),
        )
        for what, fact in named:
            if fact is not None:
                said = "height, share of a seedling's" if what == "height" else what
                value = f"{fact.value:g}" if isinstance(fact.value, int | float) else str(fact.value)
                yield _line(f"on {stock.name}: {said}", value, fact, library)
