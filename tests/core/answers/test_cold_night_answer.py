"""A cold night typed in, on the demo garden (invented plants and weather)."""

from __future__ import annotations

import datetime as dt
import itertools
import shutil
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.in_process import opened
from tests.samples.garden_text import almanac_of, garden_text, own_rule
from tests.samples.garden_text import plant as planted
from tests.samples.places import DEMO

from leafturn.almanac import Almanac, open_almanac
from leafturn.answers.cold_night import ColdHit
from leafturn.journal.entries import BloomNote, ColdNightNote
from leafturn.tasks.rule_model import load_rules
from leafturn.tasks.timing.frost_threat import COVER_RULE, covering

STORY_DAY = dt.date(2027, 4, 19)


@pytest.fixture(scope="module")
def almanac(weir_meadow: Almanac) -> Almanac:
    return weir_meadow


def hit(almanac: Almanac, plant: str, celsius: float) -> ColdHit:
    return next(h for h in almanac.tonight(celsius).plants if h.plant == plant)


def test_the_worst_comes_first_and_ranges_hold_the_likely_share(almanac: Almanac) -> None:
    night = almanac.tonight(-3.0)
    assert [h.share for h in night.plants] == sorted((h.share for h in night.plants), reverse=True)
    for found in night.plants:
        assert 0.0 <= found.low <= found.share <= found.high <= 1.0
        assert found.tenth_c > found.nine_tenths_c
        assert found.words.startswith(f"a tenth at {found.tenth_c:.1f} C")


def test_colder_nights_never_look_better(almanac: Almanac) -> None:
    nights = [
        {h.plant: (h.low, h.share, h.high) for h in almanac.tonight(c).plants} for c in (1, -1, -2, -4, -9)
    ]
    for mild, hard in itertools.pairwise(nights):
        assert mild.keys() == hard.keys()
        for plant, shares in mild.items():
            assert all(a <= b for a, b in zip(shares, hard[plant], strict=True)), plant


def test_the_figure_is_the_gardens_own_unless_it_is_said_to_be_the_stations(almanac: Almanac) -> None:
    pocket = almanac.garden.place.frost_pocket_c
    own, station = almanac.tonight(-3.0), almanac.tonight(-3.0, at_station=True)
    assert (own.garden_c, own.station_c) == (-3.0, -3.0 - pocket)
    assert (station.garden_c, station.station_c) == (-3.0 + pocket, pytest.approx(-3.0))
    assert station.plants == almanac.tonight(-3.0 + pocket).plants
    assert own.said == "In the garden -3.0 C; the weather station would read -2.0 C."


def test_a_noted_stage_is_said_to_be_noted(tmp_path: Path) -> None:
    """Pear in full bloom, 28 F a tenth (Penn State and Utah State extension, read)."""
    garden = Path(shutil.copytree(DEMO, tmp_path / "meadow"))
    before = open_almanac(garden, STORY_DAY)
    assert hit(before, "comice-1", -2.2).stage_from == "computed"
    entry = BloomNote(on=STORY_DAY, plant="comice-1", stage="full bloom")
    after, _ = before.note(entry, STORY_DAY)
    found = hit(after, "comice-1", -2.2)
    assert (found.stage, found.stage_from) == ("full bloom", "noted today")
    assert found.share == pytest.approx(0.1, abs=0.02)
    assert found.low < 0.05 < 0.2 < found.high
    later = hit(after.at(STORY_DAY + dt.timedelta(days=8)), "comice-1", -2.2)
    assert later.stage != "full bloom"
    assert later.stage_from == "computed from full bloom noted 19 Apr"


def test_what_is_low_is_covered_and_what_is_tall_is_not(almanac: Almanac) -> None:
    laid = covering(load_rules().rules, almanac._seasons.now)
    kept = laid.plants
    assert laid.below_m is not None
    for found in almanac.tonight(-4.0).plants:
        assert found.height_m is not None
        assert found.cover is (found.share >= 0.1 and found.plant in kept)
        assert found.cover is found.cover_words.startswith("cover it (")
        assert found.height_m < laid.below_m or found.plant not in kept


@given(celsius=st.floats(-12, 6))
@settings(max_examples=25, deadline=None)
def test_nothing_is_covered_that_likely_loses_less_than_a_tenth(almanac: Almanac, celsius: float) -> None:
    for found in almanac.tonight(celsius).plants:
        assert not found.cover or found.share >= 0.1 - 1e-9
        if "ready" in found.cover_words:
            assert not found.cover
            assert found.high >= 0.1 - 1e-9


@pytest.mark.sweep(each=4)
@pytest.mark.parametrize(("on", "celsius"), [((4, 3), -5), ((4, 19), -3), ((4, 19), 0.5), ((5, 5), -2.5)])
def test_the_round_covers_the_plants_that_a_cold_night_typed_in_names(
    tmp_path: Path, on: tuple[int, int], celsius: float
) -> None:
    garden = Path(shutil.copytree(DEMO, tmp_path / "meadow"))
    day = dt.date(2027, *on)
    after, _ = open_almanac(garden, day).note(ColdNightNote(on=day, tmin_c=celsius), day)
    told = {hit.plant: hit for hit in after.tonight(celsius).plants}
    jobs = [job for job in after.jobs() if job.verb == "cover"]
    due = {job.plant for job in jobs if job.state == "due"}
    assert due == {plant for plant, hit in told.items() if hit.cover}
    for job in jobs:
        limit = f"in ten dies at {two(told[job.plant].tenth_c)} C."
        assert f"Tonight may fall to {two(celsius)} C here. One " in job.why[0]
        assert limit in job.why[0]
        if job.state == "soon":
            assert job.title == f"have covers ready for {job.name}"
            assert job.open.likely is not None
            assert job.open.likely > day


def two(celsius: float) -> str:
    return f"{round(celsius, 1) + 0.0:.1f}".removesuffix(".0")


def test_a_limit_is_that_of_the_stage_and_not_of_full_bloom(almanac: Almanac) -> None:
    """The early plum is in green fruit on 19 April: 28 F (Kansas State, read), not full bloom's."""
    found = hit(almanac, "early-plum", -3.0)
    assert (found.stage, round(found.tenth_c, 1)) == ("green fruit", -2.2)
    job = almanac.job("early-plum:cover:2027")
    assert job is not None
    assert "One young fruit in ten dies at -2.2 C." in job.why[0]
    assert "killing" not in " ".join(job.why)
    tall = [h for h in opened(DEMO, dt.date(2027, 5, 5)).tonight(-4.0).plants if not h.cover]
    assert tall
    assert {"kiwi-f1", "kiwi-f2"} <= {h.plant for h in tall if "too tall" in h.cover_words}
    assert all("too tall" in h.cover_words or "no crop to save" in h.cover_words for h in tall)
    warm = almanac.tonight(6.0)
    assert {h.cover_words for h in warm.plants} == {"by these figures no need to cover"}


def test_a_rule_of_one_s_own_says_how_tall_is_too_tall_and_what_chance_counts(tmp_path: Path) -> None:
    """The garden's own "cover-from-frost" takes the place of the packaged one: round and answer follow it."""
    packaged = next(rule for rule in load_rules().rules if rule.id == COVER_RULE)
    applies = {"flowering": True, "picked": True, "lower_than_m": 2.0, "frost_within_days": 3,
               "frost_chance_over": 0.9}  # fmt: skip
    own = own_rule(
        "cover", id=COVER_RULE, title=packaged.title, applies=applies, open="frost threat",
        best="frost threat", close="frost threat",
    )  # fmt: skip
    trees = (
        planted("tall", "apple", height_m=3.0, year=2000),
        planted("low", "apple", height_m=1.5, year=2000),
    )
    day = dt.date(2027, 4, 27)
    for text, limit in ((garden_text(*trees), 6.5), (garden_text(*trees, own), 2.0)):
        before = almanac_of(tmp_path, text, day)
        after, _ = before.note(ColdNightNote(on=day, tmin_c=-4.0), day)
        told = {hit.plant: hit.cover_words for hit in after.tonight(-4.0).plants}
        assert told["low"] == "cover it (1.5 m)"
        assert told["tall"] == ("cover it (3.0 m)" if limit > 3 else "too tall to cover (3 m)")
        due = {job.plant for job in after.jobs() if job.verb == "cover" and job.state == "due"}
        assert due == {name for name, said in told.items() if said.startswith("cover it")}
        shutil.rmtree(tmp_path)


def test_a_tree_of_known_years_has_one_height_everywhere(tmp_path: Path) -> None:
    """Without a height measured: the round, a cold night and the canopy grow it by the same curve."""
    day, seen = dt.date(2027, 4, 27), 0
    for year in (2024, 2017, 2008, 1990):
        text = garden_text(planted("small", "apple", year=year, at=[0, 0]))
        after, _ = almanac_of(tmp_path, text, day).note(ColdNightNote(on=day, tmin_c=-4.0), day)
        stand = after._seasons.canopy.stand
        height = float(stand.own_heights[stand.index["small"]])
        told = {hit.plant: hit for hit in after.tonight(-4.0).plants}
        covers = [job for job in after.jobs() if job.verb == "cover"]
        if "small" in told:
            seen += 1
            assert told["small"].height_m == pytest.approx(height, rel=1e-5)
            assert bool(covers) is (height < 6.5 and told["small"].cover)
        shutil.rmtree(tmp_path)
    assert seen >= 3


def test_in_midwinter_nothing_is_at_risk(almanac: Almanac) -> None:
    night = almanac.at(dt.date(2027, 12, 28)).tonight(-12.0)
    assert night.plants == ()
    assert night.caution


def test_plants_in_flower_without_a_table_are_named(almanac: Almanac) -> None:
    night = almanac.at(dt.date(2027, 5, 5)).tonight(-2.0)
    assert {"redcurrant", "lone-pawpaw"} & set(night.not_known)
    assert not set(night.not_known) & {h.plant for h in night.plants}


def test_values_are_frozen(almanac: Almanac) -> None:
    with pytest.raises(AttributeError):
        almanac.tonight(-3.0).garden_c = 0.0  # type: ignore[misc]


def test_losses_of_the_season_leave_out_what_is_too_young(almanac: Almanac) -> None:
    losses = almanac.frost_losses()
    assert {"comice-1", "early-plum", "boskoop"} <= set(losses)
    for loss in losses.values():
        assert 0.0 <= loss.share_so_far <= loss.mean_share <= 1.0
        assert 0.0 <= loss.crop_lost <= loss.mean_share + 1e-9
    review = next(r for r in almanac.partners() if r.plant == "comice-1")
    assert review.frost_loss_chance == losses["comice-1"].chance_of_a_tenth


def test_a_vine_on_wires_is_as_high_as_its_wires(tmp_path: Path) -> None:
    """A vine for its fruit of which no host is told stands on wires, and shoots there are within reach."""
    text = garden_text(
        planted("vine", "grape", year=2012, at=[0, 0]),
        planted("up-a-tree", "grape", year=2012, host="old"),
        planted("old", "common ash", year=1960, at=[20, 0]),
    )
    told = {hit.plant: hit for hit in almanac_of(tmp_path, text, "2027-05-20").tonight(-4.0).plants}
    low, high = told["vine"].height_m, told["up-a-tree"].height_m
    assert low is not None
    assert high is not None
    assert low < 3 < high
    assert told["vine"].cover_words == "cover it (1.6 m)"
    assert told["up-a-tree"].cover_words.startswith("too tall to cover")
