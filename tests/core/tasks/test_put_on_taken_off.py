"""Nets, bands, wrappings and stakes: what is put on for a while has a day on which it is taken off."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import numpy as np
from tests.samples.garden_text import almanac_of, garden_text, own_rule, plant
from tests.samples.job_garden import the

from leafturn.almanac import Almanac
from leafturn.journal.entries import Done

BERRIES = (
    plant("blue-1", "highbush blueberry", year=2012, cultivar="Duke", at=[0, 0]),
    plant("blue-2", "highbush blueberry", year=2012, cultivar="Bluecrop", at=[2, 0]),
)


def done(almanac: Almanac, job: str) -> Almanac:
    return almanac.note(Done(on=almanac.on, task=the(almanac, job).id), almanac.on)[0]


def test_nets_go_on_after_petal_fall_and_before_colour_and_come_off_once_picked(tmp_path: Path) -> None:
    """Two to three weeks before ripe, off after the last fruit (pages on netting blueberries, read)."""
    almanac = almanac_of(tmp_path, garden_text(*BERRIES), "2027-06-18")
    nets = the(almanac, "highbush-blueberry:put-nets-on")
    blooms = [almanac.forecasts[plant.id] for plant in almanac.garden.plants]
    ripe = min(float(np.median(bloom.ripe)) for bloom in blooms if bloom.ripe is not None)
    petal_fall = min(float(np.median(bloom.end)) for bloom in blooms)
    assert petal_fall < almanac.axis.day(nets.open.likely) < ripe  # type: ignore[arg-type]
    assert nets.state in ("due", "soon")
    said = " ".join(nets.cautions)
    assert "5 mm or less" in said
    assert "kill birds" in said
    assert almanac.job("highbush-blueberry:take-nets-off") is None
    netted = done(almanac, "highbush-blueberry:put-nets-on")
    off = the(netted, "highbush-blueberry:take-nets-off")
    assert off.state == "not yet"
    late = netted.at(dt.date(2027, 10, 1))
    assert the(late, "highbush-blueberry:take-nets-off").state == "late"
    assert the(done(late, "highbush-blueberry:take-nets-off"), off.id).state == "done"
    # Next summer nothing hangs there until nets are put on anew.
    assert almanac_of(tmp_path / "more", garden_text(*BERRIES), "2028-08-01").job(off.id[:-4]) is None


def test_what_stands_too_high_for_a_net_is_not_netted(tmp_path: Path) -> None:
    text = garden_text(
        plant("tall", "sour cherry", year=1995, at=[0, 0]),
        plant("low", "sour cherry", year=2022, rootstock="Gisela 5", at=[9, 0]),
    )
    nets = the(almanac_of(tmp_path, text, "2027-06-10"), "sour-cherry:put-nets-on")
    assert nets.plants == ("low",)


def test_bands_of_october_come_off_in_march_of_the_next_season(tmp_path: Path) -> None:
    apple = plant("apple", "apple", year=2005, at=[0, 0])
    autumn = almanac_of(tmp_path, garden_text(apple), "2026-10-12")
    banded = done(autumn, "garden:band-stems")
    march = banded.at(dt.date(2027, 3, 10))
    off = the(march, "garden:take-bands-off")
    assert off.state == "due"
    assert (off.open.likely, off.close.likely) == (dt.date(2027, 2, 20), dt.date(2027, 4, 10))
    bare = almanac_of(tmp_path / "bare", garden_text(apple), "2027-03-10")
    assert bare.job("garden:take-bands-off") is None


def test_a_rule_that_follows_nothing_known_is_said(tmp_path: Path) -> None:
    rule = own_rule("unhang", title="take down {name}", applies={}, open="03-01", close="04-01",
                    follows="net-fruits")  # fmt: skip
    (fault,) = almanac_of(tmp_path, garden_text(*BERRIES, rule), "2027-03-10").faults
    assert "'net-fruits' is no rule of the program. Did you mean net-fruit?" in fault.message


def test_a_new_tree_is_staked_its_stake_comes_off_and_a_dwarfing_stock_keeps_its_own(tmp_path: Path) -> None:
    """Off within one year, tried 6 to 12 months after staking (University of Florida IFAS, read)."""
    text = garden_text(
        plant("new", "apple", year=2027, age_when_planted=2, rootstock="MM106", at=[0, 0]),
        plant("rooted", "pear", year=2026, age_when_planted=2, at=[5, 0]),
        plant("cordon", "apple", year=2026, rootstock="M9", at=[9, 0]),
        plant("chance", "rowan", year=2027, origin="came by itself", plan="keep", at=[18, 0]),
        plant("grown", "apple", year=2012, rootstock="MM106", at=[14, 0]),
    )
    almanac = almanac_of(tmp_path, text, "2027-03-01")
    about = {
        verb: {p for j in almanac.jobs() if j.verb == verb for p in (j.plants or (j.plant,))}
        for verb in ("stake", "take stakes off", "check lasting stakes", "check stakes")
    }
    assert about == {
        "stake": {"new"},
        "take stakes off": {"rooted"},
        "check lasting stakes": {"cordon"},
        "check stakes": {"new"},
    }
    assert the(almanac, "new:stake").state == "due"
    off = the(almanac, "rooted:take-stakes-off")
    assert dt.date(2027, 7, 1) <= off.open.likely <= off.close.likely <= dt.date(2027, 10, 31)  # type: ignore[operator]


def test_a_guard_taken_off_stands_as_done_until_the_season_ends(tmp_path: Path) -> None:
    guard = {"kind": "mesh", "height_cm": 60, "year": 2012}
    old = plant("old", "apple", year=2010, at=[0, 0], guard=guard)
    almanac = almanac_of(tmp_path, garden_text(old), "2027-05-01")
    off = done(almanac, "garden:take-guard-off")
    assert the(off, "garden:take-guard-off").state == "done"
    assert not off.heed().bark
    assert off.at(dt.date(2028, 5, 1)).job("garden:take-guard-off") is None


def test_a_cut_of_winter_takes_no_summer_cut_away_that_has_passed(tmp_path: Path) -> None:
    """What grew in summer grew whether or not the climber is cut in November."""
    things = (
        plant("plum", "european plum", year=1995, at=[0, 0]),
        plant("vine", "grape", year=2010, host="plum"),
    )
    almanac = almanac_of(tmp_path, garden_text(*things), "2027-11-02")
    assert the(almanac, "vine:summer-cut").state == "passed"
    cut, _ = almanac.note(Done(on=almanac.on, task="vine:winter-cut:2028"), almanac.on)
    assert the(cut, "vine:summer-cut:2027").state == "passed"
