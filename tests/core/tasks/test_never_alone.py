"""No lone person is given what wants a second one or a licence, on any day and any paper."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from pathlib import Path

import pytest
from tests.samples.garden_text import MONTHS, almanac_of, garden_text, helper, own_job, plant

from leafturn.almanac import Almanac
from leafturn.tasks.model import DUE, Job
from leafturn.tasks.week.labour import SECOND, TREE_WORKER
from leafturn_tui.papers.away import make_away
from leafturn_tui.papers.calendar import feeds
from leafturn_tui.render import round as told

PLANTS = (
    plant("apple", "apple", year=2000, at=[5, 5]),
    plant("pear", "pear", year=1998, at=[15, 5]),
    plant("whip", "apple", year=2025, height_m=1.6, at=[20, 5]),
    plant("old-plum", "european plum", year=1980, state="declining", at=[10, 0]),
    plant("rambler", "rambling rose", year=2010, host="old-plum"),
    plant("kiwi", "hardy kiwi", sex="male", year=2012, at=[0, 8]),
    plant("grape", "grape", year=2010, at=[0, 12]),
    plant("walnut", "walnut", year=1990, at=[40, 12]),
    plant("hazel", "hazel", year=2005, at=[30, 12]),
    own_job("limb", "take the limb off", when="03-10", plant="apple", demands=["saw"], yearly=True),
    own_job("fell", "fell the ash", when="05-10", demands=["licensed"], yearly=True),
)
CLIMATES: dict[str, dict[str, object]] = {
    "styria": {},
    "minneapolis": {
        "lat": 44.9, "lon": -93.2,
        "tmax_c": [-4, -2, 5, 14, 21, 26, 29, 27, 22, 15, 5, -2],
        "tmin_c": [-13, -11, -5, 3, 9, 15, 18, 17, 11, 4, -3, -10],
    },
    "auckland": {
        "lat": -36.9, "lon": 174.8,
        "tmax_c": [24, 24, 23, 20, 17, 15, 14, 15, 16, 18, 20, 22],
        "tmin_c": [16, 16, 15, 12, 10, 8, 7, 8, 9, 11, 12, 14],
    },
}  # fmt: skip
LONE = {"nobody listed": (), "a seated friend": (helper("Ida", hours_per_week=2, can=["seated", "light"]),)}
EACH = dt.timedelta(days=26)


def garden(folder: Path, climate: str, *hands: str, on: dt.date) -> Almanac:
    place = dict(CLIMATES[climate])
    normals = (
        {"tmax_c": place.pop("tmax_c"), "tmin_c": place.pop("tmin_c"), "rain_mm": MONTHS["rain_mm"]}
        if place
        else None
    )
    text = garden_text(*PLANTS, *hands, **({"climate": normals} if normals else {}), **place)
    return almanac_of(folder, text, on)


def barred(job: Job) -> bool:
    return bool({"ladder", "saw", "two people", "licensed"}.intersection(job.demands))


def through_the_year(almanac: Almanac) -> Iterator[Almanac]:
    return (almanac.at(almanac.on + EACH * n) for n in range(14))


@pytest.mark.long
@pytest.mark.parametrize(
    ("climate", "hands"),
    [(climate, hands) for climate in CLIMATES for hands in LONE],
)
def test_a_lone_person_never_gets_a_job_for_two_or_for_a_licence(
    tmp_path: Path, climate: str, hands: str
) -> None:
    """Common practice, no source: ladder and saw are used in pairs, failing trees are for licensed hands."""
    seen = set()
    for almanac in through_the_year(garden(tmp_path, climate, *LONE[hands], on=dt.date(2027, 1, 8))):
        for job in filter(barred, (*almanac.round().jobs, *almanac.round().waiting, *almanac.jobs())):
            assert job.helpers == ()
            assert job.state not in DUE
            assert job.wants in (SECOND, TREE_WORKER)
            seen.add((job.plant, job.wants))
        for name in ("jobs-steward", "jobs-ida"):
            titles = [e.title for feed in feeds(almanac) if feed.file == name for e in feed.events]
            assert not {job.title for job in almanac.jobs() if barred(job)}.intersection(titles)
    assert {("apple", SECOND), ("rambler", TREE_WORKER), ("limb", SECOND), ("fell", TREE_WORKER)} <= seen


def test_page_and_papers_say_who_is_missing(tmp_path: Path) -> None:
    almanac = garden(tmp_path, "styria", on=dt.date(2027, 2, 1))
    page = "\n".join(told.lines(almanac))
    assert "wants a second person" in page
    assert "wants a qualified tree worker" in page
    cut = almanac.job("rambler:lighten:2027")
    assert cut is not None
    assert cut.why[0] == "Held for now: wants a qualified tree worker."
    away = "\n".join(make_away(almanac, almanac.on, dt.date(2027, 6, 1), ("steward",)).paper.lines)
    assert "Held for now: wants a second person." in away
    assert "It wants a qualified tree worker: ask for help." in away


@pytest.mark.parametrize("state", ["weak", "declining", "dead standing"])
def test_no_work_on_a_climber_is_told_without_a_word_on_its_failing_host(tmp_path: Path, state: str) -> None:
    """Common practice, no source: a failing tree is kept out from under, whatever hangs on it."""
    hosts = (
        plant("walnut", "persian walnut", year=1960, state=state, height_m=14, trunk_cm=45, at=[0, 0]),
        plant("vine", "grape", year=2010, host="walnut"),
        plant("hops", "hop", year=2012, host="walnut"),
        plant("ash", "ash", year=1990, height_m=14, trunk_cm=45, at=[20, 0]),
        plant("kiwi", "hardy kiwi", sex="female", year=2012, host="ash"),
    )
    jobs = almanac_of(tmp_path, garden_text(*hosts), "2027-01-08").jobs()
    work = [job for job in jobs if not job.look and {"vine", "hops"} & set(job.plants)]
    rules = {job.rule for job in work}
    assert {"tie-in-climber", "pick", "take-hardwood-cuttings", "cut-down-bines"} <= rules
    unsaid = [job.title for job in work if "under" not in " ".join(job.cautions)]
    assert not unsaid
    assert all(len([said for said in job.cautions if "failing tree" in said]) == 1 for job in work)
    assert not [job for job in jobs if job.plants == ("kiwi",) and "failing" in " ".join(job.cautions)]


def test_what_is_reached_from_the_ground_wants_no_ladder(tmp_path: Path) -> None:
    prune = garden(tmp_path, "styria", on=dt.date(2027, 2, 1)).job("whip:winter-prune:2027")
    assert prune is not None
    assert not {"ladder", "saw", "two people"}.intersection(prune.demands)
    assert prune.wants == ""


def test_two_together_do_what_one_may_not(tmp_path: Path) -> None:
    friend = helper("Ben", hours_per_week=40, can=["light"], days=["sat"])
    almanac = garden(tmp_path, "styria", friend, on=dt.date(2027, 2, 22))
    prune = next(j for j in almanac.round().jobs if j.id == "apple:winter-prune:2027")
    assert prune.helpers == ("steward", "Ben")
