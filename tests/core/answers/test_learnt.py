"""What a small garden's notes teach."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn.almanac import Almanac

GARDEN = garden_text(
    plant("pear-1", "pear"), plant("pear-2", "pear"), plant("quince", "quince", opens="05-20")
)


def garden(folder: Path, journal: str = "") -> Almanac:
    (folder / "journal.toml").write_text(journal, encoding="utf-8")
    return almanac_of(folder, GARDEN, "2027-03-01")


def note(plant: str, on: str) -> str:
    return f'[[entry]]\non = {on}\nwhat = "bloom"\nplant = "{plant}"\nstage = "first open"\n'


def test_without_notes_everything_is_as_published(tmp_path: Path) -> None:
    learnt = garden(tmp_path).learnt()
    assert (learnt.notes, learnt.kinds, learnt.unused) == (0, 0, ())
    line = next(n for n in learnt.lines if n.plant == "pear-1")
    assert (line.notes, line.own, line.kin_notes) == (0, None, 0)
    assert line.published is not None
    assert line.published.year == 2027
    stated = next(n for n in learnt.lines if n.plant == "quince")
    assert stated.notes == 0
    assert stated.own is not None
    assert abs((stated.own - dt.date(2027, 5, 20)).days) <= 1


def test_late_notes_move_the_plant_its_kind_and_the_place(tmp_path: Path) -> None:
    published = {n.plant: n.published for n in garden(tmp_path).learnt().lines}
    usual = published["pear-1"]
    assert usual is not None
    late = [(usual + dt.timedelta(8)).replace(year=year) for year in (2023, 2024, 2025, 2026)]
    learnt = garden(tmp_path, "".join(note("pear-1", d.isoformat()) for d in late)).learnt()
    assert (learnt.notes, learnt.kinds) == (4, 1)
    assert learnt.place_days > 0
    assert learnt.place_uncertainty_days > 0
    lines = {n.plant: n for n in learnt.lines}
    own, kin = lines["pear-1"], lines["pear-2"]
    assert learnt.lines[0] is own
    assert own.published == usual
    assert own.used is not None
    assert own.used > usual
    assert (own.notes, own.kin_notes, kin.notes, kin.kin_notes) == (4, 0, 0, 4)
    assert kin.used is not None
    assert usual < kin.used <= own.used


def test_a_note_that_moves_nothing_is_told(tmp_path: Path) -> None:
    learnt = garden(tmp_path, note("pear-1", "2026-10-20")).learnt()
    assert learnt.notes == 0
    assert learnt.unused == (
        "pear-1 noted on 20 Oct 2026 is not used: it lies months from when its kind opens.",
    )
