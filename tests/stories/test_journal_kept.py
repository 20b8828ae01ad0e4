"""Stories of a journal over years: proved whole, two put together, a report without what is private."""

from __future__ import annotations

import json
import re
import shutil
from pathlib import Path

import pytest
from tests.in_process import refused, run
from tests.samples.garden_text import garden_text, heap, helper, own_job, own_rule, plant

ON = ("--on", "2027-04-19")


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    folder = tmp_path / "garden"
    folder.mkdir()
    text = garden_text(plant("comice", "pear", cultivar="Comice"), helper("Ottilie"), name="Hidden Hollow")
    (folder / "garden.toml").write_text(text)
    return folder


def test_two_who_note_apart_put_their_journals_together(garden: Path) -> None:
    run("note", str(garden), "harvest comice 1 kg", *ON)
    other = Path(shutil.copytree(garden, garden.parent / "other"))
    run("note", str(garden), "harvest comice 5 kg", *ON)
    run("note", str(other), "harvest comice 500 kg", *ON)
    (file,), (theirs,) = (sorted((one / "journal").glob("*.toml")) for one in (garden, other))
    done = run("book", "--merge", str(file), str(theirs))
    assert done.stdout == f"1 note of {theirs} added to {file}.\n"
    told = run("book", str(garden), *ON).stdout
    assert [f"picked {kilos} kg" in told for kilos in (1, 5, 500)] == [True] * 3
    assert "nothing was changed" in run("book", "--merge", str(file), str(theirs)).stdout
    assert "missing" in refused("book", "--merge", str(file), str(garden / "none.toml"))


def test_the_journal_is_proved_whole_and_what_is_lost_is_named(garden: Path) -> None:
    for kilos in (1, 2, 3):
        run("note", str(garden), f"harvest comice {kilos} kg", *ON)
    done = run("book", str(garden), "--verify")
    assert done.returncode == 0
    assert done.stdout.splitlines()[-1] == "The journal is whole: 3 notes in 1 file."
    (file,) = (garden / "journal").glob("*.toml")
    blocks = file.read_text().split("\n\n")
    file.write_text("\n\n".join([*blocks[:2], blocks[3]]))
    done = run("book", str(garden), "--verify")
    assert done.returncode == 1
    assert ".2 is not there, though later ones are." in done.stdout
    assert json.loads(run("book", str(garden), "--verify", "--json").stdout)["whole"] is False


def test_a_report_tells_nothing_private(garden: Path) -> None:
    run("note", str(garden), "harvest comice 1 kg by the hidden gate", *ON)
    run("note", str(garden), "Ottilie is ill", *ON)
    with (garden / "garden.toml").open("a") as file:
        file.write('\n[[plant]]\nkind = "apple"\nat = "5 m west of the secret spring"\n')
    done = run("check", str(garden), "--report", *ON)
    assert done.returncode == 0
    for private in ("Hidden", "Hollow", "Ottilie", "comice", "secret", "gate", "46.9", str(garden.parent)):
        assert private.lower() not in done.stdout.lower(), private
    for told in (
        "leafturn 0.",
        "2 plants",
        "about latitude 45 north",
        "1 fault",
        "the garden file, line",
        "whole",
    ):
        assert told in done.stdout, told


def test_a_report_holds_no_names_of_people_of_files_or_of_own_words(garden: Path) -> None:
    """Names everywhere that a name may stand, half of them in what is faulty and so is told in remarks."""
    named = garden_text(
        helper("Zebedee", can=["zithering"], reach_from="zenith"),
        plant("zelkova-q", "zanzibar fig", cultivar="Zuleika", at="5 m north of zoffany"),
        heap("zanyheap", stage="zapped"),
        own_job("zjob", "zinc the roof for Zorah", when="3 d after zzz"),
        own_rule("zap", applies={"kinds": ["zebrawood"]}, open="zloty", close="05-01"),
        '[[path]]\nname = "Zoe\'s way"\nline = [[0, 0], [1e200, 0]]\n',
        '[[seat]]\nname = "Zita\'s bench"\nat = "by zither"\n',
        name="Zion End", weather="zonda.csv", region="zululand",
    )  # fmt: skip
    (garden / "garden.toml").write_text(named)
    (garden / "kinds.toml").write_text('[zedoary]\nhabit = "zigzag"\n')
    (garden / "zonda.csv").write_text("date,tmin\nzero,1\n")
    journal = garden / "journal"
    journal.mkdir(exist_ok=True)
    (journal / "zeb.toml").write_text("zest = 1\n")
    (journal / "2027 (Zara's copy).toml").write_text('[[entry]]\nwhat = "zoom"\nby = "Zack"\n')
    (journal / "2026.toml").write_text(
        '[[entry]]\non = 2026-05-01\nwhat = "note"\ntext = "zany" by = "Zack"\n'
    )
    done = run("check", str(garden), "--report", *ON)
    assert done.returncode == 0
    assert "fault" in done.stdout
    told = [word for word in re.findall(r"\w+", done.stdout) if word.lower().startswith("z")]
    assert told == []
    assert str(garden) not in done.stdout
