"""A note cut short is never taken for a whole one, wherever it was cut."""

from __future__ import annotations

import os
import tomllib
from pathlib import Path

import pytest
from hypothesis import given, settings
from tests.samples.journal import HAND_WRITTEN, RICH, TODAY, any_entry, toml_entries

from leafturn.journal.entries import BloomNote, Entry, HarvestNote, HeapReading, PlainNote
from leafturn.journal.store.quick import plain_fields
from leafturn.journal.store.sealing import torn_at, written_text
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


@pytest.mark.long
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


@pytest.mark.long
def test_a_new_file_cut_at_any_byte(tmp_path: Path) -> None:
    Store(tmp_path).append(RICH, TODAY)
    whole = (tmp_path / "journal" / "2027.toml").read_bytes()
    assert cut_everywhere(tmp_path, whole, 0) == [len(whole) - 1, len(whole)]


@pytest.mark.long
def test_an_act_of_several_notes_cut_at_any_byte(tmp_path: Path) -> None:
    notes = [HarvestNote(on=TODAY, plant="quince", kg=123.0), RICH]
    Store(tmp_path).append_many(notes, TODAY)
    whole = (tmp_path / "journal" / "2027.toml").read_bytes()
    assert cut_everywhere(tmp_path, whole, 0) == [len(whole) - 1, len(whole)]


def test_no_beginning_of_a_note_is_whole_toml() -> None:
    """The fault this guards against: a shorter number that is a number still, as `kg = 12` of `kg = 123`."""
    note = HarvestNote(id="2027-04-19.1.abcd", on=TODAY, plant="quince", kg=123.0, text="a } and a }")
    text = written_text(note)
    for cut in range(len(text) - 1):
        assert torn_at(text[:cut].encode()) == (None if cut == 0 else 0), text[:cut]
    heading = text.index("\n") + 1
    for cut in range(heading + 1, len(text) - 1):
        with pytest.raises(tomllib.TOMLDecodeError):
            tomllib.loads(text[:cut])


OLD = "[[entry]]\nbegin = true\n"  # format 1
OLD_END = "end = true\n"
OURS = "[[entry]] # 2027-04-19.3.abcd\n"
NOTE_LINE = 'note = { id = "2027-04-19.3.abcd", on = 2027-04-19, what = "note" }'


@pytest.mark.parametrize(
    ("tail", "torn"),
    [
        ("", False),
        ('[[entry]]\non = 2027-04-19\nwhat = "note"\ntext = "by hand"', False),
        ('[[entry]]\non = 2027-04-19\nwhat = "note"\ntext = "by hand"\n', False),
        ('[[entry]]\r\non = 2027-04-19\r\nwhat = "note"\r\n', False),
        ("# a remark by hand", False),
        ("[", True),
        ("[[entry]]", True),
        ("[[entry]] # 2027-0", True),
        (OURS, True),
        (OURS + "no", True),
        (OURS + NOTE_LINE[:-1], True),
        (OURS + NOTE_LINE, False),
        (OURS + NOTE_LINE + "\n", False),
        (OURS + NOTE_LINE + ' # read "again"', False),
        (OURS + NOTE_LINE[:-1] + "\n", False),  # a hand has been here: a cut takes the line end too
        (OURS + 'what = "no', False),
        (OURS + NOTE_LINE + "\n\0\0\0", True),
        (OURS + "note = { id\0\0\0\0 }\n", True),
        ("[[entry]]\nbegin = tr", True),
        (OLD, True),
        (OLD + 'id = "2027-04-19.3"\non = 2027-04-19\nwhat = "note"\n', True),
        (OLD + 'text = "end = true"\n', True),
        (OLD + "on = 2027-04-19\nend = tru", True),
        (OLD + 'on = 2027-04-19\nwhat = "note"\n' + OLD_END, False),
        (OLD + 'on = 2027-04-19\nwhat = "note"\nend=true\n', False),
        (OLD + 'on = 2027-04-19\nwhat = "note"\n  end = true  # looked over\n', False),
        (OLD + 'on = 2027-04-19\nwhat = "note"\n"end" = true\n', False),
        (OLD + "on = 2027-04-19\n" + OLD_END + "\0\0\0\0", True),
        (OLD + "on = 20\0\0\0\0\0\0\n" + OLD_END, True),
        ("\0" * 100, True),
    ],
)
def test_what_makes_a_tail_torn(tail: str, torn: bool) -> None:
    before = HAND_WRITTEN.encode() + b"\n"
    assert (torn_at(before + tail.encode()) is not None) is torn


def test_a_note_cut_short_and_written_on_by_hand_is_left_out_and_stays(tmp_path: Path) -> None:
    """Nothing that a person wrote is ever set aside: here they went on below a torn note."""
    path = tmp_path / "journal" / "2027.toml"
    path.parent.mkdir()
    text = OLD + 'on = 2027-04-18\nwhat = "harvest"\nkg = 12\n\n' + HAND_WRITTEN
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
        inside = found[0]["note"]
        assert quick == inside
        assert {name: type(value) for name, value in quick.items()} == {
            name: type(value) for name, value in inside.items()
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
    assert plain_fields(OLD + f"{changed}\n" + OLD_END) is None
    if "heap" not in changed:  # two fields on a line are no harm there
        assert plain_fields(OURS + f"note = {{ {changed} }}\n") is None
