"""What is known of a kind, for `plants --kind`: in plain lines, or as JSON."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator
from typing import Any

from leafturn import __version__
from leafturn.answers.kind_card import KindCard
from leafturn.kinds.facts import FactLine
from leafturn_tui.render.parts.values import fields


def lines(card: KindCard) -> Iterator[str]:
    """The whole card, one thing a line, each fact with how sure it is and the number of its source.

    The sources stand once, at the end, in the order in which they were named.
    """
    if card.choices:
        choices = f"{', '.join(card.choices[:-1])} or {card.choices[-1]}"
        yield f"That may mean {choices}: ask again with one of them."
        return
    if card.said:
        yield card.said
    kind = card.kind
    yield ", ".join(part for part in (kind.name, kind.botanical, kind.family, kind.habit) if part)
    for what, names in (
        ("also called", kind.common),
        ("once named", kind.synonyms),
        ("lends its facts to", kind.serves_for),
    ):
        if names:
            yield f"{what}: {', '.join(names)}"
    if not kind.guessed:
        yield f"work of the year: {', '.join(card.work) or 'nothing to do, it asks for none'}"
    cited = _Cited()
    yield from _under("take care", map(cited.named, card.cautions))
    yield from _under("what is known", map(cited.fact, card.facts))
    yield from _under("not known", card.not_known)
    yield from _under("pollen of other kinds", map(cited.fact, card.crosses))
    yield from _under("where sources disagree", _conflicts(card, cited))
    yield from _under("rootstocks", map(cited.fact, card.rootstocks))
    yield from _under("cultivars", _cultivars(card, cited))
    yield from _under("stages (BBCH)", (f"{code} {words}" for code, words in card.stages))
    yield from _under("sources", cited.listed())


def as_json(card: KindCard, garden: str | None, on: dt.date) -> dict[str, Any]:
    """The whole card as one object."""
    names = ("name", "botanical", "common", "synonyms", "serves_for", "family", "habit", "layer", "guessed")
    told = (
        fields(card.kind, *names)
        | fields(card, "said", "choices", "cautions", "facts", "not_known", "crosses", "conflicts")
        | fields(card, "cultivars", "rootstocks", "work")
        | {"stages": dict(card.stages)}
    )
    return {"leafturn": __version__, "garden": garden, "on": on, "kind": told}


def _under(title: str, told: Iterable[str]) -> Iterator[str]:
    """Lines under a title; nothing if there are none."""
    kept = list(told)
    if kept:
        yield ""
        yield f"{title}:"
        yield from (f"    {line}" for line in kept)


class _Cited:
    """The sources named so far, each with its number."""

    def __init__(self) -> None:
        self._numbers: dict[str, int] = {}

    def fact(self, fact: FactLine) -> str:
        """What and value, with how sure, the number of the source, and where in it."""
        return f"{fact.what}: {self.named(fact)}"

    def named(self, fact: FactLine) -> str:
        """The value alone, with how sure, the number of the source, and where in it."""
        number = self._numbers.setdefault(fact.source, len(self._numbers) + 1)
        at = f", {fact.at}" if fact.at else ""
        return f"{fact.value} ({fact.sure}, source {number}{at})"

    def listed(self) -> Iterator[str]:
        """Every source with its number."""
        return (f"{number} {source}" for source, number in self._numbers.items())


def _conflicts(card: KindCard, cited: _Cited) -> Iterator[str]:
    for conflict in card.conflicts:
        yield conflict.about
        yield from (f"    {cited.named(reading)}" for reading in conflict.readings)
        yield f"    taken: {conflict.taken}"


def _cultivars(card: KindCard, cited: _Cited) -> Iterator[str]:
    for cultivar in card.cultivars:
        also = f" (also {', '.join(cultivar.also_called)})" if cultivar.also_called else ""
        yield f"{cultivar.name}{also}"
        yield from (f"    {cited.fact(fact)}" for fact in cultivar.facts)
    if card.also_grown:
        yield f"known by name alone: {', '.join(card.also_grown)}"
