"""A note cut short is never taken for a whole one, wherever it was cut."""

from __future__ import annotations

import os
import tomllib
from pathlib import Path

import pytest
from hypothesis import given, settings
from tests.samples.journal import HAND_WRITTEN, RICH, TODAY, any_entry, toml_entries

from leafturn.journal.entries import BloomNote, Entry, HarvestNote, HeapReading, PlainNote
from leafturn.journal.store.sealing import OPENING, SEAL, plain_fields, torn_at, written_text
from leafturn.journal.store.store import Store


@pytest.fixture(autouse=True)
def quick_disk(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing here asks whether the disk keeps its word, only what is in the files."""
    monkeypatch.setattr(os, "fsync", lambda _: None)


def cut_everywhere(folder: Path, whole: bytes, before: int) -> list[int]:
    """Cut a journal file at every byte after `before`, read it, note something; the cuts that were whole."""
    path = folder / "journal" / "2027.toml"
    path.parent.mkdir(exist_ok=True)
    path.write_bytes(whole)
    expected = Store(folder).read().entries
    following = PlainNote(on=TODAY, text="life goes on")
    as_before = []
    for cut in range(before, len(whole) + 1):
        for old in path.parent.glob("*"):
            old.unlink()
        path.write_bytes(whole[:cut])
        store = Store(folder)
        reading = store.read()
        assert not reading.faults, cut
        assert reading.entries == expected[: len(reading.entries)], f"cut at {cut}: something wrong was read"
        aside = sorted(path.parent.glob("*.torn*"))
        assert path.read_bytes() + b"".join(a.read_bytes() for a in aside) == whole[:cut], (
            "not a byte is lost"
        )
        assert bool(reading.notes) == bool(aside), "what is set aside is said"
        kept = store.append(following, TODAY)
        after = Store(folder).read()
        assert after.entries == (*reading.entries, kept), cut
        assert len(toml_entries(path)) == len(after.entries), cut
        if len(reading.entries) == len(expected):
            as_before.append(cut)
    return as_before


def test_a_note_cut_at_any_byte_is_whole_or_nothing(tmp_path: Path) -> None:
    store = Store(tmp_path)
    (tmp_path / "journal").mkdir()
    path = tmp_path / "journal" / "2027.toml"
    path.write_text(HAND_WRITTEN)
    store.append(BloomNote(on=TODAY, plant="comice-2", stage="first open"), TODAY)
    before = path.stat().st_size
    store.append(RICH, TODAY)
    whole = path.read_bytes()
    # Only the line end after the seal can be missing without harm.
    assert cut_everywhere(tmp_path, whole, before) == [len(whole) - 1, len(whole)]


def test_a_new_file_cut_at_any_byte(tmp_path: Path) -> None:
    Store(tmp_path).append(RICH, TODAY)
    whole = (tmp_path / "journal" / "2027.toml").read_bytes()
    assert cut_everywhere(tmp_path, whole, 0) == [len(whole) - 1, len(whole)]


def test_an_act_of_several_notes_cut_at_any_byte(tmp_path: Path) -> None:
    notes = [HarvestNote(on=TODAY, plant="quince", kg=123.0), RICH]
    Store(tmp_path).append_many(notes, TODAY)
    whole = (tmp_path / "journal" / "2027.toml").read_bytes()
    assert cut_everywhere(tmp_path, whole, 0) == [len(whole) - 1, len(whole)]


def test_what_a_reader_without_seals_would_get_wrong() -> None:
    """The fault this guards against: a shorter number that is a number still."""
    text = written_text(HarvestNote(id="2027-04-19.1", on=TODAY, plant="quince", kg=123.0))
    cut = text[: text.index("kg = 12") + len("kg = 12")]
    assert tomllib.loads(cut)["entry"][0]["kg"] == 12
    assert torn_at(cut.encode()) == 0


@pytest.mark.parametrize(
    ("tail", "torn"),
    [
        (b"", False),
        (b'[[entry]]\non = 2027-04-19\nwhat = "note"\ntext = "by hand"', False),
        (b'[[entry]]\non = 2027-04-19\nwhat = "note"\ntext = "by hand"\n', False),
        (b'[[entry]]\r\non = 2027-04-19\r\nwhat = "note"\r\n', False),
        (b"# a remark by hand", False),
        (b"[", True),
        (b"[[entry]]", True),
        (b"[[entry]]\nbegin = tr", True),
        (OPENING.encode(), True),
        (OPENING.encode() + b'id = "2027-04-19.3"\non = 2027-04-19\nwhat = "note"\n', True),
        (OPENING.encode() + b'text = "end = true"\n', True),
        (OPENING.encode() + b"on = 2027-04-19\nend = tru", True),
        (OPENING.encode() + b'on = 2027-04-19\nwhat = "note"\n' + SEAL.encode(), False),
        (OPENING.encode() + b"on = 2027-04-19\n" + SEAL.encode() + b"\0\0\0\0", True),
        (OPENING.encode() + b"on = 20\0\0\0\0\0\0\n" + SEAL.encode(), True),
        (b"\0" * 100, True),
    ],
)
def test_what_makes_a_tail_torn(tail: bytes, torn: bool) -> None:
    before = HAND_WRITTEN.encode() + b"\n"
    assert (torn_at(before + tail) is not None) is torn


def test_a_note_cut_short_and_written_on_by_hand_is_left_out_and_stays(tmp_path: Path) -> None:
    """Nothing that a person wrote is ever set aside: here they went on below a torn note."""
    path = tmp_path / "journal" / "2027.toml"
    path.parent.mkdir()
    text = OPENING + 'on = 2027-04-18\nwhat = "harvest"\nkg = 12\n\n' + HAND_WRITTEN
    path.write_text(text)
    reading = Store(tmp_path).read()
    assert [entry.plant for entry in reading.entries] == ["rhubarb"]
    assert [(fault.file, fault.line) for fault in reading.faults] == [("journal/2027.toml", 1)]
    assert "cut short" in reading.faults[0].message
    assert path.read_text() == text


@settings(max_examples=60, deadline=None)
@given(any_entry())
def test_the_quick_reading_is_the_reading_of_toml(entry: Entry) -> None:
    text = written_text(entry)
    found = tomllib.loads(text)["entry"]
    assert len(found) == 1
    quick = plain_fields(text)
    if quick is not None:
        del found[0]["begin"], found[0]["end"]
        del quick["end"]
        assert quick == found[0]
        assert {name: type(value) for name, value in quick.items()} == {
            name: type(value) for name, value in found[0].items()
        }


def test_the_quick_reading_is_used_for_an_ordinary_note() -> None:
    """Or the speed it is there for would be lost without a sound."""
    assert plain_fields(written_text(RICH) + "\n") is not None
    for text in ("✓", "\t", "\x7f", 'a "b" \\', ""):
        note = HeapReading(
            id="2027-04-19.1", on=TODAY, heap="bay-2", temp_c=44.5, besides=(("wind", False),), text=text
        )
        assert plain_fields(written_text(note) + "\n") is not None


@pytest.mark.parametrize(
    "changed",
    [
        'plant = "quince" # by the gate',
        "kg = 4 kg = 5",
        "kg = 007",
        "on = 2027-02-30",
        "kg = 1\nkg = 2",
        'text = "a\\U00000041"',
        'text = "a\\ud800"',
        'text = "a\\/b"',
        'text = "a\t\\n"',
        'tasks = ["a", "b",]',
        'tasks = ["a"',
        'plant = "a", heap = "b"',
        "[other]",
    ],
)
def test_a_note_changed_by_hand_is_left_to_toml(changed: str) -> None:
    assert plain_fields(OPENING + f"{changed}\n" + SEAL) is None
