"""What pages draw of a season, and what one notes from: days, heat, the plan, likely stages."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import numpy as np
import pytest
from msgspec.structs import replace
from tests.samples.garden_text import almanac_of, garden_text, heap, plant

from leafturn.almanac import Almanac
from leafturn.journal.entries import BloomNote, HarvestNote
from leafturn.tasks.lookup import jobs_meant
from leafturn.tasks.model import DUE

TEXT = garden_text(
    plant("comice", "pear", cultivar="Comice", year=2010, at=[0, 0]),
    plant("conference", "pear", cultivar="Conference", year=2010, at=[8, 0]),
    plant("sapling", "pear", cultivar="Bartlett", year=2026, at=[16, 0]),
    plant("old-ash", "common ash", year=1930, at=[30, 0], state="declining"),
    plant("lost", "medlar", year=2010, at=[40, 0], state="gone"),
    plant("kiwi", "hardy kiwi", sex="female", year=2014, host="old-ash"),
    plant("fig", "fig", year=2020, at=[50, 0]),
    plant("lemon", "lemon", year=2026, at=[60, 0]),
    heap("bay", at=[0, -5], stage="working"),
)
SPRING, AUTUMN = dt.date(2027, 4, 19), dt.date(2027, 10, 4)


@pytest.fixture(scope="module")
def almanac(tmp_path_factory: pytest.TempPathFactory) -> Almanac:
    return almanac_of(tmp_path_factory.mktemp("faces"), TEXT, SPRING)


@pytest.fixture(scope="module")
def autumn(tmp_path_factory: pytest.TempPathFactory) -> Almanac:
    """The same garden in a folder of its own: what a test of spring notes is not noted here."""
    return almanac_of(tmp_path_factory.mktemp("faces_autumn"), TEXT, AUTUMN)


def test_each_day_has_its_chance_of_bloom_and_frost(almanac: Almanac) -> None:
    found = almanac.season_days()
    rows = {row.plant: row for row in found.plants}
    pear = rows["comice"]
    assert pear.full.likely is not None
    middle = (pear.full.likely - found.first).days
    assert abs(int(pear.in_bloom.argmax()) - middle) <= 7
    assert (pear.in_full_bloom <= pear.in_bloom + 1e-9).all()
    assert pear.picking[middle] == 0.0
    assert pear.ripe is not None
    assert pear.ripe.likely is not None
    assert pear.picking[(pear.ripe.likely - found.first).days] > 0.2
    winter, midsummer = ((day - found.first).days for day in (dt.date(2027, 1, 10), dt.date(2027, 7, 15)))
    assert (found.frost[winter], found.frost[midsummer]) == (1.0, 0.0)


def test_plants_that_serve_each_other_are_one_group_with_their_days(almanac: Almanac) -> None:
    pears = next(group for group in almanac.season_days().groups if "comice" in group.plants)
    assert {"comice", "conference"} <= set(pears.plants)
    assert pears.days > 0
    for pear in ("comice", "conference"):
        almanac, _ = almanac.note(BloomNote(on=SPRING, plant=pear, stage="first open"), SPRING)
    noted = next(group for group in almanac.season_days().groups if "comice" in group.plants)
    assert noted.first is not None
    assert noted.last is not None
    assert SPRING <= noted.first < noted.last < SPRING + dt.timedelta(30)


def test_a_tree_takes_pollen_while_its_partners_give_it(almanac: Almanac) -> None:
    days = almanac.partner_days("comice")
    assert days is not None
    assert (days.tree.plant, days.tree.does, days.meet.does) == ("comice", "takes", "both")
    assert "conference" in [row.plant for row in days.partners]
    assert (days.meet.shares <= days.tree.shares + 1e-9).all()
    assert days.meet.shares.max() > 0.25
    assert almanac.partner_days("old-ash") is None


def test_heat_runs_between_a_cold_and_a_warm_year(almanac: Almanac) -> None:
    course = almanac.heat_course()
    assert (np.diff(course.usual) >= 0).all()
    assert (course.low <= course.usual).all()
    assert (course.usual <= course.high).all()
    assert course.base == 5.0


def test_the_plan_shows_what_stands_in_a_year(almanac: Almanac) -> None:
    now, before = almanac.garden_plan(), almanac.garden_plan(2015)
    standing = {one.plant: one for one in now.plants}
    assert "lost" not in standing
    assert standing["old-ash"].failing
    assert standing["kiwi"].radius_m == 0.0
    assert {one.plant for one in before.plants} == {"comice", "conference", "old-ash", "kiwi"}
    heights = [one.height_m for one in now.plants]
    assert heights == sorted(heights)
    assert {name for name, _ in now.spots} == {"gate", "bay"}


def test_the_stage_that_comes_next_is_offered_first_where_it_is_likeliest(almanac: Almanac) -> None:
    offered = {one.plant: one for one in almanac.likely_stages()}
    assert offered["comice"].stage == "first open"
    chances = [round(one.chance, 1) for one in almanac.likely_stages()]
    assert chances == sorted(chances, reverse=True)
    noted, _ = almanac.note(BloomNote(on=SPRING, plant="comice", stage="full bloom"), SPRING)
    assert {one.plant: one.stage for one in noted.likely_stages()}["comice"] == "petal fall"
    none, _ = almanac.note(BloomNote(on=SPRING, plant="conference", stage="none this year"), SPRING)
    assert "conference" not in {one.plant for one in none.likely_stages()}


def test_what_was_picked_lately_stands_before_what_is_only_likely(tmp_path: Path) -> None:
    autumn = almanac_of(tmp_path, TEXT, AUTUMN)
    before = [one.plant for one in autumn.likely_harvests()]
    assert "comice" in before
    last = before[-1]
    note = HarvestNote(on=AUTUMN - dt.timedelta(7), plant=last, amount="a basket")
    after, _ = autumn.note(note, AUTUMN)
    found = {one.plant: one.words for one in after.likely_harvests()}
    assert found[last] == "picked lately"
    assert [one.plant for one in after.likely_harvests()].index(last) < len(before) - 1


def test_words_mean_a_job_in_any_order_and_cut_short(almanac: Almanac) -> None:
    job = next(job for job in almanac.jobs() if job.plant == "bay" and job.verb == "turn")
    assert almanac.job(job.id) == almanac.job("bay:turn") == almanac.job("turn:bay") == job
    assert almanac.jobs_meant("turn bay") == almanac.jobs_meant("Bay, turn") == (job,)
    assert job in almanac.jobs_meant("tur bay")
    assert almanac.jobs_meant("turn medlar") == ()


def test_of_a_job_done_again_and_again_words_mean_the_one_next_to_do(almanac: Almanac) -> None:
    """A heap that was turned, and is to be turned again, is no question to ask back."""
    job = next(job for job in almanac.jobs() if job.plant == "bay" and job.verb == "turn")
    again = replace(job, id="bay:turn:2027:2", state="passed")
    assert jobs_meant([replace(job, state="done"), again], "turn bay") == (again,)


def test_why_there_is_or_is_not_anything_to_do(almanac: Almanac) -> None:
    assert almanac.why_plant("lost") == ("Nothing to do: no work falls to lost this season.",)
    ahead = {job.plant for job in almanac.jobs() if job.state in ("soon", "not yet") and not job.members[1:]}
    now = {
        name for job in almanac.jobs() if job.state in DUE or job.hold for name in (job.plant, *job.plants)
    }
    assert ahead - now
    for name in ahead - now:
        said, *why = almanac.why_plant(name)
        assert said.startswith((f"Nothing to do at {name} yet: next is to ", "Nothing more is foreseen for"))
        assert why or said.startswith("Nothing more")
    busy = next(job for job in almanac.jobs() if job.state == "due" and not job.plants[1:])
    assert almanac.why_plant(busy.plant)[-1].startswith("Basis: ")


def test_what_the_winters_here_kill_is_told(almanac: Almanac) -> None:
    tender = {one.plant: one for one in almanac.heed().tender}
    assert tender["lemon"].standing == "too tender"
    assert "here" in tender["lemon"].says
    assert "comice" not in tender
