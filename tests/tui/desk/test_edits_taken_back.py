"""The key that takes back, over what commands and pages wrote into the garden file."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from screens import shown_after
from tests.in_process import run

from leafturn.almanac import open_almanac
from leafturn.garden.editing.kept_edits import MOST, KeptEdit, KeptEdits

ON = "2027-04-19"
WRITTEN = """\
[place]
lat = 46.9
lon = 15.9
last_frost = "04-24"

[[plant]]
id   = "pear-1"   # by the gate
kind = 'pear'
year = 2012

[[plant]]
kind = "heartnut"
"""


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    (tmp_path / "garden.toml").write_text(WRITTEN)
    return tmp_path


def command(*words: str) -> str:
    done = run(*words, "--on", ON)
    assert done.returncode == 0, done.stderr
    return done.stdout


def screen(garden: Path, *keys: str) -> str:
    """The pages opened anew, and what they show after keys."""
    return "\n".join(shown_after(open_almanac(garden, dt.date.fromisoformat(ON)), (80, 24), *keys))


def test_what_commands_wrote_is_taken_back_the_last_first(garden: Path) -> None:
    file, at = garden / "garden.toml", str(garden)
    command("change", at, "pear-1", "year", "2013")
    changed = file.read_text()
    assert "u in the pages, takes it back" in command("gone", at, "heartnut", "hail")
    asked = screen(garden, "u")
    assert "Take back what was written into garden.toml?" in asked
    assert 'state = "gone"' in asked
    assert "taken back: garden.toml is as it was" in screen(garden, "u", "enter")
    assert file.read_text() == changed
    assert "taken back, heartnut: loss by hail" in command("book", at)
    screen(garden, "u", "enter")
    assert file.read_text() == WRITTEN
    assert "Take back what was written" not in screen(garden, "u")


def test_a_later_note_is_taken_back_first_and_a_file_changed_by_hand_is_left(garden: Path) -> None:
    file, at = garden / "garden.toml", str(garden)
    command("add", at, "medlar", "--year", "2020")
    command("note", at, "a toad")
    assert "Take back this note?" in screen(garden, "u")
    screen(garden, "u", "enter")
    assert "Take back what was written" in screen(garden, "u")
    by_hand = f"{file.read_text()}# by hand\n"
    file.write_text(by_hand)
    assert "There is no note to take back." in screen(garden, "u")
    assert file.read_text() == by_hand


def test_the_last_changes_are_kept_and_of_a_spoilt_file_none(
    garden: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    kept = KeptEdits(garden / "garden.toml")
    for n in range(MOST + 2):
        kept.remember(KeptEdit(before=b"%d" % n, after=b"%d" % (n + 1), about="pear-1"))
    again = KeptEdits(garden / "garden.toml")
    for n in reversed(range(2, MOST + 2)):
        last = again.last()
        assert last is not None
        assert last.edit(garden).undone().after == b"%d" % n
        again.forget_last()
    assert again.last() is None
    (file,) = (tmp_path / "cache" / "leafturn" / "edits").iterdir()
    assert file.stat().st_mode & 0o077 == 0
    file.write_text("no such thing")
    assert again.last() is None


@pytest.mark.long
def test_where_the_disk_keeps_nothing_the_pages_take_back_what_they_wrote(
    garden: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "cache").write_text("no folder")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    year = ("0", "e", *"year", "enter", "backspace", "3", "enter", "enter")
    assert "planted 2013" in screen(garden, *year)
    assert "2013" in (garden / "garden.toml").read_text()
    assert "taken back: garden.toml is as it was" in screen(
        garden, "0", "e", *"year", "enter", "backspace", "4", "enter", "enter", "u", "enter"
    )
    assert "2013" in (garden / "garden.toml").read_text()
    assert "There is no note to take back." in screen(garden, "u")
