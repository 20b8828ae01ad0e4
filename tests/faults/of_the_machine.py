"""Faults of the machine: cuts, sudden death, power loss, full disks, rights, clocks."""

from __future__ import annotations

import datetime as dt
import os
import random
import re
import resource
import shutil
import signal
import subprocess
import tempfile
import time
from multiprocessing.connection import Connection
from pathlib import Path

from leafturn.journal.entries import PlainNote
from leafturn.journal.store.store import NotWritten, Store
from tests.faults.lossy_disk import LossyDisk
from tests.faults.trial import (
    GARDEN,
    TODAY,
    Tally,
    Trial,
    compared,
    heard,
    is_sentence,
    note,
    noting,
    small_garden,
    texts,
)
from tests.in_process import run
from tests.samples.journal import in_child

_WHOLE = re.compile(r"life \d+ note \d+ of many")  # what a child of `sudden_death` types


def cut_anywhere(times: int, seed: int) -> Tally:
    """Three notes; the file cut at bytes spread evenly, at every byte if there are as many cuts."""
    tally = Tally()
    with small_garden() as garden:
        words = [f"note {number} of three, with }} in it" for number in range(3)]
        for one in words:
            note(garden, one)
        (file,) = (garden / "journal").glob("*.toml")
        whole = file.read_bytes()
        ends = [whole.index(one.encode()) + whole[whole.index(one.encode()) :].index(b"\n") for one in words]
        for cut in sorted({round(place * len(whole) / times) for place in range(times + 1)}):
            for old in file.parent.glob("2027.toml*"):
                old.unlink()
            file.write_bytes(whole[:cut])
            found = texts(garden)
            aside = b"".join(path.read_bytes() for path in sorted(file.parent.glob("*.torn*")))
            one = compared([w for w, end in zip(words, ends, strict=True) if end <= cut], found, set(words))
            one.wrong += file.read_bytes() + aside != whole[:cut]
            one.unsaid += note(garden, "life goes on") != "kept"
            one.tried = 1
            tally.add(one)
    return tally


def sudden_death(times: int, seed: int) -> Tally:
    """A process that notes by the command is killed at a random moment of its second note, or its third."""
    chance, tally = random.Random(seed), Tally(tried=times)
    with small_garden() as garden:
        first = (
            f"life {times} note 0 of many"  # here, so that what a command loads need not be loaded in each
        )
        acknowledged = [first] if note(garden, first) == "kept" else []
        for number in range(times):
            child, pipe = in_child(noting(garden, f"life {number}"))
            pipe.recv()
            begun = time.monotonic()
            acknowledged.append(pipe.recv())
            time.sleep(chance.uniform(0.0, 1.2 * (time.monotonic() - begun)))
            os.kill(child.pid, signal.SIGKILL)
            child.join()
            acknowledged += heard(pipe)
        found = texts(garden)
        written = {text for text in found if _WHOLE.fullmatch(text)}
        tally.add(compared(acknowledged, found, written))
        tally.unsaid += run("book", str(garden), "--verify").returncode != 0
    return tally


def power_loss(times: int, seed: int) -> Tally:
    """The power fails at a moment drawn at random, on a disk that forgets what was not synced."""
    chance, tally = random.Random(seed), Tally(tried=times)
    for _ in range(times):
        with tempfile.TemporaryDirectory() as made:
            root, after = Path(made).resolve() / "before", Path(made).resolve() / "after"
            root.mkdir()
            after.mkdir()
            disk, store, acknowledged = LossyDisk(root), Store(root), []
            with disk.listening():
                notes = chance.randint(0, 4)
                for number in range(notes):
                    store.append(PlainNote(on=TODAY, text=f"note {number}"), TODAY)
                    acknowledged.append(f"note {number}")
                _fail_within_a_note(store, disk, after, chance)
            found = [e.text for e in Store(after).read().entries]
            tally.add(compared(acknowledged, found, {*acknowledged, "the last"}))
            tally.unsaid += Store(after).append(PlainNote(on=TODAY, text="on"), TODAY).text != "on"
    return tally


class _PowerFailed(BaseException):
    """The machine stands still."""


def _fail_within_a_note(store: Store, disk: LossyDisk, after: Path, chance: random.Random) -> None:
    """Begin a note; the power fails after one of its calls, or when it is done."""
    left = chance.randint(0, 9)
    counted = {name: getattr(os, name) for name in ("write", "fsync")}

    def stop_after(name: str):  # type: ignore[no-untyped-def]
        def call(*given):  # type: ignore[no-untyped-def]
            nonlocal left
            came = counted[name](*given)
            left -= 1
            if left == 0:
                disk.after_power_loss(after, chance)
                raise _PowerFailed
            return came

        return call

    try:
        os.write, os.fsync = stop_after("write"), stop_after("fsync")
        store.append(PlainNote(on=TODAY, text="the last"), TODAY)
        disk.after_power_loss(after, chance)
    except _PowerFailed:
        pass
    finally:
        os.write, os.fsync = counted["write"], counted["fsync"]


def full_disk(times: int, seed: int) -> Tally:
    """The disk fills at a byte drawn at random (a limit on file size); then there is room again."""
    chance, tally = random.Random(seed), Tally(tried=times)
    for _ in range(times):
        with small_garden() as garden:
            early = [f"note {number}" for number in range(3)]
            acknowledged = [words for words in early if note(garden, words) == "kept"]
            (file,) = (garden / "journal").glob("*.toml")
            room = file.stat().st_size + chance.randint(0, 200)

            def fill(pipe: Connection, garden: Path = garden, room: int = room) -> None:
                signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
                resource.setrlimit(resource.RLIMIT_FSIZE, (room, -1))
                pipe.send([note(garden, f"more {number}") for number in range(3)])

            child, pipe = in_child(fill)
            said = pipe.recv()
            child.join()
            acknowledged += [f"more {number}" for number, one in enumerate(said) if one == "kept"]
            found = texts(garden)
            tally.add(compared(acknowledged, found, set(acknowledged)))
            tally.unsaid += sum(not is_sentence(one) for one in said if one != "kept")
            tally.unsaid += note(garden, "room again") != "kept"
    return tally


def small_file_system(times: int, seed: int) -> Tally:
    """A file system of 64 kB in memory that is filled with notes, where one may be mounted; else none."""
    tally = Tally()
    for _ in range(times):
        with tempfile.TemporaryDirectory() as made:
            mounted = ["mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", made]
            if shutil.which("mount") is None or subprocess.run(mounted, capture_output=True).returncode:
                return tally
            try:
                garden = Path(made)
                (garden / "garden.toml").write_text(GARDEN)
                acknowledged, said = [], ""
                for number in range(200):
                    words = f"note {number} " + "x" * 1_500
                    if (said := note(garden, words)) != "kept":
                        break
                    acknowledged.append(words)
                found = texts(garden)
                tally.add(compared(acknowledged, found, set(acknowledged)))
                tally.tried += 1
                tally.unsaid += not (is_sentence(said) and "the disk is full" in said)
            finally:
                subprocess.run(["umount", made], check=True)
    return tally


def rights_taken(times: int, seed: int) -> Tally:
    """The folder, the journal or the file may only be read, for someone who is not root."""
    chance, tally = random.Random(seed), Tally(tried=times)
    for _ in range(times):
        with small_garden() as garden:
            acknowledged = ["before"] if note(garden, "before") == "kept" else []
            (file,) = (garden / "journal").glob("*.toml")
            for path in [garden.parent, garden, file.parent, *file.parent.iterdir(), garden / "garden.toml"]:
                path.chmod(0o777 if path.is_dir() else 0o666)
            closed = chance.choice((garden, file.parent, file, file.parent / ".journal.lock"))
            closed.chmod(0o555 if closed.is_dir() else 0o444)

            def try_it(pipe: Connection, garden: Path = garden) -> None:
                if os.geteuid() == 0:
                    os.setuid(65534)
                pipe.send(note(garden, "without rights"))

            child, pipe = in_child(try_it)
            said = pipe.recv()
            child.join()
            acknowledged += ["without rights"] if said == "kept" else []
            tally.unsaid += said != "kept" and not is_sentence(said)
            closed.chmod(0o777 if closed.is_dir() else 0o666)
            tally.add(compared(acknowledged, texts(garden), {"before", "without rights"}))
    return tally


def folder_gone(times: int, seed: int) -> Tally:
    """The garden's folder vanishes while it is open, as a drive that is pulled out, and comes back."""
    tally = Tally(tried=times)
    for _ in range(times):
        with small_garden() as garden:
            store, away = Store(garden), garden.with_name("away")
            store.append(PlainNote(on=TODAY, text="before"), TODAY)
            garden.rename(away)
            try:
                store.append(PlainNote(on=TODAY, text="meanwhile"), TODAY)
                tally.wrong += 1
            except NotWritten as why:
                tally.unsaid += not str(why)
            tally.wrong += garden.exists()
            tally.unsaid += not is_sentence(note(garden, "meanwhile"))
            away.rename(garden)
            store.append(PlainNote(on=TODAY, text="after"), TODAY)
            tally.add(compared(["before", "after"], texts(garden), {"before", "after"}))
    return tally


def lock_fails(times: int, seed: int) -> Tally:
    """The lock is held for long, or something stands in its place."""
    chance, tally = random.Random(seed), Tally(tried=times)
    for _ in range(times):
        with small_garden() as garden:
            lock = garden / "journal" / ".journal.lock"
            way = chance.choice(("folder", "link to nothing", "held"))
            if way == "folder":
                lock.mkdir()
            elif way == "link to nothing":
                lock.symlink_to(garden.parent / "nowhere" / "lock")
            child = None
            if way == "held":
                child, pipe = in_child(lambda pipe, garden=garden: _hold(pipe, garden))
                pipe.recv()
            store = Store(garden, patience=0.05)
            try:
                store.append(PlainNote(on=TODAY, text="meanwhile"), TODAY)
                acknowledged = ["meanwhile"]
            except NotWritten as why:
                acknowledged = []
                tally.unsaid += not str(why)
            if child is not None:
                os.kill(child.pid, signal.SIGKILL)
                child.join()
            tally.add(compared(acknowledged, texts(garden), {"meanwhile"}))
    return tally


def _hold(pipe: Connection, garden: Path) -> None:
    from leafturn.journal.store.disk import locked

    with locked(garden / "journal", 1):
        pipe.send("held")
        time.sleep(60)


def clock_steps(times: int, seed: int) -> Tally:
    """The clock steps back and forward between notes, and days far ahead are asked about."""
    chance, tally = random.Random(seed), Tally(tried=times)
    with small_garden() as garden:
        acknowledged = []
        for number in range(times):
            written = TODAY + dt.timedelta(days=chance.randint(-400, 40))
            day = TODAY + dt.timedelta(days=chance.randint(-9_000, 9_000))
            entry = PlainNote(on=day, text=f"note {number}")
            Store(garden).append(entry, written)
            acknowledged.append(f"note {number}")
        entries = Store(garden).read().entries
        tally.add(compared(acknowledged, [entry.text or "" for entry in entries], set(acknowledged)))
        tally.wrong += len({entry.id for entry in entries}) != len(entries)
        tally.wrong += [entry.text for entry in entries] != acknowledged
    return tally


TRIALS = (
    Trial("cut", "a journal of three notes cut at every byte", cut_anywhere, 30, 900),
    Trial("kill", "kill -9 of a process that is noting, at a random moment", sudden_death, 8, 500),
    Trial("power", "power loss on a disk that forgets what was not synced", power_loss, 60, 2_000),
    Trial("full", "a disk that fills at a random byte of a note", full_disk, 5, 150),
    Trial("tmpfs", "a file system of 64 kB filled with notes", small_file_system, 1, 5),
    Trial("rights", "folder, journal, file or lock that may only be read", rights_taken, 5, 100),
    Trial("gone", "the garden's folder vanishes and comes back", folder_gone, 4, 100),
    Trial("lock", "a lock that is held, or cannot be made", lock_fails, 6, 200),
    Trial("clock", "a clock that steps back and forward, notes of days far off", clock_steps, 60, 2_000),
)
