"""What the pages of heaps and climbers show first, and the keys that note a reading, a turn, a cut."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from tests.at_the_desk import AtTheDesk
from tests.in_process import run
from tests.samples.garden_text import garden_text, heap, helper, plant

ON = dt.date(2027, 4, 19)
WIDE = (120, 44)


def kept(command: str, folder: Path, on: str, *words: str) -> None:
    done = run(command, str(folder), *words, "--on", on)
    assert done.returncode == 0, done.stderr


def heaps(folder: Path) -> Path:
    """Two heaps, of which the second has cooled after it was hot."""
    text = garden_text(
        heap("bay-1", stage="filling", at=[0, 1]),
        heap("bay-2", stage="working", at=[1, 1], mix=[{"what": "leaves", "kg": 30}]),
        helper("Ana", hours_per_week=4),
    )
    (folder / "garden.toml").write_text(text, encoding="utf-8")
    kept("done", folder, "2027-04-02", "turn bay-2")
    kept("note", folder, "2027-04-10", "reading", "bay-2", "58")
    kept("note", folder, "2027-04-19", "reading", "bay-2", "44")
    return folder


def test_the_page_opens_on_the_heap_that_wants_turning_and_tells_all_of_it(tmp_path: Path) -> None:
    with AtTheDesk(heaps(tmp_path), ON, size=WIDE) as desk:
        desk.press("6")
        (under,) = [line for line in desk.lines if line.startswith(">")]
        assert "bay-2" in under
        assert "turn now" in under
        beside = " ".join(line.rpartition("│")[2].strip() for line in desk.lines if "│" in line)
        assert "what the readings say bay-2 was 58 C on 10 Apr and 44 C today" in " ".join(beside.split())
        assert "what went in 30 kg leaves (C:N" in " ".join(beside.split())
        assert any("bay-2 inside, C" in line for line in desk.lines)


def test_the_week_tells_by_when_a_heap_is_best_turned_and_not_the_end_of_the_year(tmp_path: Path) -> None:
    garden = heaps(tmp_path)
    for day, end in ((ON, "by 21 Apr   30 min"), (dt.date(2027, 4, 25), "turn bay-2               30 min")):
        with AtTheDesk(garden, day) as desk:
            turn = next(line for line in desk.lines if "turn bay-2" in line)
            assert "* now" in turn
            assert "".join(turn.split()).endswith("".join(end.split()))
            assert "Oct" not in turn
            assert "Nov" not in turn


def test_r_notes_a_reading_of_the_heap_under_the_bar(tmp_path: Path) -> None:
    with AtTheDesk(heaps(tmp_path), ON) as desk:
        desk.press("6")
        assert "r reading" in desk.lines[-1]
        desk.press("r", "4", "1")
        assert "bay-2: 41 C inside" in desk.text
        desk.press("enter")
        desk.wait_for("44 ▸ 41 C")


def test_space_notes_the_heap_as_turned(tmp_path: Path) -> None:
    with AtTheDesk(heaps(tmp_path), ON) as desk:
        desk.press("6")
        desk.press(" ")
        desk.wait_for("noted: done: turn bay-2")
        assert "turn now" not in desk.text
        desk.press("up", " ")
        desk.wait_for("There is no job under the bar.")


def climber(folder: Path) -> Path:
    text = garden_text(
        plant("alder", "common alder", year=2017, at=[5, 5]),
        plant("kiwi", "hardy kiwi", year=2015, sex="female", host="alder"),
        plant("hop", "hop", year=2015, host="alder"),
        helper("Ana", hours_per_week=4),
    )
    (folder / "garden.toml").write_text(text, encoding="utf-8")
    return folder


def test_a_climber_not_cut_since_last_summer_is_past_its_top_already(tmp_path: Path) -> None:
    garden = climber(tmp_path)
    kept("done", garden, "2026-07-04", "summer cut kiwi")
    with AtTheDesk(garden, ON) as desk:
        desk.press("5")
        line = next(line for line in desk.lines if "kiwi " in line and "alder" in line)
        assert line.rstrip().endswith("already"), "not a day on which the season was begun to be counted"
        assert "Space done" in desk.lines[-1]


def test_no_date_is_told_of_a_climber_whose_height_nobody_knows(tmp_path: Path) -> None:
    garden = climber(tmp_path)
    with AtTheDesk(garden, dt.date(2027, 2, 20)) as desk:
        desk.press("5")
        line = next(line for line in desk.lines if "kiwi " in line and "alder" in line)
        assert line.rstrip().endswith("not known")


def test_what_has_not_grown_since_its_cut_is_told_so_and_not_as_no_metres(tmp_path: Path) -> None:
    garden = climber(tmp_path)
    kept("done", garden, "2027-02-01", "winter cut kiwi")
    told = run("climbers", str(garden), "--on", "2027-02-20").stdout
    assert "It has not grown since it was cut on 1 Feb; it grows 0.45 m for every" in told
    assert "grown about 0.0 m" not in told


def test_too_much_is_told_with_the_reason_that_decides_it(tmp_path: Path) -> None:
    """Of a twiner on a thin young tree the trunk decides: its leaves alone may well be borne."""
    text = garden_text(
        plant("alder", "common alder", year=2023, at=[5, 5], trunk_cm=4, crown_m=2.0),
        plant("kiwi", "hardy kiwi", year=2025, sex="female", host="alder"),
    )
    (tmp_path / "garden.toml").write_text(text, encoding="utf-8")
    with AtTheDesk(tmp_path, ON, size=(120, 40)) as desk:
        desk.press("5")
        listed = " ".join(" ".join(line.partition("│")[0] for line in desk.lines[5:12]).split())
        assert "too much for alder: alder's trunk is 4 cm across: a woody twiner strangles" in listed
        assert "Its leaves cover" not in listed
