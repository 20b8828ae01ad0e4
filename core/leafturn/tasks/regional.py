"""The program's rules adapted to one garden: to its animals, and to the months of its hemisphere."""

from __future__ import annotations

from functools import lru_cache

import msgspec

from leafturn.base.closed_words import WorldPart
from leafturn.base.day_words import months_of_the_south
from leafturn.base.quantities import Units, retold
from leafturn.garden.animals import ANIMALS
from leafturn.garden.model import Place
from leafturn.garden.regions import world_part
from leafturn.tasks.rule_model import HoldRule, Rule, RuleBook, load_rules


def rules_for(place: Place) -> RuleBook:
    """The program's own rules and holds with the words of a place; a garden's own are not touched."""
    return _rules_in(world_part(place.lat, place.lon), place.southern, place.units)


@lru_cache(maxsize=8)
def _rules_in(part: WorldPart, southern: bool, units: Units) -> RuleBook:
    book = load_rules()

    def here(text: str) -> str:
        for name, animals in ANIMALS[part].items():
            text = text.replace(name, animals)
        text = retold(text, units)
        return months_of_the_south(text) if southern else text

    def rule(one: Rule) -> Rule:
        return msgspec.structs.replace(
            one,
            because=here(one.because),
            if_skipped=here(one.if_skipped),
            cautions=tuple(map(here, one.cautions)),
            frost_cautions=tuple(map(here, one.frost_cautions)),
        )

    def hold(one: HoldRule) -> HoldRule:
        return msgspec.structs.replace(one, reason=here(one.reason))

    return RuleBook(
        rules=tuple(map(rule, book.rules)), holds={name: hold(one) for name, one in book.holds.items()}
    )
