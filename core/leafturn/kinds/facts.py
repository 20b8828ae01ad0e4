"""What the library knows of a kind, as lines to read: what, value with its unit, how sure, source."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

from msgspec import Struct

from leafturn.kinds.library import Library
from leafturn.kinds.model import Cultivar, Fact, Kind

SECTIONS = (
    "bloom", "leaf", "harvest", "pollination", "age", "size",
    "frost", "vine", "light", "water", "chill", "soil",
)  # fmt: skip

_PHRASES = {
    "bloom.first_open_heat": "heat to first open, degree-days C",
    "bloom.base_c": "heat counts above, C",
    "bloom.start": "heat counts from",
    "bloom.full_after_days": "full bloom after first open, days",
    "bloom.length_days": "bloom lasts, days",
    "bloom.spread_days": "bloom strays from heat by, days",
    "leaf.out_heat": "heat to leaf-out, degree-days C above 5",
    "leaf.fall_after_frost_days": "leaves fall after first frost, days",
    "harvest.after_full_bloom_days": "ripe after full bloom, days",
    "harvest.from_heat": "picked from, degree-days C above 5",
    "harvest.length_days": "picking lasts, days",
    "harvest.spread_days": "ripeness strays by, days",
    "harvest.part": "what is picked",
    "pollination.system": "pollination",
    "pollination.self_share": "set by own pollen, share",
    "pollination.carrier": "pollen carried by",
    "pollination.half_metres": "a partner counts half at, m",
    "pollination.cross_group": "crosses with",
    "pollination.s_system": "incompatibility",
    "pollination.females_per_male": "females one male serves",
    "age.seedling_years": "years to flower, seedling",
    "age.grafted_years": "years to flower, grafted",
    "age.cutting_years": "years to flower, cutting",
    "age.spread_years": "years to flower stray by",
    "size.height_m": "mature height, m",
    "size.crown_m": "mature crown radius, m",
    "size.life_years": "life, years",
    "size.growth_k": "growth constant, per year",
    "frost.swollen": "10 and 90 % killed as buds swell, C",
    "frost.green_tip": "10 and 90 % killed at green tip, C",
    "frost.tight_cluster": "10 and 90 % killed at tight cluster, C",
    "frost.pink": "10 and 90 % killed at pink, C",
    "frost.first_open": "10 and 90 % killed at first open, C",
    "frost.full_bloom": "10 and 90 % killed at full bloom, C",
    "frost.petal_fall": "10 and 90 % killed at petal fall, C",
    "frost.green_fruit": "10 and 90 % killed at green fruit, C",
    "vine.metres_per_100_heat": "growth per 100 degree-days C, m",
    "vine.holds_by": "holds by",
    "soil.juglone": "juglone",
    "soil.fixes_nitrogen": "fixes nitrogen",
    "soil.nitrogen_kg_ha": "nitrogen fixed, kg a hectare and year",
    "soil.mulch_cuts_a_year": "cuts for mulch a year",
}


class Known(NamedTuple):
    """One fact in words."""

    what: str
    value: str
    sure: str
    source: str


def facts_of(kind: Kind, library: Library) -> Iterator[Known]:
    """Every fact of a kind, section by section."""
    if kind.traits is not None:
        yield _known("traits", kind.traits, library)
    for name in SECTIONS:
        section: Struct = getattr(kind, name)
        for field in section.__struct_fields__:
            fact = getattr(section, field)
            if fact is not None:
                yield _known(
                    _PHRASES.get(f"{name}.{field}", f"{name} {field.replace('_', ' ')}"), fact, library
                )


def cultivar_facts(name: str, cultivar: Cultivar, library: Library) -> Iterator[Known]:
    """Every fact by which a cultivar differs from its kind."""
    for field in cultivar.__struct_fields__:
        fact = getattr(cultivar, field)
        if isinstance(fact, Fact):
            yield _known(f"{name}: {field.replace('_', ' ')}", fact, library)


def _known(what: str, fact: Fact[Any], library: Library) -> Known:
    return Known(what, _value(fact.value), fact.sure, library.cite(fact))


def _value(value: object) -> str:
    match value:
        case bool():
            return "yes" if value else "no"
        case float():
            return f"{value:g}"
        case tuple() | list():
            return ", ".join(_value(v) for v in value)
        case _:
            return str(value)
