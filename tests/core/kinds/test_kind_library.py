"""The library as a whole: traits, gaps filled, things that must agree with one another.

What every single entry must pass stands in checks/test_kinds_file.py.
"""

from __future__ import annotations

import re
import tomllib
from typing import Any

import msgspec
import pytest
from tests.samples.places import DEMO, ROOT

from leafturn.kinds import defaults as filling
from leafturn.kinds.allele_names import allele_names
from leafturn.kinds.checks.evidence import facts_in
from leafturn.kinds.defaults import DEFAULT_SOURCE
from leafturn.kinds.growing import HeatSum
from leafturn.kinds.library import Library, load_library
from leafturn.kinds.model import FROST_STAGES, BloomFacts, Cultivar, Fact, Kind
from leafturn.kinds.names import without_spaces
from leafturn.kinds.packaged import DATA
from leafturn.kinds.wild import threats
from leafturn.kinds.word_lists import stage_lists, traits

DEMO = DEMO / "garden.toml"
DOCS = ROOT / "docs" / "kinds.md"


@pytest.fixture(scope="module")
def library() -> Library:
    return load_library()[0]


def test_every_source_is_used_and_recalled_ones_are_never_sure(library: Library) -> None:
    facts: list[Fact[Any] | HeatSum] = [fact for kind in library.kinds.values() for _, fact in facts_in(kind)]
    for stock in library.rootstocks:
        facts += [
            fact for field in stock.__struct_fields__ if isinstance(fact := getattr(stock, field), Fact)
        ]
    facts += library.crosses.values()
    facts += [names.says for names in allele_names().values()]
    facts += [threat.says for threat in threats().values()]
    for pest in library.pests.values():
        facts += [pest.scout, *pest.heat_sums]
    for way in library.pruning.values():
        facts += [fact for fact in (way.says, way.never, way.why, way.frost_why) if fact is not None]
        facts += [Fact(cut.what, cut.source, cut.sure) for cut in way.cuts.values()]
    for conflict in library.conflicts.values():
        facts += conflict.readings
    assert {fact.source for fact in facts} == set(library.sources)
    for fact in facts:
        assert fact.sure != "sure" or library.sources[fact.source].read, fact


def test_the_demo_gardens_kinds_cultivars_and_stocks_are_known(library: Library) -> None:
    garden = tomllib.loads(DEMO.read_text("utf-8"))
    for plant in garden["plant"]:
        match = library.match(plant["kind"])
        assert match.exact, plant["kind"]
        assert not match.kind.guessed
        if "cultivar" in plant:
            assert library.cultivar(match.kind, plant["cultivar"]) is not None, plant["cultivar"]
        if "rootstock" in plant:
            assert library.rootstock(plant["rootstock"], match.kind) is not None, plant["rootstock"]


def test_size_of_the_library(library: Library) -> None:
    assert len(library.kinds) >= 240
    cultivars = sum(len(kind.cultivars) for kind in library.kinds.values())
    assert cultivars >= 750
    habits = {kind.habit for kind in library.kinds.values()}
    assert habits == {"tree", "shrub", "climber", "cane", "perennial", "bulb", "fern", "ground"}


def test_no_cultivar_stands_without_a_fact_of_its_own(library: Library) -> None:
    for kind in library.kinds.values():
        for name, cultivar in kind.cultivars.items():
            facts = [getattr(cultivar, field) for field in cultivar.__struct_fields__]
            assert any(isinstance(fact, Fact) for fact in facts), f"{kind.name} {name}"
        assert not kind.also_grown.keys() & kind.cultivars.keys(), kind.name


def test_a_cultivar_known_by_name_alone_is_found_and_taken_as_its_kind(library: Library) -> None:
    medlar = library.kinds["medlar"]
    assert library.cultivar(medlar, "large dutch medlar") == ("Dutch", Cultivar())
    assert library.clone(medlar, "Large Dutch") == library.clone(medlar, "Monstrous") == "Dutch"
    assert library.clone(medlar, "Royal") != "Dutch"


def test_every_kind_has_its_basics(library: Library) -> None:
    for kind in library.kinds.values():
        assert kind.size.height_m is not None, kind.name
        assert kind.size.crown_m is not None, kind.name
        assert kind.size.life_years is not None, kind.name
        assert kind.age.spread_years is not None, kind.name
        if kind.habit != "fern":
            for field in set(kind.bloom.__struct_fields__) - {"timing"}:  # left out: buds that rested
                assert getattr(kind.bloom, field) is not None, f"{kind.name}: bloom.{field}"
        if not kind.evergreen:
            assert kind.leaf.out_heat is not None, kind.name
            assert kind.leaf.fall_after_frost_days is not None, kind.name


def test_traits_are_from_the_list_and_the_list_is_in_the_docs(library: Library) -> None:
    text = DOCS.read_text("utf-8")
    carried = {trait for kind in library.kinds.values() if kind.traits for trait in kind.traits.value}
    assert carried == set(traits())
    for trait, meaning in traits().items():
        assert f"| {trait} | {meaning} |" in text


def test_every_list_of_stages_is_gone_by_and_every_kind_goes_by_one(library: Library) -> None:
    assert {kind.stages.value for kind in library.kinds.values() if kind.stages} == set(stage_lists())


def test_the_docs_name_every_entry_of_a_kind_and_a_cultivar() -> None:
    text = DOCS.read_text("utf-8")
    sections = [field for field in Kind.__struct_fields__ if field not in ("name", "guessed")]
    blank = Kind(botanical="", family="", habit="shrub", layer="shrub")
    for field in (*sections, *Cultivar.__struct_fields__):
        assert field in text, field
    for section in sections:
        for field in getattr(type(getattr(blank, section)), "__struct_fields__", ()):
            assert f"`{field}`" in text, f"{section}.{field}"


def test_shared_names_lead_to_kinds_and_belong_to_none(library: Library) -> None:
    own = {without_spaces(name) for kind in library.kinds.values() for name in (kind.name, *kind.common)}
    for name, meant in library.shared_names.items():
        assert len(meant) > 1, name
        assert set(meant) <= set(library.kinds), name
        assert without_spaces(name) not in own, name


def test_stocks_name_kinds_that_exist(library: Library) -> None:
    for stock in library.rootstocks:
        assert set(stock.kinds) <= set(library.kinds), stock.name


def test_dioecious_kinds_say_how_many_females_a_male_serves(library: Library) -> None:
    for kind in library.kinds.values():
        system = kind.pollination.system
        assert system is not None, kind.name
        if system.value == "dioecious":
            assert kind.pollination.females_per_male is not None, kind.name


def test_kinds_grown_for_fruit_say_who_can_serve_them(library: Library) -> None:
    for kind in library.kinds.values():
        needs = kind.pollination
        if needs.system is not None and needs.system.value != "fruit not wanted":
            assert needs.cross_group is not None, kind.name
            assert needs.half_metres is not None, kind.name
            if needs.system.value != "dioecious":
                assert needs.self_share is not None, kind.name


def test_plums_of_different_kind_do_not_serve_each_other(library: Library) -> None:
    groups = [
        library.kinds[name].pollination.cross_group
        for name in ("european plum", "myrobalan plum", "japanese plum", "american plum")
    ]
    assert len({group.value for group in groups if group is not None}) == 4
    damson = library.kinds["damson"].pollination.cross_group
    assert damson is not None
    assert damson.value == "european plum"


def test_crosses_join_cross_groups_that_exist(library: Library) -> None:
    groups = {
        kind.pollination.cross_group.value
        for kind in library.kinds.values()
        if kind.pollination.cross_group is not None
    }
    for pair, share in library.crosses.items():
        assert len(pair) == 2
        assert pair <= groups, pair
        assert 0 < share.value < 1, pair


def test_plums_of_two_and_of_six_sets_of_chromosomes_do_not_cross(library: Library) -> None:
    # Growers' and extension pages (read): Japanese, American and myrobalan plums are diploid and cross in
    # part, European plums are hexaploid. Wood 1932 (recalled): Persian and Japanese walnut are inter-fertile.
    assert frozenset(("japanese plum", "american plum")) in library.crosses
    assert frozenset(("japanese plum", "myrobalan plum")) in library.crosses
    assert frozenset(("persian walnut", "heartnut and butternut")) in library.crosses
    assert not any("european plum" in pair for pair in library.crosses)


def test_climbers_say_how_they_hold_and_grow(library: Library) -> None:
    for kind in library.kinds.values():
        if kind.habit == "climber":
            assert kind.vine.holds_by is not None, kind.name
            assert kind.vine.metres_per_100_heat is not None, kind.name


@pytest.mark.parametrize("look_alike", ["lily of the valley", "autumn crocus", "lords-and-ladies"])
def test_ramsons_name_their_look_alikes(library: Library, look_alike: str) -> None:
    # Look-alikes as in poison centres' spring warnings (Ljubljana University Medical Centre and others).
    words = " ".join(caution.value for caution in library.kinds["ramsons"].cautions).lower()
    assert look_alike.replace("-", " ") in words.replace("-", " ")
    assert library.kinds[look_alike].has("poisonous")


def test_filling_keeps_what_is_known_and_marks_the_rest(library: Library) -> None:
    bare = Kind(
        name="x",
        botanical="X y",
        family="Juglandaceae",
        habit="tree",
        layer="canopy",
        bloom=BloomFacts(first_open_heat=Fact(111.0, "own guess", "fair")),
    )
    full = filling.fill(bare, library.defaults)
    assert full.bloom.first_open_heat == Fact(111.0, "own guess", "fair")
    assert full.leaf.out_heat == Fact(320.0, DEFAULT_SOURCE, "guess")  # of the family, not of trees at large
    assert full.size.height_m is not None
    assert full.harvest.part is None  # only the basics are filled


def test_defaults_convert_to_facts(library: Library) -> None:
    for habit in library.defaults.habit:
        for family in ("", *library.defaults.family):
            kind = filling.guess_kind("x", library.defaults, family, habit)  # type: ignore[arg-type]
            assert msgspec.convert(msgspec.to_builtins(kind), Kind) == kind


def test_the_heat_scale_is_common_to_the_library(library: Library) -> None:
    blooms = [kind.bloom for kind in library.kinds.values()]
    assert {bloom.base_c.value for bloom in blooms if bloom.base_c} == {5.0}
    assert {bloom.start.value for bloom in blooms if bloom.start} == {"season"}


def test_citing_says_what_was_recalled(library: Library) -> None:
    apple = library.kinds["apple"]
    assert apple.frost.full_bloom is not None
    assert "Penn State" in library.cite(apple.frost.full_bloom)
    assert apple.bloom.length_days is not None
    assert library.cite(apple.bloom.length_days).endswith("(from memory)")
    assert library.cite(Fact(1, "my notebook", "fair")) == "my notebook"


def test_data_files_have_unix_lines() -> None:
    for file in DATA.rglob("*.toml"):
        text = file.read_bytes()
        assert b"\r" not in text
        assert text.endswith(b"\n")


def test_a_source_that_was_read_does_not_say_that_it_was_recalled(library: Library) -> None:
    """A source of which a part only was read stands twice, so that every value is either read or recalled."""
    for key, source in library.sources.items():
        if source.read:
            assert not re.search(r"from memory|recalled", source.title + source.author), key


def test_what_is_lent_is_what_the_lender_has(library: Library) -> None:
    for kind in library.kinds.values():
        for stage in FROST_STAGES:
            fact = kind.frost.at(stage)
            if fact is not None and fact.at.startswith("lent by "):
                lender = library.kinds[fact.at.removeprefix("lent by ")].frost.at(stage)
                assert lender is not None
                assert lender.value == fact.value, (kind.name, stage)
