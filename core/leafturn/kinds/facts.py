"""What the library knows of a kind, as lines to read: what, value with its unit, how sure, source."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

import msgspec
from msgspec import Struct

from leafturn.base import quantities
from leafturn.base.units import METRES_IN_A_FOOT
from leafturn.base.value import Value
from leafturn.kinds.allele_names import allele_names, in_both_names
from leafturn.kinds.growing import HeatSum
from leafturn.kinds.library import Library
from leafturn.kinds.model import Cultivar, Fact, Kind
from leafturn.kinds.pruning import pruning_lines
from leafturn.kinds.shared_facts import pests_of

SECTIONS = (
    "bloom", "leaf", "harvest", "pollination", "age", "size",
    "frost", "vine", "light", "water", "chill", "soil", "hardiness", "pruning", "forage",
)  # fmt: skip

_PHRASES = {
    "bloom.timing": "flowers come from",
    "bloom.first_open_heat": "heat to first open, degree-days C",
    "bloom.base_c": "heat counts above, C",
    "bloom.start": "heat counts from",
    "bloom.full_after_days": "full bloom after first open, days",
    "bloom.length_days": "bloom lasts, days",
    "bloom.spread_days": "bloom differs from what warmth tells by, days",
    "leaf.out_heat": "heat to leaf-out, degree-days C above 5",
    "leaf.fall_after_frost_days": "leaves fall after first frost, days",
    "harvest.after_full_bloom_days": "ripe after full bloom, days",
    "harvest.counted_where": "those days are counted where there are",
    "harvest.season": "picked in western Europe from and to",
    "harvest.not_before": "ripe nowhere before",
    "harvest.stops_below_c": "stops growing below",
    "harvest.length_days": "picking lasts, days",
    "harvest.spread_days": "ripeness differs by, days",
    "harvest.part": "what is picked",
    "pollination.system": "pollination",
    "pollination.self_share": "set by own pollen, share",
    "pollination.carrier": "pollen carried by",
    "pollination.half_metres": "a partner counts half at, m",
    "pollination.published_metres": "pages say how far its partner may stand, m",
    "pollination.cross_group": "crosses with",
    "pollination.s_system": "incompatibility",
    "pollination.females_per_male": "females one male serves",
    "age.seedling_years": "years to flower, seedling",
    "age.grafted_years": "years to flower, grafted",
    "age.cutting_years": "years to flower, cutting",
    "age.spread_years": "years to flower differ by",
    "size.height_m": "mature height, m",
    "size.crown_m": "mature crown radius, m",
    "size.life_years": "life, years",
    "size.growth_k": "growth constant, per year",
    "size.height_20_m": "height 20 years after planting, m",
    "frost.swollen": "10 and 90 % killed as buds swell, C",
    "frost.green_tip": "10 and 90 % killed at green tip, C",
    "frost.tight_cluster": "10 and 90 % killed at tight cluster, C",
    "frost.pink": "10 and 90 % killed at pink, C",
    "frost.first_open": "10 and 90 % killed at first open, C",
    "frost.full_bloom": "10 and 90 % killed at full bloom, C",
    "frost.petal_fall": "10 and 90 % killed at petal fall, C",
    "frost.green_fruit": "10 and 90 % killed at green fruit, C",
    "frost.flowers_for_crop": "flowers that must live for a full crop, share",
    "frost.green_tip_share": "share of the warmth to first open had by green tip",
    "vine.metres_per_100_heat": "growth per 100 degree-days C, m",
    "vine.holds_by": "holds by",
    "vine.vigour": "vigour of the climber",
    "vine.host_trunk_cm": "a living host's trunk at least, cm",
    "harvest.keeps_days": "keeps, days",
    "size.shape": "crown",
    "light.need_percent": "light wanted May to September, %",
    "light.scorch_percent": "scorches above light of, %",
    "light.through_leaf": "light through its crown in leaf, share",
    "light.through_bare": "light through its bare crown, share",
    "light.shade": "in shade when young",
    "light.sun_hours": "hours of sun for a crop, least and best",
    "water.kc_mid": "crop coefficient in mid season",
    "water.root_depth_m": "rooting depth, m",
    "water.depletion": "share of soil water it may use before it suffers",
    "chill.hours": "winter chill, hours at or below 7.2 C",
    "chill.portions": "winter chill, portions",
    "hardiness.zone": "coldest USDA zone",
    "hardiness.flower_bud_c": "half its resting flower buds die between, C",
    "hardiness.harmed_c": "leaves or young wood hurt below, C",
    "hardiness.killed_c": "killed, or killed to the ground, below, C",
    "hardiness.where_mild": "where winters are mild",
    "forage.nectar": "nectar for bees, 0 to 4",
    "forage.pollen": "pollen for bees, 0 to 4",
    "forage.elsewhere": "besides flowers bees find",
    "soil.mulch_kg_m2": "fresh mulch a year, kg from a square metre",
    "soil.juglone": "juglone",
    "soil.fixes_nitrogen": "fixes nitrogen",
    "soil.nitrogen_kg_ha": "nitrogen fixed, kg a hectare and year",
    "soil.mulch_cuts_a_year": "cuts for mulch a year",
}


_SUM_UNITS = {
    "F-days": "degree-days F above {base:g} F",
    "C-days": "degree-days C above {base:g} C",
    "GDH C": "growing degree hours C above {base:g} C",
    "chill units": "chill units",
    "chill portions": "chill portions",
}
_START = {"01-01": "1 January", "03-01": "1 March", "04-01": "1 April", "rest": "the end of winter rest"}


# NIST Special Publication 811, appendix B.8: 1 lb = 0.45359237 kg, 1 ft = 0.3048 m, 1 acre = 4046.873 m2.
LB_FT2 = METRES_IN_A_FOOT**2 / quantities.KILOGRAMS_IN_A_POUND
LB_ACRE = 0.4046873 / quantities.KILOGRAMS_IN_A_POUND

# What the words of a fact end in, and how it is told where US units are spoken.
_IN_US_UNITS: tuple[tuple[str, str, Callable[[float], str]], ...] = (
    (", m", ", ft", lambda value: quantities.bare_metres(value)),
    (", cm", ", in", lambda value: quantities.centimetres(value).partition(" ")[0]),
    (", C", ", F", lambda value: quantities.bare_celsius(value, None)),
    (", degree-days C", ", degree-days F", lambda value: f"{quantities.heat(value)}"),
    (", degree-days C above 5", ", degree-days F above 41", lambda value: f"{quantities.heat(value)}"),
    (" at or below 7.2 C", " at or below 45 F", lambda value: f"{value:g}"),
    (", kg from a square metre", ", lb from a square foot", lambda value: f"{value * LB_FT2:.2g}"),
    (", kg a hectare and year", ", lb an acre and year", lambda value: f"{value * LB_ACRE:.0f}"),
)


class FactLine(Value):
    """One thing known of a plant: what, the value in words, how sure, and the source in words.

    `at` is where in the source it stands; `read` whether it was read there, and not recalled or guessed.
    """

    what: str
    value: str
    sure: str
    source: str
    at: str = ""
    read: bool = False


def facts_of(
    kind: Kind, library: Library, cultivar: Cultivar | None = None, climate: frozenset[str] | None = None
) -> Iterator[FactLine]:
    """Every fact of a kind, section by section, then its pests and sums as published.

    Its pruning is that of the cultivar, where this is cut otherwise, and of the climate, where one is given.
    """
    if kind.traits is not None:
        yield _known("traits", kind.traits, library)
    if kind.name in allele_names():
        yield _known("numbering of S-alleles", allele_names()[kind.name].says, library)
    for name in SECTIONS:
        if name == "pruning":
            yield from (
                _known(what, fact, library) for what, fact in pruning_lines(kind, library, cultivar, climate)
            )
            continue
        section: Struct = getattr(kind, name)
        for field in section.__struct_fields__:
            fact = getattr(section, field)
            if fact is not None:
                yield _known(
                    _PHRASES.get(f"{name}.{field}", f"{name} {field.replace('_', ' ')}"), fact, library
                )
    if kind.invasive_where is not None:
        yield _known("invasive in", kind.invasive_where, library)
    for published in kind.heat_sums:
        yield sum_in_words(published, library)
    for pest, known in pests_of(kind, library):
        yield _known(f"watch for {pest}", known.scout, library)
        for published in known.heat_sums:
            yield sum_in_words(published, library, pest)


def sum_in_words(published: HeatSum, library: Library, whose: str = "") -> FactLine:
    """A published sum with its base, start and method."""
    amount = f"{published.low:g}"
    if published.high != published.low:
        amount += f" to {published.high:g}"
    parts = [
        f"{amount} {_SUM_UNITS[published.unit].format(base=published.base)}",
        "start not said"
        if published.start == "not said"
        else f"from {_START.get(published.start, published.start)}",
        "method not said" if published.method == "not said" else published.method,
    ]
    what = ": ".join(part for part in (whose, published.what) if part)
    cited = library.cite(published)
    read = library.was_read(published)
    return FactLine(what=what, value=", ".join(parts), sure=published.sure, source=cited, read=read)


def cultivar_facts(name: str, cultivar: Cultivar, kind: Kind, library: Library) -> Iterator[FactLine]:
    """Every fact by which a cultivar differs from its kind; alleles by both names."""
    for field in cultivar.__struct_fields__:
        fact = getattr(cultivar, field)
        if isinstance(fact, Fact):
            if field in ("s_alleles", "pollen_alleles"):
                fact = msgspec.structs.replace(fact, value=in_both_names(kind.name, fact.value))
            said = field.replace("_", " ")
            yield _known(f"{name}: {said}" if name else said, fact, library)


def _known(what: str, fact: Fact[Any], library: Library) -> FactLine:
    cited = library.cite(fact)
    read = library.was_read(fact)
    what, value = _spoken(what, fact.value)
    return FactLine(what=what, value=value, sure=fact.sure, source=cited, at=fact.at, read=read)


def _spoken(what: str, value: object) -> tuple[str, str]:
    """What a fact is about and its value, both in the units that are spoken.

    Published sums are no part of it: they keep the unit of their page.
    """
    if quantities.spoken() == "us":
        if what == _PHRASES["vine.metres_per_100_heat"] and isinstance(value, float | int):
            return "growth per 100 degree-days F, ft", f"{value / 1.8 / METRES_IN_A_FOOT:.2g}"
        for ending, instead, say in _IN_US_UNITS:
            if what.endswith(ending):
                told = value if isinstance(value, tuple | list) else (value,)
                if all(isinstance(one, float | int) for one in told):
                    return what.removesuffix(ending) + instead, ", ".join(map(say, told))
    return what, _value(value)


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
