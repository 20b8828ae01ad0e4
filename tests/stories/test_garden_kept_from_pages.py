"""A garden kept at the keyboard: plants added, changed, moved, told as gone, and all of it taken back."""

from __future__ import annotations

import datetime as dt
import re
from pathlib import Path

import pytest
from tests.at_the_desk import AtTheDesk

from leafturn.almanac import open_almanac

ON = dt.date(2027, 4, 19)
WRITTEN = """\
# the weir garden, paced in March
[place]
lat = 46.9
lon = 15.9
last_frost = "04-24"
first_frost = "10-16"

[[plant]]
id   = "pear-1"   # by the gate
kind = 'pear'
year = 2012
at = "gate"

# came by itself
[[plant]]
kind = "heartnut"
at = [ 0,
       20 ]
"""


def noted(folder: Path) -> str:
    """All that the journal holds, whichever year's file it stands in."""
    return "".join(file.read_text() for file in (folder / "journal").glob("*.toml"))


def do(desk: AtTheDesk, *steps: str) -> None:
    """Keys, each pair of them what is pressed or typed and what is then waited for."""
    for given, seen in zip(steps[::2], steps[1::2], strict=True):
        for key in given.split():
            desk.press(key)
        desk.wait_for(seen)


@pytest.mark.long
def test_change_move_gone_and_back(tmp_path: Path) -> None:
    file = tmp_path / "garden.toml"
    file.write_bytes(WRITTEN.replace("\n", "\r\n").encode())
    before = file.read_bytes()
    with AtTheDesk(tmp_path, ON, size=(100, 30)) as desk:
        do(desk, "0", "> pear-1", "e year enter", '"year" of pear-1?', "backspace 3 enter", "year = 2013")
        desk.wait_for("line 11 is now  year = 2012")
        assert file.read_bytes() == before, "shown before it is written"
        do(desk, "enter", "planted 2013")
        changed = before.replace(b"2012", b"2013")
        assert file.read_bytes() == changed
        do(desk, "down m", "Where does heartnut stand now?", "5n", "5 paces north of gate")
        do(desk, "enter", "only correct the file", "c", "> heartnut")
        desk.wait_for(lambda text: "5 paces north of gate" in text.split("What stands here?")[1])
        moved = changed.replace(b"[ 0,\r\n       20 ]", b'"5 paces north of gate"')
        assert file.read_bytes() == moved
        do(desk, "x", "Why is heartnut gone?", "hail enter", "Since when is heartnut gone?")
        desk.type("1 Apr")
        desk.wait_for("Thu 1 Apr 2027")
        do(desk, "enter", 'state = "gone"', "enter", "heartnut, gone")
        assert file.read_bytes() == moved + b'state = "gone"\r\n'
        assert 'cause = "hail"' in noted(tmp_path)
        do(desk, "u", "Take back what was written into garden.toml?", "enter", "taken back: garden.toml")
        assert file.read_bytes() == moved
        do(desk, "u", "Take back what was written", "enter", "taken back: garden.toml is as it was")
        do(desk, "u", "Take back what was written", "enter", "pear, planted 2012")
        assert file.read_bytes() == before


def test_what_can_be_changed_is_listed_in_words(tmp_path: Path) -> None:
    """The file's own keys are understood, and not shown."""
    (tmp_path / "garden.toml").write_text(WRITTEN)
    with AtTheDesk(tmp_path, ON, size=(100, 50)) as desk:
        do(desk, "0", "> pear-1", "e", "age when planted")
        assert "crown, m" in desk.text
        assert "S-alleles" in desk.text
        assert not re.search(r"[a-z]_[a-z]", desk.text)
        for typed in ("age when", "age_when"):
            desk.type(typed)
            do(desk, "enter", '"age when planted" of pear-1?', "escape", "What is to change")
            desk.type("\x15")
        desk.type("age_")
        do(desk, "enter", '"age when planted" of pear-1?', "2 enter", "age_when_planted = 2")


def test_where_feet_are_spoken_a_plant_is_changed_in_feet(tmp_path: Path) -> None:
    text = WRITTEN.replace("[place]", '[place]\nunits = "us"').replace("year = 2012", "patch_ft2 = 120")
    (tmp_path / "garden.toml").write_text(text)
    with AtTheDesk(tmp_path, ON, size=(100, 50)) as desk:
        do(desk, "0", "> pear-1", "e", "crown, ft")
        assert " m2" not in desk.text
        desk.type("patch")
        do(desk, "enter", '"patch, ft2" of pear-1?')
        assert "120" in desk.text.split('"patch, ft2" of pear-1?')[1]


def test_a_file_changed_by_another_hand_is_not_taken_back(tmp_path: Path) -> None:
    file = tmp_path / "garden.toml"
    file.write_text(WRITTEN)
    with AtTheDesk(tmp_path, ON, size=(100, 30)) as desk:
        do(desk, "0", "> pear-1", "e year enter", '"year" of pear-1?', "backspace 3 enter", "year = 2013")
        do(desk, "enter", "planted 2013")
        mine = file.read_text() + "# and a line of mine\n"
        file.write_text(mine)
        do(desk, "u", "Take back what was written", "enter", "has changed meanwhile; nothing was written")
        assert file.read_text() == mine


def test_a_file_written_in_an_unusual_way_gets_lines_to_put_in(tmp_path: Path) -> None:
    text = '[place]\nlat = 46.9\nlon = 15.9\n\n[plant]\nid = "pear-1"\nkind = "pear"\n'
    (tmp_path / "garden.toml").write_text(text)
    with AtTheDesk(tmp_path, ON, size=(100, 30)) as desk:
        do(desk, "0", "> pear-1", "e year enter", '"year" of pear-1?')
        desk.type("2012\r")
        desk.wait_for("Write in the plant of line 5:")
        assert "year = 2012" in desk.text
    assert (tmp_path / "garden.toml").read_text() == text


def test_what_is_wrong_is_said_where_it_is_typed(tmp_path: Path) -> None:
    (tmp_path / "garden.toml").write_text(WRITTEN)
    with AtTheDesk(tmp_path, ON, size=(100, 30)) as desk:
        do(desk, "0", "> pear-1", "m", "Where does pear-1 stand now?")
        desk.type("5n of toll-ash\r")
        desk.wait_for("No plant 'toll-ash'.")
        desk.type("\x15by heartnut\r")
        desk.wait_for("moved")
        do(desk, "enter", "written into garden.toml: pear-1")
        assert desk.row("> pear-1").endswith("by heartnut")
        assert 'at = "by heartnut"' in (tmp_path / "garden.toml").read_text()
        assert 'what = "moved"' in noted(tmp_path)


def test_of_several_under_one_id_it_is_asked_whether_all_are_lost(tmp_path: Path) -> None:
    file = tmp_path / "garden.toml"
    file.write_text(WRITTEN.replace("year = 2012", "count = 3"))
    with AtTheDesk(tmp_path, ON, size=(100, 30)) as desk:
        do(
            desk,
            "0",
            "> pear-1",
            "x",
            "Why is pear-1 gone?",
            "enter",
            "Since when",
            "enter",
            "are all of them lost?",
        )
        do(desk, "y", 'state = "gone"', "n", "noted: pear-1 is gone")
    assert file.read_text() == WRITTEN.replace("year = 2012", "count = 3"), "only noted"
    assert 'what = "loss"' in noted(tmp_path)


def test_a_note_of_a_loss_offers_the_line_of_the_file(tmp_path: Path) -> None:
    (tmp_path / "garden.toml").write_text(WRITTEN)
    with AtTheDesk(tmp_path, ON, size=(100, 30)) as desk:
        do(desk, "n", "What is to be noted?")
        desk.type("loss pear-1 voles\r")
        desk.wait_for("Shall garden.toml say so too?")
        assert 'line 13, new  state = "gone"' in desk.text
        do(desk, "enter", "written into garden.toml: pear-1", "n", "What is to be noted?")
        desk.type("planted pear-1\r")
        desk.wait_for("Shall garden.toml say so too?")
        assert "year = 2027" in desk.row("and becomes")
        assert 'state = "gone"' in desk.row("line 13 goes")
        desk.press("escape")
    assert (tmp_path / "garden.toml").read_text() == WRITTEN.replace('"gate"\n', '"gate"\nstate = "gone"\n')


def test_what_begins_like_a_note_and_counts_as_none_says_so_before_it_is_noted(tmp_path: Path) -> None:
    (tmp_path / "garden.toml").write_text(WRITTEN)
    with AtTheDesk(tmp_path, ON, size=(100, 30)) as desk:
        do(desk, "n", "What is to be noted?")
        desk.type("loss of a branch")
        desk.wait_for("counts as no loss")
        desk.press("escape")
        do(desk, "n", "What is to be noted?")
        desk.type("bloom Pear 1")
        desk.wait_for("pear-1: first open")


def test_a_heap_is_begun_where_heaps_are_told(tmp_path: Path) -> None:
    file = tmp_path / "garden.toml"
    file.write_text(WRITTEN)
    with AtTheDesk(tmp_path, ON, size=(80, 24)) as desk:
        do(desk, "6", "N begins one", "N", "What is the heap called?", "enter", "How far is bay-1?")
        do(desk, "2", "Where is bay-1?")
        desk.type("5n of heartnut\r")
        do(desk, "", 'stage = "working"', "enter", "written into garden.toml: bay-1")
        heap = '\n[[heap]]\nid = "bay-1"\nat = "5 paces north of heartnut"\nstage = "working"\n'
        assert file.read_text() == WRITTEN + heap
        assert "working" in desk.row("> bay-1")
        do(desk, "N", "What is the heap called?")
        desk.type("Bay 1\r")
        desk.wait_for("bay-1 stands in the garden already; bay-1-2 is free")
        desk.type("\x15Pallet bay\r")
        do(desk, "1", "Where is Pallet bay?", "enter", 'name = "Pallet bay"', "enter", "written into")
        do(
            desk,
            "u",
            "Take back what was written",
            "enter",
            "taken back",
            "u",
            "Take back",
            "enter",
            "N begins",
        )
    assert file.read_text() == WRITTEN


def test_a_year_far_ahead_is_doubted_where_it_is_typed_and_where_it_is_read(tmp_path: Path) -> None:
    (tmp_path / "garden.toml").write_text(WRITTEN)
    doubt = "2206 is 179 years ahead"
    with AtTheDesk(tmp_path, ON, size=(100, 30)) as desk:
        do(desk, "0", "> pear-1", "e year enter", '"year" of pear-1?')
        desk.type("\x152206")
        desk.wait_for(doubt)
        do(desk, "enter", "year = 2206", "enter", "written into", "R", doubt)
    assert any(doubt in said for said in open_almanac(tmp_path, ON).remarks)
    assert not any("years ahead" in said for said in open_almanac(tmp_path, ON.replace(year=2190)).remarks)


def test_someone_who_helps_is_written_in_and_taken_back(tmp_path: Path) -> None:
    file = tmp_path / "garden.toml"
    file.write_text(WRITTEN, encoding="utf-8")
    with AtTheDesk(tmp_path, ON) as desk:
        do(
            desk,
            "s",
            "someone new, or a helper's hours, written into the garden file",
            "n",
            "Who helps you",
            "enter",
            "a name, please",
        )
        desk.type("Ben two hours a week, light and kneeling")
        desk.wait_for("Ben, 2 h a week; can: light, kneel")
        do(desk, "enter", 'can = ["light", "kneel"]')
        assert file.read_text(encoding="utf-8") == WRITTEN, "shown before it is written"
        do(desk, "enter", "written into garden.toml: Ben", "s", "2  Ben", "n", "Who helps you")
        desk.type("ben")
        do(desk, "enter", "Ben 2 h a week; can: light, kneel already", "escape", "Whose jobs?")
        do(desk, "escape", "What needs hands")
        (helper,) = open_almanac(tmp_path, ON).garden.helpers
        assert (helper.name, helper.hours_per_week, helper.can) == ("Ben", 2, ("light", "kneel"))
        do(desk, "u", "goes  [[helper]]", "enter", "What needs hands")
    assert file.read_text(encoding="utf-8") == WRITTEN


def test_the_hours_of_a_helper_are_changed_and_the_rest_of_their_lines_stays(tmp_path: Path) -> None:
    file = tmp_path / "garden.toml"
    ben = '\n[[helper]]\nname = "Ben"\nhours_per_week = 2  # after school\ncan = ["light", "kneel"]\n'
    file.write_text(WRITTEN + ben, encoding="utf-8")
    with AtTheDesk(tmp_path, ON) as desk:
        do(desk, "s", "Whose jobs?", "n", "Who helps you")
        desk.type("ben 3")
        desk.wait_for("Ben, 3 h a week; can: light, kneel; until now 2 h a week; can: light, kneel")
        do(desk, "enter", "garden.toml, Ben:", "enter", "written into garden.toml: Ben")
        assert file.read_text(encoding="utf-8") == WRITTEN + ben.replace("week = 2", "week = 3")
        do(desk, "s", "Whose jobs?", "n", "Who helps you")
        desk.type("Ben 3 seated")
        do(desk, "enter", 'can = ["seated"]', "enter", "written into garden.toml: Ben")
        do(desk, "u", "Ben", "enter", "What needs hands", "u", "Ben", "enter", "What needs hands")
    assert file.read_text(encoding="utf-8") == WRITTEN + ben


def test_ones_own_hours_are_those_of_the_steward(tmp_path: Path) -> None:
    (tmp_path / "garden.toml").write_text(WRITTEN, encoding="utf-8")
    with AtTheDesk(tmp_path, ON) as desk:
        do(desk, "s", "Whose jobs?", "n", "Who helps you")
        desk.type("steward 90 min")
        do(desk, "enter", "hours_per_week = 1.5", "enter", "1 h 30 at hand")
