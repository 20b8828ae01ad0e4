"""The garden file changed by commands: shown first, one plant at a time, every other byte as it was."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from test_garden_kept_from_pages import WRITTEN
from tests.in_process import refused, run

from leafturn.garden.editing.kept_edits import KeptEdits
from leafturn_tui.command_line import main


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    (tmp_path / "garden.toml").write_text(WRITTEN)
    return tmp_path


def said(*words: str) -> str:
    done = run(*words)
    assert done.returncode == 0, done.stderr
    return done.stdout


def test_a_plant_is_added_changed_and_moved(garden: Path) -> None:
    file, at = garden / "garden.toml", str(garden)
    shown = said("add", at, "pear", "comice", "--year", "2015", "--at", "5n of pear-1", "--show")
    assert 'line 25, new  at = "5 paces north of pear-1"' in shown
    assert shown.endswith("Nothing was written.\n")
    assert file.read_text() == WRITTEN
    said("add", at, "pear", "comice", "--year", "2015", "--at", "5n of pear-1")
    block = '\n[[plant]]\nid = "comice"\nkind = "pear"\ncultivar = "Comice"\nyear = 2015\n'
    block += 'at = "5 paces north of pear-1"\n'
    assert file.read_text() == WRITTEN + block
    said("change", at, "comice", "rootstock", "quince", "A")
    assert file.read_text() == WRITTEN + block.replace("year", 'rootstock = "quince A"\nyear')
    said("change", at, "comice", "rootstock")
    assert file.read_text() == WRITTEN + block
    said("change", at, "comice", "age", "when", "planted", "2")
    assert file.read_text() == WRITTEN + block.replace("at =", "age_when_planted = 2\nat =")
    said("change", at, "comice", "age_when_planted")
    said("change", at, "comice", "crown", "3")
    assert "crown_m = 3" in file.read_text()
    said("change", at, "comice", "crown_m")
    assert file.read_text() == WRITTEN + block
    assert "noted: comice: moved" in said("move", at, "comice", "3e of pear-1", "--on", "2027-04-19")
    assert "moved" not in said("move", "--correct", at, "comice", "4e of pear-1", "--on", "2027-04-19")
    assert file.read_text() == WRITTEN + block.replace("5 paces north", "4 paces east")


def test_hours_of_a_helper_are_changed_and_what_they_can_stays_unless_it_is_told(garden: Path) -> None:
    file, at = garden / "garden.toml", str(garden)
    written = WRITTEN + '\n[[helper]]\nname = "bench helper"\nhours_per_week = 2\ncan = ["seated", "light"]\n'
    file.write_text(written)
    said("change", at, "Bench helper", "3")
    assert file.read_text() == written.replace("week = 2", "week = 3")
    said("change", at, "bench helper", "2", "seated")
    assert file.read_text() == written.replace(', "light"', "")
    assert "Nothing changes" in refused("change", at, "bench helper", "2")
    assert "Write hours a week" in refused("change", at, "bench helper", "away")
    assert "'flying' is not among" in refused("change", at, "bench helper", "2", "flying")


def test_where_feet_are_spoken_a_length_is_typed_and_written_in_feet(garden: Path) -> None:
    """ "crown 10" must not become ten metres; who types the unit gets that unit."""
    file, at = garden / "garden.toml", str(garden)
    file.write_text(file.read_text().replace("[place]", '[place]\nunits = "us"'))
    said("change", at, "pear-1", "crown", "10")
    assert "crown_ft = 10" in file.read_text()
    said("change", at, "pear-1", "trunk_cm", "20")
    assert "trunk_cm = 20" in file.read_text()
    said("change", at, "pear-1", "crown_m", "3")
    assert "crown_ft" not in file.read_text()
    told = refused("change", at, "pear-1", "bark", "rough")
    assert "crown, ft" in told
    assert "trunk, in" in told


def test_a_plant_is_gone(garden: Path) -> None:
    told = said("gone", str(garden), "heartnut", "hail, in July", "--on", "2026-07-08")
    assert "noted: heartnut: loss by hail" in told
    assert (garden / "garden.toml").read_text() == WRITTEN + 'state = "gone"\n'
    assert "heartnut: loss by hail" in said("book", str(garden), "--on", "2027-04-19")


def test_several_under_one_id_are_not_lost_by_mistake(
    garden: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = garden / "garden.toml"
    file.write_text(WRITTEN.replace("year = 2012", "count = 3"))
    assert "Pear-1 is 3 plants: with --all they are all lost" in refused("gone", str(garden), "pear-1")
    assert main(["gone", str(garden), "heartnut", "--on", "2050-01-01"], today=dt.date(2027, 4, 19)) == 2
    assert "is still to come" in capsys.readouterr().err
    assert "noted: pear-1" in said("gone", str(garden), "pear-1", "--all", "--on", "2026-04-19")


def test_a_note_tells_the_lines_of_the_file(garden: Path) -> None:
    told = said("note", str(garden), "loss", "pear-1", "voles", "--on", "2027-04-19")
    assert 'line 13, new  state = "gone"' in told
    assert (garden / "garden.toml").read_text() == WRITTEN
    told = said("note", str(garden), "moved", "heartnut", "--on", "2027-04-19")
    assert f"leafturn move --correct {garden} heartnut PLACE" in told
    assert "garden file" not in said("note", str(garden), "a toad", "--on", "2027-04-19")


def test_what_cannot_be_done_is_one_sentence_and_changes_nothing(garden: Path) -> None:
    at = str(garden)
    assert "'walnut' may be persian walnut" in refused("add", at, "walnut")
    assert "has a name with 'xyzzy'" in refused("add", at, "xyzzy")
    assert "Did you mean year?" in refused("change", at, "pear-1", "yeer", "2012")
    told = refused("change", at, "pear-1", "bark", "rough")
    assert "age when planted" in told
    assert "crown, m" in told
    assert "_" not in told, "words that one reads, not the keys of the file"
    assert "There is no plant 'paer-1' here. Did you mean pear-1?" in refused("gone", at, "paer-1")
    assert "lies above 2999" in refused("change", at, "pear-1", "year", "99999")
    assert "says so already" in refused("change", at, "pear-1", "year", "2012")
    assert "toll-ash" in refused("move", at, "pear-1", "5n of toll-ash")
    assert (garden / "garden.toml").read_text() == WRITTEN
    assert not (garden / "journal").exists()


@pytest.mark.parametrize("cache", ["a folder", "a file"])
def test_that_it_is_taken_back_is_promised_only_where_it_can_be(
    garden: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, cache: str
) -> None:
    place = tmp_path / "cache"
    if cache == "a file":
        place.write_text("of another program")
    monkeypatch.setenv("XDG_CACHE_HOME", str(place))
    told = said("change", str(garden), "pear-1", "crown", "3")
    last = KeptEdits(garden / "garden.toml").last()
    assert ("u in the pages, takes it back." in told) == (last is not None) == (cache == "a folder")
    assert ("It cannot be taken back" in told) == (last is None)


# The two ways to write one letter, with its accent or with a mark after it: Unicode Standard Annex 15.
WHOLE, APART = "p\u00e9pin", "pe\u0301pin"


@pytest.mark.parametrize(("written", "typed"), [(WHOLE, APART), (APART, WHOLE), (WHOLE, "P\u00c9PIN")])
def test_a_plant_is_meant_however_its_letters_are_made(written: str, typed: str, tmp_path: Path) -> None:
    """It was said not to be there, with the question whether the very same word was meant."""
    file = tmp_path / "garden.toml"
    file.write_text(WRITTEN + f'\n[[plant]]\nid = "{written}"\nkind = "pear"\n', encoding="utf-8")
    assert "noted" in said("note", str(tmp_path), "judged", typed, "keep")
    said("change", str(tmp_path), typed, "year", "2012")
    assert file.read_text(encoding="utf-8").endswith(f'id = "{written}"\nkind = "pear"\nyear = 2012\n')


def test_a_helper_is_changed_beside_one_that_is_written_as_no_table(garden: Path) -> None:
    file, at = garden / "garden.toml", str(garden)
    written = 'helper = ["Ana", { name = "Ben", hours_per_week = 2 }]\n' + WRITTEN
    file.write_text(written)
    done = run("change", at, "Ben", "3")
    assert (done.returncode, file.read_text()) == (2, written)
    assert "only a hand can change. Write in the helper of line 1:" in done.stderr
    assert done.stderr.endswith("    hours_per_week = 3\n")
