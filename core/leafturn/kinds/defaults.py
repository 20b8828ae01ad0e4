"""What stands in where nothing is known: defaults by family and habit, every one marked a guess."""

from collections.abc import Mapping
from typing import Any

import msgspec
from msgspec import Struct

from leafturn.base.closed_words import Habit, Layer
from leafturn.kinds.model import Fact, Kind

DEFAULT_SOURCE = "family default"
_BASICS = ("bloom", "leaf", "age", "size", "light")
_SECTIONS = (*_BASICS, "harvest", "pollination", "vine", "soil")
_UNKNOWN_CAUTION = (
    "This plant is not in the library, so nothing here says whether any part of it is poisonous: "
    "ask someone who knows it before anything is eaten."
)

Table = Mapping[str, Any]


class Defaults(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """The contents of defaults.toml.

    `scale` holds the base and start of the library's common heat scale; `word` maps a word of a
    plant's name to the habit it tells; `family` and `habit` hold sections of plain values.
    """

    scale: dict[str, Fact[Any]]
    word: dict[str, Habit]
    layer: dict[str, Layer]
    family: dict[str, dict[str, Any]]
    habit: dict[str, dict[str, Any]]


def fill(kind: Kind, defaults: Defaults, sections: tuple[str, ...] = _BASICS) -> Kind:
    """`kind` with the gaps of its basic sections filled from its family, then its habit.

    What was known stays; what is filled says "guess" and gives `DEFAULT_SOURCE` as its source.
    """
    family = defaults.family.get(kind.family, {})
    habit = defaults.habit[kind.habit]
    changed: dict[str, Struct] = {}
    for name in sections:
        if kind.evergreen and name == "leaf":
            continue
        section: Struct = getattr(kind, name)
        gaps = _gaps(section, habit.get(name, {}) | family.get(name, {}))
        if name == "bloom" and habit.get("bloom"):
            gaps |= {key: fact for key, fact in defaults.scale.items() if getattr(section, key) is None}
        if gaps:
            changed[name] = msgspec.structs.replace(section, **gaps)
    return msgspec.structs.replace(kind, **changed) if changed else kind


def guess_kind(name: str, defaults: Defaults, family: str, habit: Habit, layer: Layer | None = None) -> Kind:
    """A kind of which only the name is known, with everything a guess by family and habit.

    Parameters
    ----------
    name : str
        As the user wrote it.
    family : str
        Botanical family if a word of the name tells it, else empty.
    habit, layer : str
        What it is taken for; the layer follows the habit where it is not given.
    """
    blank = Kind(
        name=name,
        botanical="",
        family=family,
        habit=habit,
        layer=layer or defaults.layer[habit],
        guessed=True,
        cautions=(Fact(_UNKNOWN_CAUTION, DEFAULT_SOURCE, "guess"),),
    )
    return as_guess(fill(blank, defaults, _SECTIONS))


def as_guess(kind: Kind) -> Kind:
    """`kind` with every fact of its sections marked a guess."""
    changed: dict[str, Struct] = {}
    for name in _SECTIONS:
        section: Struct = getattr(kind, name)
        facts = {key: getattr(section, key) for key in section.__struct_fields__}
        marked = {
            key: Fact(fact.value, fact.source, "guess")
            for key, fact in facts.items()
            if fact is not None and fact.sure != "guess"
        }
        if marked:
            changed[name] = msgspec.structs.replace(section, **marked)
    return msgspec.structs.replace(kind, **changed) if changed else kind


def _gaps(section: Struct, values: Table) -> dict[str, Any]:
    """Facts for those fields of a section that are None and have a default."""
    return {
        key: Fact(value, DEFAULT_SOURCE, "guess")
        for key, value in values.items()
        if key in section.__struct_fields__ and getattr(section, key) is None
    }
