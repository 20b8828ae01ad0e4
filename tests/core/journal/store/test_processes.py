"""Several processes, sudden death, full disks and closed folders: an acknowledged note is never lost."""

from __future__ import annotations

import os
import random
import resource
import shutil
import signal
import stat
import tempfile
import threading
import time
from collections.abc import Callable, Iterator
from multiprocessing.connection import Connection
from pathlib import Path

import pytest
from msgspec import structs
from tests.samples.journal import RICH, TODAY, id_key, in_child, numbered, toml_entries

from leafturn.journal.entries import PlainNote
from leafturn.journal.store.disk import locked
from leafturn.journal.store.sealing import written_text
from leafturn.journal.store.store import NotWritten, Store

NOTE = PlainNote(on=TODAY, text="frost on the grass")


def told(work: Callable[[], object]) -> object:
    """What `work` gives back when it is done in a child process of its own."""

    def run(pipe: Connection) -> None:
        try:
            pipe.send(work())
        except BaseException as error:
            pipe.send(error)

    child, pipe = in_child(run)
    answer = pipe.recv()
    child.join()
    if isinstance(answer, BaseException):
        raise answer
    return answer


@pytest.mark.sweep(each=2)
@pytest.mark.parametrize("writers", [2, 4])
def test_several_processes_write_at_once(tmp_path: Path, writers: int) -> None:
    each = 15

    def write(pipe: Connection) -> None:
        store = Store(tmp_path, patience=60)
        pipe.send([store.append_many([NOTE, RICH], TODAY)[1].id for _ in range(each)])

    children = [in_child(write) for _ in range(writers)]
    reader = Store(tmp_path)
    read: list[int] = []
    while not all(pipe.poll() for _, pipe in children):
        reading = reader.read()  # reading in the midst of writing sees whole notes only
        assert (reading.faults, reading.notes) == ((), ())
        read.append(len(reading.entries))
    assert read == sorted(read)
    given = [given_id for _, pipe in children for given_id in pipe.recv()]
    for child, _ in children:
        child.join()
    assert len(set(given)) == writers * each
    entries = Store(tmp_path).read().entries
    assert len(entries) == 2 * writers * each
    assert {entry.id for entry in entries} >= set(given)
    keys = [id_key(entry.id) for entry in entries]
    assert keys == sorted(set(keys))
    assert [entry.what for entry in entries] == ["note", "done"] * (writers * each), "acts stay side by side"
    assert len(toml_entries(tmp_path / "journal" / "2027.toml")) == len(entries)


def test_while_others_write_one_after_another_the_turn_comes_however_long_it_takes(tmp_path: Path) -> None:
    """As on a machine with much more to do than it can, where a note takes seconds to be written."""
    journal = tmp_path / "journal"
    journal.mkdir()

    def write_on(pipe: Connection) -> None:
        with locked(journal, 1):
            pipe.send("held")
            while not pipe.poll(0.01):
                with (journal / "of-others").open("a") as file:
                    file.write("a note\n")

    child, pipe = in_child(write_on)
    pipe.recv()
    patience = 1.0
    kept: list[str] = []
    waiting = threading.Thread(
        target=lambda: kept.append(Store(tmp_path, patience=patience).append(NOTE, TODAY).id)
    )
    waiting.start()
    waiting.join(2.5 * patience)
    assert waiting.is_alive(), "it has given up, or did not wait for the lock"
    pipe.send("enough")
    waiting.join(60)
    child.join()
    assert [entry.id for entry in Store(tmp_path).read().entries] == kept


@pytest.mark.long
def test_sudden_death_loses_no_acknowledged_note(tmp_path: Path) -> None:
    chance = random.Random(19)
    acknowledged: list[str] = []

    def write(pipe: Connection) -> None:
        store = Store(tmp_path, patience=60)
        while True:
            pipe.send(store.append(RICH, TODAY).id)

    for _ in range(25):
        child, pipe = in_child(write)
        acknowledged.append(pipe.recv())
        time.sleep(chance.uniform(0, 0.02))
        os.kill(child.pid, signal.SIGKILL)
        child.join()
        try:
            while True:
                acknowledged.append(pipe.recv())
        except (EOFError, OSError):
            pass
        reading = Store(tmp_path, patience=1).read()  # the dead hold no lock
        assert not reading.faults
        assert not reading.read_only
        kept = [entry.id for entry in reading.entries]
        assert set(acknowledged) <= set(kept)
        assert len(kept) == len(set(kept))
    assert len(set(acknowledged)) == len(acknowledged) >= 25
    toml_entries(tmp_path / "journal" / "2027.toml")


def test_a_lock_that_cannot_be_had_is_said_in_one_sentence(tmp_path: Path) -> None:
    store = Store(tmp_path, patience=0.1)
    store.append(NOTE, TODAY)
    before = (tmp_path / "journal" / "2027.toml").read_bytes()

    def hold(pipe: Connection) -> None:
        with locked(tmp_path / "journal", 1):
            pipe.send("held")
            pipe.recv()

    child, pipe = in_child(hold)
    pipe.recv()
    with pytest.raises(NotWritten, match="another process has been writing"):
        store.append(NOTE, TODAY)
    assert len(store.read().entries) == 1, "reading needs no lock"
    pipe.send("enough")
    child.join()
    assert (tmp_path / "journal" / "2027.toml").read_bytes() == before
    store.append(NOTE, TODAY)


def test_a_note_that_is_just_being_written_is_not_set_aside(tmp_path: Path) -> None:
    """Half a note on the disk and the lock held: whoever reads waits, and then finds it whole."""
    store, path = Store(tmp_path), tmp_path / "journal" / "2027.toml"
    store.append(NOTE, TODAY)
    text = "\n" + written_text(structs.replace(RICH, id="2027-04-19.2.abcd"))

    def write_slowly(pipe: Connection) -> None:
        with locked(path.parent, 1), path.open("a") as file:
            file.write(text[:90])
            file.flush()
            pipe.send("half")
            time.sleep(0.2)
            file.write(text[90:])

    child, pipe = in_child(write_slowly)
    pipe.recv()
    reading = store.read()
    child.join()
    assert [numbered(entry.id) for entry in reading.entries] == ["2027-04-19.1", "2027-04-19.2"]
    assert (reading.notes, reading.read_only) == ((), False)
    assert not list(path.parent.glob("*.torn*"))


def test_a_note_is_on_the_disk_before_it_is_acknowledged(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The file, and the folders in which a name is new: fsync(2) of a file does not cover its name."""
    really_sync, synced = os.fsync, []

    def sync(descriptor: int) -> None:
        really_sync(descriptor)
        status = os.fstat(descriptor)
        synced.append((status.st_ino, status.st_size if stat.S_ISREG(status.st_mode) else None))

    monkeypatch.setattr(os, "fsync", sync)
    store, journal = Store(tmp_path), tmp_path / "journal"
    store.append(NOTE, TODAY)
    file = (journal / "2027.toml").stat()
    assert synced == [
        (tmp_path.stat().st_ino, None),
        (file.st_ino, file.st_size),
        (journal.stat().st_ino, None),
    ]
    synced.clear()
    store.append(NOTE, TODAY)
    assert synced == [(file.st_ino, (journal / "2027.toml").stat().st_size)]


def refused(store: Store) -> str:
    try:
        store.append(RICH, TODAY)
    except NotWritten as error:
        return str(error)
    return "written"


@pytest.mark.sweep(each=4)
@pytest.mark.parametrize("room", [0, 1, 9, 10, 40, 150])
@pytest.mark.parametrize("first_note", [True, False])
def test_a_disk_that_fills_while_a_note_is_written(tmp_path: Path, room: int, first_note: bool) -> None:
    """The limit on file size cuts a write short at any byte, as a full disk does."""
    store, path = Store(tmp_path), tmp_path / "journal" / "2027.toml"
    if not first_note:
        store.append(NOTE, TODAY)
    before = path.read_bytes() if path.exists() else b""

    def fill() -> str:
        resource.setrlimit(resource.RLIMIT_FSIZE, (len(before) + room, -1))
        return refused(store)

    assert "the disk is full" in str(told(fill))
    assert (path.read_bytes() if path.exists() else b"") == before
    assert len(store.read().entries) == (0 if first_note else 1)
    assert numbered(store.append(NOTE, TODAY).id) == ("2027-04-19.1" if first_note else "2027-04-19.2")


def test_a_disk_that_fills_while_a_torn_tail_is_set_aside(tmp_path: Path) -> None:
    store, path = Store(tmp_path), tmp_path / "journal" / "2027.toml"
    store.append(NOTE, TODAY)
    with path.open("a") as file:
        file.write("\n[[entry]]\nbegin = true\nkg = 12")
    before = path.read_bytes()

    def fill() -> tuple[int, bool, str]:
        resource.setrlimit(resource.RLIMIT_FSIZE, (5, -1))
        reading = store.read()
        return len(reading.entries), reading.read_only, reading.notes[0]

    count, read_only, said = told(fill)  # type: ignore[misc]
    assert (count, read_only) == (1, True)
    assert "the disk is full" in said
    assert path.read_bytes() == before
    assert not list(path.parent.glob("*.torn*"))


@pytest.fixture
def open_folder() -> Iterator[Path]:
    """A folder that a process without rights can reach, which those of pytest are not."""
    folder = Path(tempfile.mkdtemp())
    folder.chmod(0o755)
    yield folder
    for path in folder.rglob("*"):
        path.chmod(0o755)
    shutil.rmtree(folder)


def as_nobody() -> None:
    """Give up root's right to write everywhere, where the tests run as root."""
    if os.geteuid() == 0:
        os.setuid(65534)


@pytest.mark.parametrize("torn", [False, True])
def test_a_folder_that_may_not_be_written_to(open_folder: Path, torn: bool) -> None:
    store, path = Store(open_folder), open_folder / "journal" / "2027.toml"
    store.append(NOTE, TODAY)
    if torn:
        with path.open("a") as file:
            file.write("\n[[entry]]\nbegin = true\nkg = 12")
    (path.parent / ".journal.lock").unlink()
    path.chmod(0o444)
    path.parent.chmod(0o555)
    before = path.read_bytes()

    def try_it() -> tuple[int, bool, int, str]:
        as_nobody()
        reading = Store(open_folder).read()
        return len(reading.entries), reading.read_only, len(reading.notes), refused(store)

    assert told(try_it)[:3] == (1, True, 1)  # type: ignore[index]
    assert "may not be written to" in told(try_it)[3]  # type: ignore[index]
    assert path.read_bytes() == before


def test_a_file_that_may_not_be_read(open_folder: Path) -> None:
    store = Store(open_folder)
    store.append(NOTE, TODAY)
    (open_folder / "journal" / "2026.toml").write_text('[[entry]]\non = 2026-05-01\nwhat = "look"\n')
    (open_folder / "journal" / "2027.toml").chmod(0o000)

    def try_it() -> tuple[int, list[str]]:
        as_nobody()
        reading = Store(open_folder).read()
        return len(reading.entries), [fault.sentence() for fault in reading.faults]

    count, faults = told(try_it)  # type: ignore[misc]
    assert count == 1
    assert len(faults) == 1
    assert faults[0] == "journal/2027.toml: This cannot be read: you have no right to read it."
