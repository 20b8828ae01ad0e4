"""Growth since the cut by heat, and the job that follows from it."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import numpy as np
import pytest
from tests.samples.frost_years import dry
from tests.samples.garden_text import almanac_of, garden_text, helper, plant

from leafturn.almanac import Almanac
from leafturn.bloom.leafing import leaf_out_days
from leafturn.bloom.priors.stated import LeafNeed
from leafturn.climbers.growth import LastCut, Shoots, day_grown, last_cut, metres_grown, seasons_uncut
from leafturn.garden.model import Plant
from leafturn.journal.entries import Done
from leafturn.journal.questions import jobs_done
from leafturn.season.axis import AXIS_DAYS, SeasonAxis
from leafturn.season.heat import HeatSums
from leafturn.tasks.rule_model import verbs_that_count

AXIS = SeasonAxis(2027)
SHOOTS = Shoots(rate=0.5, most=6.0, leaf=LeafNeed(heat=100.0))
WINTER = LastCut(on=dt.date(2027, 1, 20), recorded=True)

GARDEN = garden_text(
    plant("plum", "european plum", year=1990, state="declining", height_m=6, trunk_cm=31, at=[0, 0]),
    plant("nut", "persian walnut", year=1985, trunk_cm=45, at=[15, 0]),
    plant("kiwi", "hardy kiwi", sex="female", year=2014, host="plum"),
)


def flat(mean: float) -> HeatSums:
    days = np.full((2, AXIS_DAYS), mean)
    return HeatSums(dry(days, days, today=0))


def year(mean: float) -> HeatSums:
    """A year coldest in mid-January."""
    days = mean - 9.0 * np.cos((np.arange(AXIS_DAYS) - 76) / 365.25 * 2 * np.pi)
    means = np.stack([days, days])
    return HeatSums(dry(means, means, today=0))


@pytest.mark.parametrize("cut", [WINTER, LastCut(on=dt.date(2027, 5, 20), recorded=True)])
def test_metres_are_rate_times_heat_since_leaf_out(cut: LastCut) -> None:
    """10 degree-days a day, so 0.05 m a day once in leaf and cut."""
    heat, day = flat(15.0), AXIS.day(dt.date(2027, 6, 10))
    out = int(leaf_out_days(heat.ensemble, SHOOTS.leaf)[0])
    since = max(out, AXIS.day(cut.on))
    assert AXIS.day(WINTER.on) < since < day
    assert metres_grown(SHOOTS, cut, heat, day) == pytest.approx(0.05 * (day - since + 1))


def test_a_season_has_an_end() -> None:
    assert metres_grown(SHOOTS, WINTER, flat(15.0), AXIS.day(dt.date(2027, 9, 1))).max() == SHOOTS.most
    assert np.isinf(day_grown(SHOOTS, WINTER, flat(15.0), SHOOTS.most + 0.1)).all()


def test_the_day_and_the_metres_agree() -> None:
    heat = flat(13.0)
    day = int(day_grown(SHOOTS, WINTER, heat, 2.0)[0])
    assert metres_grown(SHOOTS, WINTER, heat, day)[0] >= 2.0
    assert metres_grown(SHOOTS, WINTER, heat, day - 1)[0] < 2.0


def test_warmth_brings_the_cut_sooner() -> None:
    assert day_grown(SHOOTS, WINTER, year(12.0), 2.0)[0] < day_grown(SHOOTS, WINTER, year(9.0), 2.0)[0]


def test_seasons_without_a_cut_add_up() -> None:
    axis = AXIS
    assert seasons_uncut(WINTER, axis) == 0
    assert seasons_uncut(LastCut(on=dt.date(2026, 8, 1), recorded=True), axis) == 0
    assert seasons_uncut(LastCut(on=dt.date(2026, 2, 1), recorded=True), axis) == 1
    assert seasons_uncut(LastCut(on=dt.date(2010, 2, 1), recorded=True), axis) == 3
    old = LastCut(on=dt.date(2025, 2, 1), recorded=True)
    assert metres_grown(SHOOTS, old, flat(12.0), 70)[0] > metres_grown(SHOOTS, WINTER, flat(12.0), 70)[0]


def test_only_cutting_counts_as_a_cut() -> None:
    kiwi = Plant(id="kiwi", kind="hardy kiwi")
    notes = [
        Done(on=dt.date(2027, 2, 1), task="kiwi:winter-cut:2027"),
        Done(on=dt.date(2027, 5, 1), task="kiwi:tie-in:2027"),
        Done(on=dt.date(2027, 6, 1), task="other:summer-cut:2027"),
    ]
    verbs = verbs_that_count(())["cut"]
    assert last_cut(kiwi, jobs_done(notes, *verbs), AXIS) == LastCut(on=dt.date(2027, 2, 1), recorded=True)
    assert not last_cut(kiwi, (), AXIS).recorded


@pytest.fixture
def almanac(tmp_path: Path) -> Almanac:
    return almanac_of(tmp_path, GARDEN, "2027-07-20")


TWO = "".join(helper(name, hours_per_week=6, can=["ladder", "saw", "stand"]) for name in ("Ada", "Ben"))
WELL = GARDEN.replace('state = "declining"', 'state = "well"') + TWO


def test_the_cut_follows_growth_and_the_reason_tells_the_metres(tmp_path: Path) -> None:
    almanac = almanac_of(tmp_path, WELL, "2027-07-20")
    job = almanac.job("kiwi:summer-cut")
    assert job is not None
    assert job.state in ("due", "late")
    assert "has grown about" in job.why[0]
    assert "2.0 m are wanted" in job.why[0]


def test_once_cut_it_must_grow_again(almanac: Almanac) -> None:
    after, _ = almanac.note(Done(on=almanac.on, task="kiwi:summer-cut:2027", plant="kiwi"), almanac.on)
    again = after.job("kiwi:summer-cut")
    assert again is not None
    assert again.id.endswith(":2")
    assert again.state not in ("due", "late")
    assert after.climbers()[0].grown_m < 0.2
    assert after.climbers()[0].cut_on == almanac.on


def test_growth_since_a_summer_cut_goes_on_over_new_year(tmp_path: Path) -> None:
    """What stood past the host on 31 December still stands there on 1 January."""
    cut = Done(on=dt.date(2026, 7, 4), task="kiwi:summer-cut:2026", plant="kiwi")
    old, new = (
        almanac_of(tmp_path / on, GARDEN, on, cut).climbers()[0] for on in ("2026-12-31", "2027-01-01")
    )
    assert old.grown_m > 1.0
    assert new.grown_m == pytest.approx(old.grown_m, rel=0.1)
    assert new.past_top_m == pytest.approx(old.past_top_m, abs=0.3)
    assert "it was cut on 4 Jul 2026" in new.says[0]
    later = almanac_of(tmp_path / "later", WELL, "2027-06-28", cut)
    assert later.climbers()[0].grown_m > new.grown_m + 0.5


def test_a_climber_on_a_failing_host_is_told_of_another(almanac: Almanac) -> None:
    """Common practice, no source: train it over while the old host stands."""
    view = almanac.climbers()[0]
    assert view.verdict == "too much"
    assert [other.plant for other in view.other_hosts] == ["nut"]
    assert any("train the climber to another host" in line for line in view.says)
    assert not any("safe" in line.split() for line in view.says)


WISTERIA = (
    plant("ash", "common ash", year=1960, state="declining", height_m=20, trunk_cm=50, at=[0, 0]),
    plant("oak", "pedunculate oak", year=1900, height_m=22, trunk_cm=90, at=[15, 0]),
    plant("wisteria", "chinese wisteria", year=1988, host="ash", trunk_cm=12),
)


def test_an_old_climber_never_noted_cut_is_put_nowhere(tmp_path: Path) -> None:
    view = almanac_of(tmp_path, garden_text(*WISTERIA), "2027-06-20").climbers()[0]
    assert view.past_top_m is None
    assert any("No cut is noted since it was planted in 1988" in line for line in view.says)


def test_the_stem_that_decides_is_shown(tmp_path: Path) -> None:
    view = almanac_of(tmp_path, garden_text(*WISTERIA), "2027-06-20").climbers()[0]
    share = round((12 / 50) ** 2 * 100)
    assert any(
        f"stem, 12 cm across, is about {share} of 100 parts of the trunk's section" in s for s in view.says
    )


def test_what_the_region_lists_as_spreading_is_led_to_no_other_host(tmp_path: Path) -> None:
    place = {"lat": 34.7, "lon": -82.8, "region": "southern united states"}
    listed = almanac_of(tmp_path, garden_text(*WISTERIA, **place), "2027-06-20").climbers()[0]
    assert listed.other_hosts == ()
    assert any("led nowhere" in line for line in listed.says)
    elsewhere = almanac_of(tmp_path / "b", garden_text(*WISTERIA), "2027-06-20").climbers()[0]
    assert [host.plant for host in elsewhere.other_hosts] == ["oak"]


def test_a_garden_whose_leaves_come_late_is_told_of_shorter_shoots(tmp_path: Path) -> None:
    """Ivy has no leaf-out of its own in the library, so it goes by the garden's number, as all others do."""
    ivy = plant("plum", "european plum", year=1990, at=[0, 0]) + plant("ivy", "ivy", year=2014, host="plum")
    usual, late = (
        almanac_of(tmp_path / f"{heat}", garden_text(ivy, f"[rule]\nleaf_out_heat = {heat}"), "2027-07-10")
        for heat in (150, 500)
    )
    assert late.climbers()[0].grown_m < usual.climbers()[0].grown_m
