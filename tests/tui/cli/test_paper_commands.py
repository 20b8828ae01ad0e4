"""Papers of a garden whose every name is hostile: the bytes are searched, on stdout and in the files."""

from __future__ import annotations

from pathlib import Path

import icalendar
import pytest
from hostile import hostile_garden, raw_controls, raw_in_bytes
from tests.in_process import run_bytes

ON = ["--on", "2027-04-19"]
PRINTED = (
    ("sheet",),
    ("sheet", "--done", "1"),
    ("away", "--from", "2027-04-20", "--to", "2027-05-20"),
    ("handover",),
    ("feed",),
    ("card", "month"),
    ("card", "bloom"),
    ("card", "looks"),
    ("card", "p3"),
)


@pytest.fixture(scope="module")
def garden(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("hostile")
    hostile_garden(folder)
    return folder


@pytest.mark.parametrize("words", PRINTED, ids=lambda words: " ".join(words[:2]))
def test_nothing_raw_is_printed(words: tuple[str, ...], garden: Path) -> None:
    if "--done" in words:
        run_bytes("sheet", str(garden), *ON)
    done = run_bytes(words[0], str(garden), *ON, *words[1:])
    assert done.returncode in (0, 1), done.stderr
    assert not raw_in_bytes(done.stdout)
    assert not raw_in_bytes(done.stderr)
    assert b"Traceback" not in done.stderr


def test_the_files_hold_nothing_raw_and_can_be_read(garden: Path) -> None:
    run_bytes("feed", str(garden), *ON)
    files = sorted((garden / "papers").glob("*.ics"))
    assert len(files) == 2
    for file in files:
        data = file.read_bytes()
        assert not raw_controls(data.decode("utf-8").replace("\r\n", "\n"))
        assert all(len(line) <= 75 for line in data.split(b"\r\n"))
        assert list(icalendar.Calendar.from_ical(data.decode()).walk("VEVENT"))


def test_a_folder_that_cannot_be_made_is_said(garden: Path, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    done = run_bytes("feed", str(garden), *ON, "--into", str(tmp_path / "file" / "papers"))
    assert done.returncode == 2
    assert b"could not be written" in done.stderr


def test_wrong_words_cost_one_sentence(garden: Path) -> None:
    for words in (("--done", "99"), ("--done", ""), ("--done", "x"), ("--done", "52-Z 1")):
        done = run_bytes("sheet", str(garden), *ON, *words)
        assert done.returncode == 2
        assert done.stderr.startswith(b"Nothing was noted: ")
        assert done.stderr.count(b"\n") == 1
    for dates in (
        ("2027-04-10", "2027-04-30"),
        ("2027-05-10", "2027-05-10"),
        ("soon", "later"),
        ("2027-05-10", "2031-01-01"),
    ):
        done = run_bytes("away", str(garden), *ON, "--from", dates[0], "--to", dates[1])
        assert done.returncode == 2
        assert done.stderr.count(b"\n") == 1
