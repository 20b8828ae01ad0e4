"""A note and a change of the garden file that are one act: written both, or neither, whatever refuses.

That an act is done whole or not at all is what databases call atomic (Haerder and Reuter, Principles of
Transaction-Oriented Database Recovery, ACM Computing Surveys 15 (1983); from memory).
"""

from __future__ import annotations

import errno
import os
import signal
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path
from unittest import mock

import pytest
from tests.in_process import run
from tests.samples.journal import in_child
from tests.tui.screens import shown_after

from leafturn.almanac import open_almanac
from leafturn.journal.store import disk
from leafturn_tui.command_line import main

ON = date(2027, 4, 19)
WRITTEN = """\
[place]
lat = 46.9
lon = 15.9
last_frost = "04-24"

[[plant]]
id   = "pear-1"   # by the gate
kind = 'pear'
at   = "5 paces north of gate"

[[plant]]
id = "plum"
kind = "european plum"
"""


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    (tmp_path / "garden.toml").write_text(WRITTEN)
    assert run("note", str(tmp_path), "a toad", "--on", ON.isoformat()).returncode == 0
    return tmp_path


def by_command(*words: str) -> Callable[[Path], str]:
    def act(garden: Path) -> str:
        done = run(words[0], str(garden), *words[1:], "--on", ON.isoformat())
        return done.stdout + done.stderr

    return act


def by_keys(*keys: str) -> Callable[[Path], str]:
    def act(garden: Path) -> str:
        return "\n".join(shown_after(open_almanac(garden, ON), (100, 30), *keys))

    return act


ACTS = {
    "move": by_command("move", "plum", "3e of pear-1"),
    "gone": by_command("gone", "plum", "hail"),
    "m": by_keys("0", "m", *"3e of gate", "enter", "enter"),
    "x": by_keys("0", "x", *"hail", "enter", "enter", "enter"),
}


def notes(garden: Path) -> list[str]:
    """Those that stand."""
    return [entry.what for entry in open_almanac(garden, ON).entries]


@contextmanager
def _full(name: str) -> Iterator[None]:
    """The disk is full for files of this name."""
    whole = Path.open

    def open_(path: Path, *given: object, **more: object) -> object:
        if name in path.name:
            raise OSError(errno.ENOSPC, "No space left on device")
        return whole(path, *given, **more)  # type: ignore[call-overload]

    with mock.patch.object(Path, "open", open_):
        yield


@contextmanager
def _journal_full() -> Iterator[None]:
    with mock.patch.object(disk, "append", side_effect=OSError(errno.ENOSPC, "No space left on device")):
        yield


@contextmanager
def _not_replaced() -> Iterator[None]:
    """The new file can be written, and not put in the old one's place, as where that may not be touched."""
    whole = Path.replace

    def replace(path: Path, target: Path) -> Path:
        if target.name == "garden.toml":
            raise OSError(errno.EPERM, "Operation not permitted")
        return whole(path, target)

    with mock.patch.object(Path, "replace", replace):
        yield


REFUSED = {
    "journal": (_journal_full, "the disk is full"),
    "file": (lambda: _full(".garden.toml"), "the disk is full"),
    "place of the file": (_not_replaced, "may not be written to"),
}


@pytest.mark.sweep(each=3)
@pytest.mark.parametrize("refusing", REFUSED)
@pytest.mark.parametrize("act", ACTS)
def test_where_one_of_the_two_is_refused_neither_stands(garden: Path, act: str, refusing: str) -> None:
    refused, why = REFUSED[refusing]
    with refused():
        said = ACTS[act](garden)
    assert why in " ".join(said.split())
    assert (garden / "garden.toml").read_text() == WRITTEN
    assert notes(garden) == ["note"]
    assert [path.name for path in garden.iterdir() if "garden.toml" in path.name] == ["garden.toml"]
    said = ACTS[act](garden)  # and then it is done, with its note
    assert (garden / "garden.toml").read_text() != WRITTEN
    assert notes(garden) == ["note", {"m": "moved", "x": "loss", "move": "moved", "gone": "loss"}[act]]


@pytest.mark.parametrize("act", ACTS)
def test_where_the_journal_only_can_be_read_the_garden_file_stays(garden: Path, act: str) -> None:
    """A folder stands where the lock belongs: whoever notes is refused, and whoever reads is not."""
    lock = garden / "journal" / ".journal.lock"
    lock.unlink(missing_ok=True)
    lock.mkdir()
    said = ACTS[act](garden)
    assert "it is a folder, not a file" in " ".join(said.split())
    assert (garden / "garden.toml").read_text() == WRITTEN


@pytest.mark.sweep(each=3)
@pytest.mark.parametrize("refusing", REFUSED)
def test_taken_back_are_both_or_neither(garden: Path, refusing: str) -> None:
    ACTS["gone"](garden)
    gone = (garden / "garden.toml").read_text()
    refused, why = REFUSED[refusing]
    with refused():
        said = by_keys("u", "enter")(garden)
    assert why in " ".join(said.split())
    assert (garden / "garden.toml").read_text() == gone
    assert notes(garden) == ["note", "loss"]
    by_keys("u", "enter")(garden)
    assert (garden / "garden.toml").read_text() == WRITTEN
    assert notes(garden) == ["note"]


@pytest.mark.parametrize("act", ["move", "gone"])
def test_of_one_who_dies_between_the_two_the_note_stands(garden: Path, act: str) -> None:
    """The note is what cannot be had again; the garden file is whole, and can be changed as before."""

    def die(pipe: object) -> None:
        def replace(path: Path, target: Path) -> Path:
            os.kill(os.getpid(), signal.SIGKILL)
            raise AssertionError

        with mock.patch.object(Path, "replace", replace):
            ACTS[act](garden)

    child, _ = in_child(die)
    child.join()
    assert child.exitcode == -signal.SIGKILL
    assert (garden / "garden.toml").read_text() == WRITTEN
    assert notes(garden) == ["note", {"move": "moved", "gone": "loss"}[act]]
    again = {
        "move": ("move", "--correct", "plum", "3e of pear-1"),
        "gone": ("change", "plum", "state", "gone"),
    }
    assert "Written." in by_command(*again[act])(garden)


def test_a_note_declined_leaves_the_file(garden: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Who is asked whether a note far ahead is meant, and says no, has changed nothing."""
    with mock.patch("leafturn_tui.cli.notes.sure", return_value=False):
        assert main(["move", str(garden), "plum", "3e of pear-1", "--on", "2029-04-19"], today=ON) == 0
    assert "Nothing was noted." in capsys.readouterr().out
    assert (garden / "garden.toml").read_text() == WRITTEN
