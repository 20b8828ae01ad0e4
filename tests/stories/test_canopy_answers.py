"""Story: what the canopy and the climbers answer in gardens unlike the demo, by command, page and JSON."""

from __future__ import annotations

import datetime as dt
import json
import re
from pathlib import Path
from typing import Any

import pytest
from tests.at_the_desk import AtTheDesk
from tests.in_process import run
from tests.samples.garden_text import garden_text, plant
from tests.samples.towns import DUNEDIN

NORTH, SOUTH = "2027-04-19", "2026-10-05"
OAK = plant("oak", "sessile oak", year=1880, height_m=19, crown_m=8, state="declining", at=[0, 0])
BELOW = (
    plant("currant", "redcurrant", year=2015, at=[0, -4]),
    plant("fern", "ostrich fern", year=2015, at=[-3, 3]),
)
DRIVE = '[[path]]\nname = "drive"\nline = [[5, -30], [5, 30]]\nused = "daily"\npublic = true\n'


def southern(folder: Path, *things: str) -> str:
    text = garden_text(*things, climate=DUNEDIN, lat=-45.9, lon=170.3)
    (folder / "garden.toml").write_text(text, encoding="utf-8")
    return str(folder)


def northern(folder: Path, *things: str) -> str:
    (folder / "garden.toml").write_text(garden_text(*things), encoding="utf-8")
    return str(folder)


def told(name: str, garden: str, on: str) -> str:
    done = run(name, garden, "--on", on)
    assert done.returncode == 0, done.stderr
    return done.stdout


def answer(name: str, garden: str, on: str) -> dict[str, Any]:
    return dict(json.loads(run(name, garden, "--on", on, "--json").stdout))


def test_light_of_later_years_has_a_range_as_wide_as_the_fall_is_unsure(tmp_path: Path) -> None:
    garden = southern(tmp_path, OAK, *BELOW)
    (oak,) = answer("canopy", garden, SOUTH)["canopy"]["elders"]
    assert oak["down"]["early"] < 2036 < oak["down"]["late"], "in ten years it may stand or lie"
    currant = next(row for row in oak["light"] if row["plant"] == "currant")
    least, most = currant["later_range"]["2036"]
    assert least < currant["now"] + 15 < most
    assert least <= currant["later"]["2036"] <= most
    least_last, most_last = currant["later_range"]["2056"]
    assert least_last == most_last == currant["later"]["2056"], "by then it is down in any case"
    assert f"% in 2036 ({least:.0f} to {most:.0f})" in told("canopy", garden, SOUTH)
    with AtTheDesk(Path(garden), dt.date.fromisoformat(SOUTH), size=(90, 60)) as desk:
        desk.press("4")
        desk.wait_for("currant")
        desk.press("home")
        for _ in range(9):
            if not desk.row(" currant ").startswith("  "):
                break  # the bar stands on it
            desk.press("down")
        desk.press("w")
        desk.wait_for(f"({least:.0f} to {most:.0f})")


def test_of_a_crown_that_nobody_looked_at_no_points_are_said_to_be_back(tmp_path: Path) -> None:
    said = told("canopy", southern(tmp_path, OAK, *BELOW), SOUTH)
    assert "Nobody has noted a look at its crown" in said
    assert "may be back already: nobody has looked at the crown" in said
    assert "A job for February, when leaves tell" in said
    dead = told("canopy", southern(tmp_path, OAK.replace("declining", "dead standing"), *BELOW), SOUTH)
    assert "It is dead: nothing of its crown lives" in dead
    assert "A job for" not in dead
    assert " are back already: the crown has thinned" in dead


def test_what_scorches_is_told_at_risk_and_never_as_a_gainer(tmp_path: Path) -> None:
    (oak,) = answer("canopy", southern(tmp_path, OAK, *BELOW), SOUTH)["canopy"]["elders"]
    replies = {row["plant"]: row["reply"] for row in oak["light"]}
    assert replies["fern"].startswith("scorch")
    for choice in oak["what_if"]:
        assert "fern" not in choice["gainers"]
    assert any("currant" in choice["gainers"] for choice in oak["what_if"])
    said = told("canopy", str(tmp_path), SOUTH)
    assert "At risk of scorch: fern." in said
    assert "Gain: currant." in said


def test_a_heir_beside_a_path_is_weighed_and_not_ordered_out(tmp_path: Path) -> None:
    walnut = plant("walnut", "black walnut", year=2018, origin="came by itself", at=[6, 4])
    garden = southern(tmp_path, OAK, DRIVE, walnut)
    (seedling,) = answer("canopy", garden, SOUTH)["canopy"]["seedlings"]
    assert seedling["verdict"] == "keep"
    reasons = "; ".join(seedling["reasons"])
    assert "drive is 1.0 m away and wants 2.5 m" in reasons
    assert "0 % without it" in reasons
    assert "nothing else would fill the gap: weigh the two" in reasons
    another = plant("beech", "beech", year=2015, at=[-2, -2])
    beside = southern(tmp_path, OAK, DRIVE, walnut, another)
    found = {s["plant"]: s for s in answer("canopy", beside, SOUTH)["canopy"]["seedlings"]}
    assert found["walnut"]["verdict"] == "remove", "the beech fills the gap as well"


def test_a_verdict_that_is_taken_becomes_a_job(tmp_path: Path) -> None:
    """The page says move; judged so, the plan is set and a job of moving it comes in its season."""
    rowan = plant("rowan", "rowan", year=2024, origin="came by itself", at=[6, 4])
    garden = northern(tmp_path, OAK, DRIVE, rowan, plant("beech", "beech", year=2015, at=[-2, -2]))
    (seedling,) = answer("canopy", garden, NORTH)["canopy"]["seedlings"]
    assert seedling["verdict"] == "move"
    assert run("note", garden, "judged", "rowan", "move", "--on", NORTH).returncode == 0
    winter = answer("round", garden, "2027-12-10")
    jobs = [job for job in (*winter["jobs"], *winter["waiting"]) if job["plant"] == "rowan"]
    assert "move" in [job["verb"] for job in jobs]


def test_the_stem_is_shown_against_the_trunk_wherever_a_climber_is_judged(tmp_path: Path) -> None:
    garden = southern(
        tmp_path,
        plant("alder", "grey alder", year=2000, trunk_cm=26, at=[0, 0]),
        plant("kiwi", "fuzzy kiwi", sex="female", year=2012, host="alder"),
    )
    (kiwi,) = answer("climbers", garden, SOUTH)["climbers"]
    (stem,) = [s for s in kiwi["says"] if s.startswith("Its stem, ")]
    assert "of 100 parts of the trunk's section" in stem
    assert stem in told("climbers", garden, SOUTH)
    with AtTheDesk(Path(garden), dt.date.fromisoformat(SOUTH), size=(90, 60)) as desk:
        desk.press("5")
        desk.wait_for("kiwi")
        desk.press("w")
        desk.wait_for("of the trunk's section")


@pytest.mark.parametrize(
    ("make", "cut", "before", "after"),
    [
        (northern, "2026-08-10", "2026-12-31", "2027-01-02"),
        (southern, "2026-02-10", "2026-06-29", "2026-07-02"),
    ],
)
def test_growth_since_a_cut_does_not_vanish_when_the_season_turns(
    tmp_path: Path, make: Any, cut: str, before: str, after: str
) -> None:
    garden = make(
        tmp_path,
        plant("alder", "grey alder", year=2000, height_m=9, at=[0, 0]),
        plant("kiwi", "hardy kiwi", sex="female", year=2012, host="alder"),
    )
    assert run("done", garden, "kiwi:summer-cut", "--on", cut).returncode == 0
    (old,) = answer("climbers", garden, before)["climbers"]
    (new,) = answer("climbers", garden, after)["climbers"]
    assert old["cut_on"] == new["cut_on"] == cut
    assert old["grown_m"] > 0.1
    assert new["grown_m"] == pytest.approx(old["grown_m"], abs=0.05)


def test_a_cut_that_only_a_tree_worker_may_do_is_held_with_the_reason(tmp_path: Path) -> None:
    garden = northern(
        tmp_path,
        plant("pear", "pear", year=1970, state="dead standing", height_m=9, at=[0, 0]),
        plant("vine", "muscadine", year=2015, host="pear"),
        '[[helper]]\nname = "Jo"\n',
    )
    assert "winter cut, held: wants a qualified tree worker" in told("climbers", garden, "2027-02-20")


def test_heirs_that_nobody_measured_grow_as_street_trees_were_measured(tmp_path: Path) -> None:
    """Pecans 40 years after planting: 12.8 to 23.5 m, half over 17.2 (urban tree database RDS-2016-0005)."""
    garden = northern(tmp_path, OAK, plant("pecan", "pecan", year=2017, at=[4, 2]))
    (oak,) = answer("canopy", garden, NORTH)["canopy"]["elders"]
    (heir,) = oak["succession"]["successors"]
    assert 12.8 < heir["height_m"]["2057"] < 23.5
    low, likely, high = heir["height_at_fall_m"]
    assert low < likely < high
    half = oak["succession"]["half_covered"]
    assert half["likely"] is None or half["early"] <= half["likely"]
    assert f"pecan {likely:.0f} m ({low:.0f}-{high:.0f})" in told("canopy", garden, NORTH)


def test_a_well_old_tree_is_given_no_years_that_its_odds_of_falling_deny(tmp_path: Path) -> None:
    """1 in 100 a year even for a well tree are even odds in seventy years, whatever its kind may live."""
    said = told("canopy", northern(tmp_path, plant("oak", "english oak", year=1890, at=[0, 0])), NORTH)
    assert "It is 137 years old, and its kind often lives 500; wind takes well trees too." in said
    assert "half by 2095" in said
    assert "years: a very wide guess" not in said


def test_a_path_beyond_the_tree_is_not_told_in_noughts(tmp_path: Path) -> None:
    peach = plant("peach", "peach", year=1995, state="dead standing", height_m=5, at=[0, 0])
    said = told("canopy", northern(tmp_path, peach, DRIVE.replace("5,", "7,")), NORTH)
    assert "drive: 7.0 m away; beyond one height; used daily, public" in said
    assert "0.0 m of it" not in said
    assert "too short to reach them" not in said


def test_what_is_planted_for_a_plum_does_not_outgrow_it_by_far(tmp_path: Path) -> None:
    """A hemlock of forty metres is no heir of an orchard tree; how much higher may grow is a guess."""
    garden = northern(tmp_path, plant("plum", "european plum", year=1985, state="declining", at=[0, 0]))
    (old_tree,) = answer("canopy", garden, NORTH)["canopy"]["elders"]
    said = re.findall(r"the library would plant: ([^(]*) \(to (\d+) m", told("canopy", garden, NORTH))
    assert len(said) >= 3
    assert all(float(height) <= 1.5 * 8 for _, height in said), said
    assert old_tree["plant"] == "plum"
