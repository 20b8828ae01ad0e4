"""What is known of a kind, for `plants --kind`: in plain lines, or as JSON."""

from __future__ import annotations

import dataclasses
import datetime as dt
from collections.abc import Iterable, Iterator
from typing import Any

from leafturn import __version__
from leafturn.answers.kind_card import FactLine, KindCard


def lines(card: KindCard) -> Iterator[str]:
    """The whole card, one thing a line, each fact with how sure it is and its source."""
    if card.choices:
        choices = f"{', '.join(card.choices[:-1])} or {card.choices[-1]}"
        yield f"That may mean {choices}: ask again with one of them."
        return
    if card.said:
        yield card.said
    yield ", ".join(part for part in (card.name, card.botanical, card.family, card.habit) if part)
    for what, names in (
        ("also called", card.common),
        ("once named", card.synonyms),
        ("lends its facts to", card.serves_for),
    ):
        if names:
            yield f"{what}: {', '.join(names)}"
    yield from _under("take care", card.cautions)
    yield from _under("what is known", _told(card.facts))
    yield from _under("not known", card.not_known)
    yield from _under("pollen of other kinds", _told(card.crosses))
    yield from _under("where sources disagree", _conflicts(card))
    yield from _under("rootstocks", _told(card.rootstocks))
    yield from _under("cultivars", _cultivars(card))
    yield from _under("stages (BBCH)", (f"{code} {words}" for code, words in card.stages))


def as_json(card: KindCard, garden: str | None, on: dt.date) -> dict[str, Any]:
    """The whole card as one object."""
    shell = {"leafturn": __version__, "garden": garden, "on": on}
    return shell | {"kind": dataclasses.asdict(card) | {"stages": dict(card.stages)}}


def _under(title: str, told: Iterable[str]) -> Iterator[str]:
    """Lines under a title; nothing if there are none."""
    kept = list(told)
    if kept:
        yield ""
        yield f"{title}:"
        yield from (f"    {line}" for line in kept)


def _told(facts: Iterable[FactLine]) -> Iterator[str]:
    return (_fact(fact) for fact in facts)


def _fact(fact: FactLine) -> str:
    return f"{fact.what}: {fact.value} ({fact.sure}; {fact.source})"


def _conflicts(card: KindCard) -> Iterator[str]:
    for conflict in card.conflicts:
        yield conflict.about
        for reading in conflict.readings:
            yield f"    {reading.value} ({reading.sure}; {reading.source})"
        yield f"    taken: {conflict.taken}"


def _cultivars(card: KindCard) -> Iterator[str]:
    for cultivar in card.cultivars:
        also = f" (also {', '.join(cultivar.also_called)})" if cultivar.also_called else ""
        yield f"{cultivar.name}{also}"
        yield from (f"    {_fact(fact)}" for fact in cultivar.facts)
