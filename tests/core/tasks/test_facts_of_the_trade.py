"""Facts of the trade that the rules and the library must agree with: common practice, no source."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from leafturn.almanac import open_almanac
from leafturn.climbers.load import Bearer, load_of
from leafturn.garden.model import Plant
from leafturn.kinds.library import load_library
from leafturn.kinds.pruning import way_of
from leafturn.tasks.rule_model import load_rules

LIBRARY, _ = load_library()


def test_currants_bear_shade_and_crop_more_with_more_sun() -> None:
    """Common practice, no source."""
    for name in ("redcurrant", "blackcurrant"):
        light = LIBRARY.match(name).kind.light
        assert light.shade is not None
        assert light.shade.value in ("tolerant", "very tolerant", "intermediate")
        assert light.sun_hours is not None
        least, wished = light.sun_hours.value
        assert least < wished


def test_look_for_toads_and_nests_before_heaps_leaves_and_cuts() -> None:
    """Common practice, no source: every rule that moves a heap, leaves or grass says to look first."""
    for rule in load_rules().rules:
        if rule.id in ("turn-heap", "cover-heap", "gather-leaves", "keep-grass-short", "clear-top-growth"):
            assert any("ook for" in caution for caution in rule.cautions), rule.id


def bearer(trunk_cm: float, height_m: float, crown_m: float) -> Bearer:
    return Bearer(name="host", crown_m=crown_m, trunk_cm=trunk_cm, height_m=height_m, state="well")


def test_strong_nut_trees_carry_woody_climbers_if_these_are_cut_yearly() -> None:
    """Common practice, no source."""
    kiwi, nut = LIBRARY.match("hardy kiwi").kind, bearer(trunk_cm=40, height_m=12, crown_m=5)
    plant = Plant(id="kiwi", kind="hardy kiwi", year=2015)
    assert load_of(plant, kiwi, nut, 2027).verdict == "bears it, cut yearly"
    assert load_of(plant, kiwi, nut, 2027, uncut=3).cover > load_of(plant, kiwi, nut, 2027).cover
    sapling = bearer(trunk_cm=5, height_m=3, crown_m=1)
    assert load_of(plant, kiwi, sapling, 2027).verdict == "too much"
    cuts = way_of(kiwi, LIBRARY, frozenset(("cold winters", "cool summers", "wet summers")))
    assert cuts is not None
    assert cuts.cuts["winter"].winter


def test_nitrogen_fixing_climbers_may_use_young_trees_as_support() -> None:
    """Groundnut, which dies down each winter and is weak. Common practice, no source."""
    groundnut = LIBRARY.match("groundnut").kind
    assert groundnut.has("nitrogen fixer")
    plant = Plant(id="groundnut", kind="groundnut", year=2020)
    young = bearer(trunk_cm=3, height_m=2.5, crown_m=0.8)
    assert load_of(plant, groundnut, young, 2027).verdict in ("bears it", "fair if cut twice")


def test_a_heap_near_the_door_serves_those_who_walk_least(tmp_path: Path) -> None:
    """Common practice, no source: what lies within a helper's reach falls to them."""
    (tmp_path / "garden.toml").write_text(
        '[place]\nlat = 46.9\nlon = 15.9\nlast_frost = "04-24"\nfirst_frost = "10-16"\n'
        '[[helper]]\nname = "Ida"\nhours_per_week = 2\ncan = ["light"]\nreach_from = [0, 0]\nreach_m = 12\n'
        '[[helper]]\nname = "Jon"\nhours_per_week = 6\ncan = ["lift", "kneel"]\n'
        '[[heap]]\nid = "near"\nstage = "curing"\nat = [3, 4]\n'
        '[[heap]]\nid = "far"\nstage = "curing"\nat = [40, 30]\n'
    )
    week = open_almanac(tmp_path, dt.date(2027, 4, 5)).round()
    assert {job.plant: job.who for job in week.jobs if job.verb == "see whether ripe"} == {
        "near": "Ida",
        "far": "Jon",
    }


def test_strong_scented_low_cover_stands_at_stems_against_gnawing() -> None:
    """Common practice, no source; it takes the place of no guard."""
    rule = next(r for r in load_rules().rules if r.id == "set-scented-cover")
    assert rule.source == "common practice, no source"
    assert "bark gnawed" in rule.applies.traits
    assert any("no guard" in caution for caution in rule.cautions)


def test_every_family_of_work_has_its_rule_and_its_source() -> None:
    rules = load_rules().rules
    assert len(rules) >= 60
    families = {
        "cut climbers": ("winter-cut-climber", "summer-cut-climber", "cut-male-climber-after-bloom"),
        "prune": ("winter-prune-tree", "prune-tree-in-dry-summer", "shape-young-tree", "prune-bleeding-tree"),
        "thin and prop": ("thin-fruit", "prop-limbs"),
        "ties and guards": ("check-ties", "guard-check", "guard-on", "check-stakes"),
        "propagate": ("save-by-scions", "save-by-cuttings", "stratify-seed", "order-successor"),
        "feed the soil": ("chop-and-drop", "spring-mulch", "autumn-mulch", "spread-compost", "water"),
        "heaps": ("turn-heap", "see-whether-ripe", "cover-heap"),
        "gnawers": ("keep-grass-short", "set-scented-cover"),
        "scouting": ("scout-codling-moth", "look-for-slugs"),
        "harvest": ("pick", "look-through-store", "cover-from-frost"),
        "looks": ("note-bloom", "crown-look", "path-check-after-wind"),
        "leaf fall": ("gather-leaves", "rake-scab-leaves"),
    }
    known = {rule.id for rule in rules}
    assert {rule for family in families.values() for rule in family} <= known
    own = [rule for rule in rules if rule.cut is None]
    assert all(rule.source.strip() and rule.because.endswith(".") for rule in own)


def test_windows_that_diseases_close_say_why() -> None:
    """Silver leaf, oak wilt and bleeding: the reason stands in the way of pruning (handbooks, recalled)."""
    by_cut = {rule.cut: rule for rule in load_rules().rules if rule.cut is not None}
    for name, words in (
        ("plums, cool summers", "ilver leaf"),
        ("oaks", "oak wilt"),
        ("kiwis", "bleed"),
        ("bleeders, mild winters", "bleed"),
        ("bleeders, cold winters", "bleed"),
    ):
        way = LIBRARY.pruning[name]
        assert words in way.why.value
        assert way.never is not None
        first = next(iter(way.cuts.values()))
        assert by_cut[first.cut].too_late == "do not"
