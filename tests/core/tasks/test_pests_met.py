"""What is done about pests: where they live, when published advice says, and only where they were seen."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import numpy as np
import pytest
from tests.samples.climates import MILD
from tests.samples.garden_text import almanac_of, garden_text, plant
from tests.samples.job_garden import the

from leafturn.almanac import Almanac, open_almanac
from leafturn.journal.entries import DamageNote

THINGS = (
    plant("apple", "apple", cultivar="Bramley", year=2005, at=[0, 0]),
    plant("apple-2", "apple", cultivar="Discovery", year=2005, at=[3, 0]),
    plant("peach", "peach", year=2015, at=[6, 0]),
    plant("nut", "hazel", year=2010, cultivar="Barcelona", at=[12, 0]),
    plant("nut-2", "hazel", year=2010, cultivar="Jefferson", at=[16, 0]),
    plant("chestnut", "chinese chestnut", year=2005, at=[30, 0]),
    plant("chestnut-2", "sweet chestnut", year=2005, at=[40, 0]),
    plant("pecan", "pecan", cultivar="Desirable", year=1990, at=[60, 0]),
    plant("pecan-2", "pecan", cultivar="Elliott", year=1990, at=[75, 0]),
)
OREGON = {"lat": 45.0, "lon": -123.0}
PENNSYLVANIA = {"lat": 40.8, "lon": -77.9}
STYRIA = {"lat": 46.9, "lon": 15.9}
TASMANIA = {"lat": -42.9, "lon": 147.3}


def garden(folder: Path, on: str, place: dict[str, float] = OREGON, *notes: DamageNote) -> Almanac:
    climate = {key: months[6:] + months[:6] for key, months in MILD.items()} if place["lat"] < 0 else MILD
    return almanac_of(folder, garden_text(*THINGS, climate=climate, **place), on, *notes)


def verbs(almanac: Almanac) -> dict[str, set[str]]:
    found: dict[str, set[str]] = {}
    for job in almanac.jobs():
        found.setdefault(job.verb, set()).update(job.plants or (job.plant,))
    return found


def test_oil_is_a_job_only_where_scale_mites_or_aphids_were_noted(tmp_path: Path) -> None:
    """Before buds swell, at 40 to 70 F and not within a day of 35 F (West Virginia extension, read)."""
    seen = garden(tmp_path / "unseen", "2027-02-10")
    assert "oil" not in verbs(seen)
    look = the(seen, "apple:look-for-scale")
    assert look.look == "scale"
    assert look.state in ("due", "soon")
    for cause, wanted in (("scale", True), ("woolly aphids", True), ("wind", False)):
        note = DamageNote(on=dt.date(2026, 7, 3), plant="apple", cause=cause)
        almanac = garden(tmp_path / cause, "2027-02-10", OREGON, note)
        assert verbs(almanac).get("oil", set()) == ({"apple"} if wanted else set())
    scaly = open_almanac(tmp_path / "scale", dt.date(2027, 2, 20))
    oil = the(scaly, "apple:oil")
    first_open = float(np.median(scaly.forecasts["apple"].first_open))
    close = scaly.axis.day(oil.close.likely)  # type: ignore[arg-type]
    assert first_open - close >= 4 * 7  # green tip of apple stands about four weeks before bloom
    assert oil.harms_late
    told = " ".join(oil.cautions)
    assert "label is the law" in told
    assert "bees" in told
    assert the(scaly.at(dt.date(2027, 4, 20)), "apple:oil").state == "passed"


def test_last_years_scale_is_oiled_for_and_that_of_years_ago_is_not(tmp_path: Path) -> None:
    old = DamageNote(on=dt.date(2024, 7, 3), plant="apple", cause="scale")
    assert "oil" not in verbs(garden(tmp_path, "2027-02-10", OREGON, old))


def test_filbert_blight_is_looked_for_in_winter_and_cut_out_once_seen(tmp_path: Path) -> None:
    """One to three feet below a canker, destroyed before bud break in early March (Oregon State, read)."""
    almanac = garden(tmp_path / "look", "2027-01-10")
    look = the(almanac, "hazel:look-for-filbert-blight")
    assert look.state == "due"
    assert look.close.likely is not None
    assert look.close.likely <= dt.date(2027, 3, 15)
    assert "cut out blight" not in verbs(almanac)
    note = DamageNote(on=dt.date(2027, 1, 12), plant="nut", cause="filbert blight")
    cut = the(garden(tmp_path / "cut", "2027-01-20", OREGON, note), "nut:cut-out-blight")
    assert cut.close.likely <= dt.date(2027, 3, 20)  # type: ignore[operator]
    assert "saw" in cut.demands
    assert "one to three feet below" in " ".join(cut.why)


def test_borers_are_looked_for_from_late_summer_to_autumn_in_north_america(tmp_path: Path) -> None:
    """Worming in late summer and fall (Missouri Botanical Garden and Utah extension, as retold; read)."""
    job = the(garden(tmp_path, "2027-06-10"), "garden:look-for-borers")
    assert job.plants == ("peach",)
    assert dt.date(2027, 8, 20) <= job.open.likely <= job.close.likely <= dt.date(2027, 10, 31)  # type: ignore[operator]


def test_fallen_nuts_are_picked_up_from_ripe_on_and_what_weevils_take_where_they_live(tmp_path: Path) -> None:
    """Grubs leave nuts from late September to December (Kentucky ENTFACT-206, read)."""
    almanac = garden(tmp_path, "2027-06-10")
    for kind, plants in (("chinese-chestnut", {"chestnut"}), ("pecan", {"pecan", "pecan-2"})):
        job = the(almanac, f"{kind}:pick-up-nuts")
        assert set(job.plants) == plants
        ripe = min(almanac.forecasts[p].ripe.min() for p in plants)  # type: ignore[union-attr]
        weeks_before = 5 if kind == "pecan" else 1
        assert almanac.axis.day(job.open.likely) >= ripe - 7 * weeks_before  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("place", "here", "elsewhere"),
    [
        (OREGON,
         {"look for filbert blight", "look for borers", "pick up nuts", "scout maggot"},
         {"pick big buds", "scout curculio"}),
        (PENNSYLVANIA, {"scout curculio", "scout maggot"}, {"pick big buds"}),
        (STYRIA, {"pick big buds", "pick up nuts"},
         {"look for filbert blight", "look for borers", "scout curculio", "scout maggot"}),
        (TASMANIA, {"look for scale"},
         {"look for filbert blight", "look for borers", "pick up nuts", "scout curculio", "scout maggot",
          "pick big buds", "band stems"}),
        ({"lat": 35.7, "lon": 139.7}, {"look for scale"},
         {"look for filbert blight", "look for borers", "scout maggot", "pick big buds", "band stems"}),
    ],
)  # fmt: skip
def test_pests_of_one_continent_are_not_told_on_another(
    tmp_path: Path, place: dict[str, float], here: set[str], elsewhere: set[str]
) -> None:
    told = verbs(garden(tmp_path, "2027-02-10", place))
    assert here <= set(told)
    assert not elsewhere & set(told)
    if place is STYRIA:
        assert "pecan" not in told["pick up nuts"]
