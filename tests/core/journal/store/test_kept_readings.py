"""Years that are over, kept as they were read: believed only for the very same bytes, and missed nowhere."""

from __future__ import annotations

import datetime as dt
import os
import random
import shutil
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec import structs
from tests.samples.journal import any_entry

from leafturn.files import sealed
from leafturn.journal.entries import BloomNote, Entry, HarvestNote, PlainNote
from leafturn.journal.store import kept_readings
from leafturn.journal.store.reading import FileReading, read_data
from leafturn.journal.store.sealing import written_text
from leafturn.journal.store.store import JournalReading, Store

LAST_YEAR = dt.date(2026, 5, 1)
LONG = 300  # notes


def written(number: int) -> Entry:
    on = LAST_YEAR + dt.timedelta(days=number // 3)
    what: tuple[Entry, ...] = (
        PlainNote(on=on, text=f"walked the rows, round {number}"),
        HarvestNote(on=on, plant="quince", kg=2.5),
        BloomNote(on=on, plant="quince", stage="first open", bbch=60),
    )
    return structs.replace(what[number % 3], id=f"{on}.{number + 1}.kept")


@pytest.fixture
def old(tmp_path: Path) -> Path:
    """Last year's file of a garden that is noted in this year too."""
    journal = tmp_path / "garden" / "journal"
    journal.mkdir(parents=True)
    (journal / "2026.toml").write_text("\n".join(written_text(written(n)) for n in range(LONG)))
    (journal / "2027.toml").write_text(written_text(structs.replace(written(0), id="2027-01-02.1.kept")))
    return journal / "2026.toml"


@pytest.fixture(autouse=True)
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = tmp_path / "cache"
    monkeypatch.setenv("XDG_CACHE_HOME", str(folder))
    return folder


@pytest.fixture
def parsed(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The files read note by note since."""
    names: list[str] = []

    def noting(data: bytes, file: str) -> FileReading:
        names.append(file)
        return read_data(data, file)

    monkeypatch.setattr(kept_readings, "read_data", noting)
    return names


def read(old: Path) -> JournalReading:
    return Store(old.parents[1]).read()


def kept_file(cache: Path) -> Path:
    (file,) = (cache / "leafturn" / "journals").iterdir()
    return file


def uncached(old: Path, monkeypatch: pytest.MonkeyPatch) -> JournalReading:
    with monkeypatch.context() as without:
        without.setattr(kept_readings, "cache_folder", lambda: None)
        return read(old)


def test_a_year_that_is_over_is_read_note_by_note_once(old: Path, parsed: list[str]) -> None:
    first = read(old)
    assert parsed == ["journal/2026.toml", "journal/2027.toml"]
    assert read(old) == first
    assert parsed[2:] == ["journal/2027.toml"]
    assert len(first.entries) == LONG + 1


def test_a_short_file_and_the_one_that_grows_are_not_kept(old: Path, cache: Path) -> None:
    old.write_text(written_text(written(0)))
    read(old)
    old.with_name("2027.toml").write_text("\n".join(written_text(written(n)) for n in range(LONG)))
    read(old)
    assert not cache.exists()


@pytest.mark.sweep(each=3)
@pytest.mark.parametrize("seed", range(3))
def test_any_byte_changed_is_seen_whatever_length_and_time_say(
    old: Path, monkeypatch: pytest.MonkeyPatch, seed: int
) -> None:
    chance, whole = random.Random(seed), old.read_bytes()
    read(old)
    status = old.stat()
    for at in [chance.randrange(len(whole)) for _ in range(15)]:
        old.write_bytes(whole[:at] + bytes([whole[at] ^ 1]) + whole[at + 1 :])
        os.utime(old, ns=(status.st_atime_ns, status.st_mtime_ns))
        assert read(old) == uncached(old, monkeypatch)
    old.write_bytes(whole)
    assert len(read(old).entries) == LONG + 1


@pytest.mark.sweep(each=3)
@pytest.mark.parametrize("seed", range(3))
def test_a_year_cut_short_is_noticed_as_ever(old: Path, monkeypatch: pytest.MonkeyPatch, seed: int) -> None:
    chance, whole = random.Random(seed), old.read_bytes()
    for at in [chance.randrange(9_000, len(whole)) for _ in range(10)]:
        old.write_bytes(whole)
        read(old)
        old.write_bytes(whole[:at])
        found = read(old)
        for aside in old.parent.glob("*.torn*"):
            aside.unlink()
        old.write_bytes(whole[:at])
        assert found == uncached(old, monkeypatch)
        for aside in old.parent.glob("*.torn*"):
            aside.unlink()


@pytest.mark.parametrize("seed", range(3))
def test_a_kept_file_that_went_bad_is_made_anew(old: Path, cache: Path, seed: int) -> None:
    chance, first = random.Random(seed), read(old)
    whole = kept_file(cache).read_bytes()
    for at in [chance.randrange(len(whole)) for _ in range(10)]:
        for bad in (whole[:at], whole[:at] + bytes([whole[at] ^ 255]) + whole[at + 1 :]):
            kept_file(cache).write_bytes(bad)
            assert read(old) == first
            assert kept_file(cache).read_bytes() == whole


def test_what_other_code_kept_is_not_believed(
    old: Path, monkeypatch: pytest.MonkeyPatch, parsed: list[str]
) -> None:
    with monkeypatch.context() as other:
        other.setattr(kept_readings, "_code", lambda: (b"another version",))
        read(old)
    read(old)
    assert parsed.count("journal/2026.toml") == 2


def test_what_is_kept_is_for_the_eyes_of_its_user(old: Path, cache: Path) -> None:
    read(old)
    file = kept_file(cache)
    assert (file.stat().st_mode & 0o777, file.parent.stat().st_mode & 0o777) == (0o600, 0o700)


def test_readings_of_gardens_that_are_gone_do_not_pile_up(
    old: Path, cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sealed, "MOST_FILES", 3)
    garden = old.parents[1]
    for number in range(6):
        gone = garden.with_name(f"garden-{number}")
        shutil.copytree(garden, gone)
        Store(gone).read()
        shutil.rmtree(gone)
    assert len(list((cache / "leafturn" / "journals").iterdir())) == 3


@pytest.mark.parametrize("hindrance", ["a file", "a full disk", "no home"])
def test_where_nothing_can_be_kept_all_is_read(
    old: Path, cache: Path, monkeypatch: pytest.MonkeyPatch, hindrance: str
) -> None:
    if hindrance == "a file":
        cache.write_text("")
    elif hindrance == "a full disk":
        monkeypatch.setenv("XDG_CACHE_HOME", "/dev/full")
    else:
        monkeypatch.delenv("XDG_CACHE_HOME")
        monkeypatch.setenv("HOME", "no absolute path")
    found = [read(old) for _ in range(2)]
    assert [len(one.entries) for one in found] == [LONG + 1] * 2
    assert found[0].faults == ()


def test_a_file_with_faults_is_told_of_the_second_time_too(old: Path) -> None:
    with old.open("a") as file:
        file.write('\n[[entry]]\non = 2026-05-01\nwhat = "harvset"\nplant = "quince"\n')
    first, again = read(old), read(old)
    assert first == again
    assert [fault.line for fault in again.faults] == [3 * LONG + 1]


def test_a_day_among_words_of_another_kind_stays_a_day(old: Path) -> None:
    with old.open("a") as file:
        file.write('\n[[entry]]\non = 2026-05-01\nwhat = "harvest"\nuntil = 2026-05-02\n')
    for _ in range(2):
        assert read(old).entries[LONG].besides == (("until", dt.date(2026, 5, 2)),)


@pytest.mark.long
@settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(any_entry(), max_size=8))
def test_every_kind_of_note_comes_back_as_it_was_read(old: Path, entries: list[Entry]) -> None:
    numbered = [structs.replace(e, id=f"2026-06-01.{n}.x") for n, e in enumerate(entries)]
    texts = [written_text(entry) for entry in [*map(written, range(LONG)), *numbered]]
    old.write_text("\n".join(texts))
    assert read(old) == read(old)
    assert len(read(old).entries) == LONG + len(entries) + 1
