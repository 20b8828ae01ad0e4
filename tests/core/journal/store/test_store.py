"""The journal on disk: what is noted is kept, and what was written is never touched."""

from __future__ import annotations

import datetime as dt
import errno
import os
import re
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec import structs
from tests.samples.journal import (
    HAND_WRITTEN,
    RICH,
    TODAY,
    any_entry,
    headings,
    id_key,
    numbered,
    toml_entries,
)

from leafturn.journal.entries import BloomNote, Entry, HarvestNote, PlainNote
from leafturn.journal.store import appending
from leafturn.journal.store.store import NotWritten, Store

NOTE = PlainNote(on=TODAY, text="frost on the grass")


@pytest.fixture
def year_file(tmp_path: Path) -> Path:
    """Where this year's notes of the garden in `tmp_path` lie; the folder is there, the file is not."""
    (tmp_path / "journal").mkdir()
    return tmp_path / "journal" / "2027.toml"


def placeless(entry: Entry) -> Entry:
    return structs.replace(entry, id="", file="", line=0, sum="")


# ---- writing and reading back ------------------------------------------------------------------------------


def test_an_empty_garden_has_an_empty_journal(tmp_path: Path) -> None:
    reading = Store(tmp_path).read()
    assert (reading.entries, reading.faults, reading.notes, reading.read_only) == ((), (), (), False)
    assert list(tmp_path.iterdir()) == [], "reading makes nothing"


def test_a_note_is_read_as_it_was_given_back(tmp_path: Path) -> None:
    store = Store(tmp_path)
    kept = store.append(RICH, TODAY)
    assert (numbered(kept.id), kept.file, kept.line) == ("2027-04-19.1", "journal/2027.toml", 3)
    assert placeless(kept) == RICH
    assert store.read().entries == (kept,)
    assert Store(tmp_path).read().entries == (kept,)


def test_a_bloom_is_stored_with_its_bbch_number(tmp_path: Path) -> None:
    """BBCH 61: beginning of flowering (Meier 2018, Growth stages of mono- and dicotyledonous plants)."""
    Store(tmp_path).append(BloomNote(on=TODAY, plant="comice-1", stage="first open"), TODAY)
    assert toml_entries(tmp_path / "journal" / "2027.toml")[0]["bbch"] == 61


@settings(max_examples=40, deadline=None)
@given(st.lists(any_entry(), min_size=1, max_size=4))
def test_any_notes_come_back_as_they_were_and_parse_elsewhere(notes: list[Entry]) -> None:
    with tempfile.TemporaryDirectory() as folder:
        kept = Store(Path(folder)).append_many(notes, TODAY)
        reading = Store(Path(folder)).read()
        assert (reading.entries, reading.faults) == (kept, ())
        assert [placeless(entry) for entry in kept] == notes
        path = Path(folder) / "journal" / "2027.toml"
        assert headings(path.read_bytes().decode()) == [entry.line for entry in kept]
        for written, note in zip(toml_entries(path), notes, strict=True):
            for name in ("on", "what", "plant", "kg", "text", "by", "until", "tmin_c", "wind"):
                assert written.get(name) == getattr(note, name, dict(note.besides).get(name)), name


def test_stray_bytes_from_a_terminal_do_not_stop_a_note(tmp_path: Path) -> None:
    kept = Store(tmp_path).append(structs.replace(NOTE, text="caf\udce9 \ud83d\ude00"), TODAY)
    assert kept.text == "caf\ufffd 😀"
    assert Store(tmp_path).read().entries == (kept,)


def test_two_thousand_pasted_characters_are_kept(tmp_path: Path) -> None:
    text = ('"\\\t. ' * 400)[:2000]
    assert Store(tmp_path).append(structs.replace(NOTE, text=text), TODAY).text == text


def test_the_file_only_grows(tmp_path: Path) -> None:
    store, path = Store(tmp_path), tmp_path / "journal" / "2027.toml"
    before = b""
    for _ in range(5):
        kept = store.append(NOTE, TODAY)
        store.withdraw(kept.id, TODAY)
        after = path.read_bytes()
        assert after.startswith(before)
        before = after


def test_the_entries_of_the_file_stand_in_the_year_they_were_written(tmp_path: Path) -> None:
    store = Store(tmp_path)
    store.append(structs.replace(NOTE, on=dt.date(2026, 12, 31)), dt.date(2027, 1, 1))
    store.append(NOTE, dt.date(2028, 3, 1))
    assert [entry.file for entry in store.read().entries] == ["journal/2027.toml", "journal/2028.toml"]


def test_a_note_that_says_too_little_is_refused_and_nothing_written(tmp_path: Path) -> None:
    store = Store(tmp_path)
    store.append(NOTE, TODAY)
    before = (tmp_path / "journal" / "2027.toml").read_bytes()
    for wrong, said in (
        (HarvestNote(on=TODAY, plant="quince", kg=-3.0), "kg = -3 is not understood"),
        (HarvestNote(on=TODAY, plant="quince", kg=float("nan")), "not a number"),
        (BloomNote(on=TODAY, plant="quince"), "lacks its stage"),
        (structs.replace(NOTE, text="x" * 30_000), "characters"),
    ):
        with pytest.raises(NotWritten, match=re.escape(said)):
            store.append_many([NOTE, wrong], TODAY)
    assert (tmp_path / "journal" / "2027.toml").read_bytes() == before


# ---- taking back -------------------------------------------------------------------------------------------


def test_taking_back_names_the_note(tmp_path: Path) -> None:
    store = Store(tmp_path)
    kept = store.append(NOTE, TODAY)
    back = store.withdraw(kept.id, TODAY)
    assert (back.what, back.entry) == ("withdraw", kept.id)
    assert store.read().entries == (kept, back)


def test_taking_back_what_is_not_there_is_refused(tmp_path: Path) -> None:
    store = Store(tmp_path)
    store.append(NOTE, TODAY)
    with pytest.raises(NotWritten, match=r"no note 2027-04-19\.7 to take back"):
        store.withdraw("2027-04-19.7", TODAY)
    assert len(store.read().entries) == 1


def test_a_withdrawal_of_nothing_written_by_hand_is_said(year_file: Path) -> None:
    year_file.write_text('[[entry]]\non = 2027-04-19\nwhat = "withdraw"\nentry = "2027-04-11.9"\n')
    faults = Store(year_file.parent.parent).read().faults
    assert [(fault.line, "no note has that id" in fault.message) for fault in faults] == [(1, True)]


# ---- ids ---------------------------------------------------------------------------------------------------


@settings(max_examples=30, deadline=None)
@given(st.lists(st.dates(dt.date(2026, 12, 20), dt.date(2027, 1, 10)), min_size=1, max_size=8))
def test_ids_only_rise_even_when_the_clock_steps_back(days: list[dt.date]) -> None:
    with tempfile.TemporaryDirectory() as folder:
        ids = [Store(Path(folder)).append(NOTE, day).id for day in days]
        keys = [id_key(given_id) for given_id in ids]
        assert keys == sorted(set(keys))
        assert [entry.id for entry in Store(Path(folder)).read().entries] == ids
        assert all(key[0] >= day for key, day in zip(keys, days, strict=True))


def test_a_faulty_note_keeps_its_id(year_file: Path) -> None:
    year_file.write_text('[[entry]]\nid = "2027-04-19.4"\non = 2027-04-19\nwhat = "flying"\n')
    assert numbered(Store(year_file.parent.parent).append(NOTE, TODAY).id) == "2027-04-19.5"


def test_ids_of_the_single_file_are_not_given_again(tmp_path: Path) -> None:
    (tmp_path / "journal.toml").write_text('[[entry]]\nid = "2027-04-19.2"\non = 2027-04-19\nwhat = "look"\n')
    assert numbered(Store(tmp_path).append(NOTE, TODAY).id) == "2027-04-19.3"


def test_a_slip_in_a_year_does_not_carry_the_ids_away(year_file: Path) -> None:
    year_file.write_text('[[entry]]\nid = "2207-04-19.1"\non = 2027-04-19\nwhat = "look"\n')
    assert numbered(Store(year_file.parent.parent).append(NOTE, TODAY).id) == "2027-04-19.1"


@pytest.mark.parametrize("number", ["999999999", "99999999999999999999", "1000001"])
def test_a_slip_in_a_number_does_not_carry_the_ids_away(year_file: Path, number: str) -> None:
    """The number after 999,999,999 was once given to every note."""
    text = f'[[entry]]\nid = "2027-04-19.{number}"\non = 2027-04-19\nwhat = "look"\n'
    year_file.write_text(text)
    store = Store(year_file.parent.parent)
    assert [numbered(store.append(NOTE, TODAY).id) for _ in range(2)] == ["2027-04-19.1", "2027-04-19.2"]


def test_an_id_that_stands_twice_is_said_and_two_notes_that_differ_are_kept(year_file: Path) -> None:
    note = '[[entry]]\nid = "2027-04-19.1"\non = 2027-04-19\nwhat = "look"\n'
    year_file.write_text(note + note)
    reading = Store(year_file.parent.parent).read()
    assert [entry.id for entry in reading.entries] == ["2027-04-19.1"], "word for word the same: one note"
    assert [(fault.line, "counts once" in fault.message) for fault in reading.faults] == [(5, True)]
    year_file.write_text(note + note.replace("look", "note"))
    reading = Store(year_file.parent.parent).read()
    assert reading.entries[0].id == "2027-04-19.1"
    assert reading.entries[1].id.startswith("2027-04-19.h")
    assert [fault.line for fault in reading.faults] == [5]


# ---- files written by hand ---------------------------------------------------------------------------------


@pytest.mark.parametrize("line_end", ["\n", "\r\n"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
@pytest.mark.parametrize("last", ["", "\n"])
def test_a_file_written_by_hand_needs_no_seals(year_file: Path, line_end: str, mark: str, last: str) -> None:
    text = (
        HAND_WRITTEN + '\n  [[ entry ]]   # two\non = "2026-06-02"\nwhat = "Let Go"\ntask = "x:y:2026"' + last
    )
    year_file.write_bytes((mark + text.replace("\n", line_end)).encode())
    before = year_file.read_bytes()
    store = Store(year_file.parent.parent)
    reading = store.read()
    assert reading.faults == ()
    assert [(entry.plant or entry.task, entry.what, entry.on, entry.line) for entry in reading.entries] == [
        ("rhubarb", "harvest", dt.date(2026, 5, 1), 2),
        ("x:y:2026", "let-go", dt.date(2026, 6, 2), 8),
    ]
    kept = store.append(NOTE, TODAY)
    again = Store(year_file.parent.parent).read()
    assert (again.entries, again.faults) == ((*reading.entries, kept), ())
    assert year_file.read_bytes().startswith(before)
    assert len(toml_entries(year_file)) == 3 if not mark else True  # tomllib itself takes no byte order mark


def test_a_note_without_an_id_can_be_taken_back_and_keeps_its_name(year_file: Path) -> None:
    year_file.write_text(HAND_WRITTEN)
    store = Store(year_file.parent.parent)
    first = store.read().entries[0].id
    store.withdraw(first, TODAY)
    year_file.write_text('[[entry]]\non = 2026-05-01\nwhat = "look"\n\n' + year_file.read_text())
    reading = Store(year_file.parent.parent).read()
    assert [entry.plant for entry in reading.entries if entry.id == first] == ["rhubarb"]
    assert reading.faults == ()


def test_long_text_in_three_quote_marks(year_file: Path) -> None:
    """It may hold what looks like a note, and is none."""
    year_file.write_text(
        '[[entry]]\non = 2027-01-02\nwhat = "note"\ntext = """\nas in:\n[[entry]]\non = 2027-01-01\n"""\n'
    )
    store = Store(year_file.parent.parent)
    assert [entry.on.day for entry in store.read().entries] == [2]
    kept = store.append(NOTE, TODAY)
    assert store.read().entries[-1].id == kept.id
    assert len(toml_entries(year_file)) == 2


def test_one_broken_note_costs_itself_only(year_file: Path) -> None:
    broken = '[[entry]]\non = 2027-02-01\nwhat = "look\n\n'
    year_file.write_text(HAND_WRITTEN + "\n" + broken + HAND_WRITTEN)
    before = year_file.read_bytes()
    store = Store(year_file.parent.parent)
    reading = store.read()
    assert len(reading.entries) == 2
    assert [(fault.file, fault.line) for fault in reading.faults] == [("journal/2027.toml", 10)]
    # A damaged file is never written to; the note is kept in a further one.
    kept = store.append(NOTE, TODAY)
    assert kept.file == "journal/2027-2.toml"
    assert year_file.read_bytes() == before
    assert Store(year_file.parent.parent).read().entries == (*reading.entries, kept)
    assert any("2027-2.toml" in note for note in reading.notes)
    # Once mended, the notes go on where they are.
    year_file.write_text(HAND_WRITTEN)
    assert numbered(Store(year_file.parent.parent).append(NOTE, TODAY).id) == "2027-04-19.2"


@pytest.mark.parametrize(
    ("damage", "line"),
    [
        (b"[[entry]]\non = 2027-01-01\nwhat = \"n\xff\"\n", 3),
        (b'[[entry]]\non = 2027-01-01\nwhat = "note"\ntext = """never closed\n', 4),
        (b'[[entry]]\non = 2027-01-01\nwhat = "note"\rkg = 3\n', 3),
        (b"[[entry]]\non = 2027-01-01\nwhat : note\n", 3),
        (b"x = " + b"[" * 500 + b"\n", 1),
    ],
)  # fmt: skip
def test_other_years_are_read_and_damage_is_named(year_file: Path, damage: bytes, line: int) -> None:
    year_file.write_bytes(damage)
    (year_file.parent / "2026.toml").write_text(HAND_WRITTEN)
    reading = Store(year_file.parent.parent).read()
    assert [entry.plant for entry in reading.entries if entry.plant] == ["rhubarb"]
    assert [(fault.file, fault.line) for fault in reading.faults] == [("journal/2027.toml", line)]
    Store(year_file.parent.parent).append(NOTE, TODAY)
    assert year_file.read_bytes() == damage


@pytest.mark.parametrize(
    "text",
    [
        'entry = [{ on = 2027-01-01, what = "look" }]\n',
        '[entry]\non = 2027-01-01\nwhat = "look"\n',
        "entry = []\n",
        '[["entry"]]\non = 2027-01-01\nwhat = "look"\n',
        'entry = [{ on = 2027-01-01, what = "look", text = """\n[[entry]]\n""" }]\n',
    ],
)
def test_other_ways_to_write_notes_are_read_but_never_spoilt(year_file: Path, text: str) -> None:
    """To append `[[entry]]` to these would not be TOML, or would be a fault already."""
    year_file.write_text(text)
    expected = text.count('"look"')
    store = Store(year_file.parent.parent)
    assert [entry.what for entry in store.read().entries] == ["look"] * expected
    store.append(NOTE, TODAY)
    for path in year_file.parent.glob("*.toml"):
        toml_entries(path)
    assert len(Store(year_file.parent.parent).read().entries) == expected + 1


def test_what_stands_outside_any_note_is_said(year_file: Path) -> None:
    year_file.write_text('plnt = "quince"\n\n' + HAND_WRITTEN + "\n[other]\nx = 1\n")
    reading = Store(year_file.parent.parent).read()
    assert len(reading.entries) == 1
    assert [(fault.line, fault.message.split()[0]) for fault in reading.faults] == [
        (1, "plnt"),
        (10, "other"),
    ]


def test_a_file_whose_name_is_no_year_is_said(year_file: Path) -> None:
    (year_file.parent / "spring.toml").write_text(HAND_WRITTEN)
    (year_file.parent / "２０２７.toml").write_text(HAND_WRITTEN)
    reading = Store(year_file.parent.parent).read()
    assert [fault.file for fault in reading.faults] == ["journal/spring.toml", "journal/２０２７.toml"]
    assert reading.entries == ()


# ---- which file --------------------------------------------------------------------------------------------


def test_a_full_file_goes_on_in_a_further_part(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(appending, "MOST_BYTES", 700)
    store = Store(tmp_path)
    kept = [store.append(NOTE, TODAY) for _ in range(30)]
    assert all(path.stat().st_size <= 700 for path in (tmp_path / "journal").glob("*.toml"))
    assert kept[-1].file == f"journal/2027-{len(list((tmp_path / 'journal').glob('*.toml')))}.toml"
    assert store.read().entries == tuple(kept)
    assert len({entry.id for entry in kept}) == 30


def test_links_within_the_garden_are_followed_and_stay_links(tmp_path: Path) -> None:
    (tmp_path / "journal").mkdir()
    (tmp_path / "kept").mkdir()
    real, link = tmp_path / "kept" / "notes.toml", tmp_path / "journal" / "2027.toml"
    real.write_text(HAND_WRITTEN + "[[ent")
    link.symlink_to(real)
    store = Store(tmp_path)
    reading = store.read()
    assert len(reading.entries) == 1
    kept = store.append(NOTE, TODAY)
    assert link.is_symlink()
    assert len(toml_entries(real)) == 2
    assert store.read().entries[-1] == kept
    assert (tmp_path / "kept" / "notes.toml.torn").read_text() == "[[ent"
    assert "kept/notes.toml.torn" in reading.notes[0]


def made_a_folder(path: Path) -> None:
    path.mkdir()


def made_a_pipe(path: Path) -> None:
    os.mkfifo(path)


def linked(target: str) -> Callable[[Path], None]:
    return lambda path: path.symlink_to(target)


@pytest.mark.parametrize(
    ("make", "why"),
    [
        (made_a_folder, "a folder"),
        (made_a_pipe, "a pipe"),
        (linked("2027.toml"), "in a ring"),
        (linked("nowhere/2027.toml"), "leads to nothing"),
        (linked("/dev/zero"), "outside the garden's folder"),
        (linked("../../victim.toml"), "outside the garden's folder"),
    ],
)
def test_what_is_no_file_is_named_and_notes_go_into_a_further_part(
    tmp_path: Path, make: Callable[[Path], None], why: str
) -> None:
    garden, victim = tmp_path / "garden", tmp_path / "victim.toml"
    (garden / "journal").mkdir(parents=True)
    victim.write_text(HAND_WRITTEN)
    make(garden / "journal" / "2027.toml")
    store = Store(garden)
    (fault,) = store.read().faults
    assert fault.file == "journal/2027.toml"
    assert why in fault.message
    kept = store.append(NOTE, TODAY)
    assert kept.file == "journal/2027-2.toml"
    assert store.read().entries == (kept,)
    assert victim.read_text() == HAND_WRITTEN
    assert not (tmp_path / "nowhere").exists()


def test_a_journal_that_leads_out_of_the_garden_is_left_alone(tmp_path: Path) -> None:
    garden, outside = tmp_path / "garden", tmp_path / "outside"
    for folder in (garden, outside):
        folder.mkdir()
    (outside / "2027.toml").write_text(HAND_WRITTEN)
    (garden / "journal").symlink_to(outside)
    reading = Store(garden).read()
    assert (reading.entries, [fault.file for fault in reading.faults]) == ((), ["journal/2027.toml"])
    assert reading.read_only
    with pytest.raises(NotWritten, match="outside the garden's folder"):
        Store(garden).append(NOTE, TODAY)
    assert [path.name for path in outside.iterdir()] == ["2027.toml"]


def test_a_file_where_the_folder_belongs(tmp_path: Path) -> None:
    (tmp_path / "journal").write_text("mine")
    store = Store(tmp_path)
    assert store.read().read_only
    with pytest.raises(NotWritten, match="a file stands where"):
        store.append(NOTE, TODAY)
    assert (tmp_path / "journal").read_text() == "mine"


# ---- torn tails --------------------------------------------------------------------------------------------


def test_torn_tails_never_overwrite_one_another(year_file: Path) -> None:
    store = Store(year_file.parent.parent)
    for number in range(3):
        kept = store.append(NOTE, TODAY)
        with year_file.open("a") as file:
            file.write(f"\n[[entry]]\nbegin = true\nkg = {number}")
        assert store.read().entries[-1] == kept
    names = ["2027.toml.torn", "2027.toml.torn-2", "2027.toml.torn-3"]
    assert [(year_file.parent / name).read_text()[-1] for name in names] == ["0", "1", "2"]
    assert [note.split()[0] for note in store.read().notes] == [f"journal/{name}" for name in names]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (b"entry = 3\n", "This is no note, so it is left out."),
        (b'entry = ["robin"]\n', "This is no note, so it is left out."),
        ('what = "note"\n'.encode("utf-16"), "The file is saved as UTF-16."),
    ],
)
def test_what_is_no_note_at_all_is_said_and_never_spoilt(year_file: Path, text: bytes, said: str) -> None:
    year_file.write_bytes(text)
    store = Store(year_file.parent.parent)
    reading = store.read()
    assert reading.entries == ()
    assert [(fault.file, fault.message) for fault in reading.faults] == [("journal/2027.toml", said)]
    store.append(NOTE, TODAY)
    assert year_file.read_bytes() == text


@pytest.mark.parametrize("earlier", [True, False])
def test_a_note_that_the_disk_does_not_take_leaves_the_file_as_it_was(
    year_file: Path, monkeypatch: pytest.MonkeyPatch, earlier: bool
) -> None:
    store = Store(year_file.parent.parent)
    if earlier:
        store.append(NOTE, TODAY)
    before = year_file.read_bytes() if year_file.exists() else None

    def refuse(descriptor: int) -> None:
        raise OSError(errno.EIO, "Input/output error")

    with monkeypatch.context() as patch:
        patch.setattr(os, "fsync", refuse)
        with pytest.raises(NotWritten):
            store.append(NOTE, TODAY)
    assert (year_file.read_bytes() if year_file.exists() else None) == before
    store.append(NOTE, TODAY)
    assert len(store.read().entries) == 1 + earlier


def no_room_for_torn_files(monkeypatch: pytest.MonkeyPatch) -> None:
    really_open = os.open

    def open_unless_torn(path: Any, *args: Any, **kwargs: Any) -> int:
        if ".torn" in str(path):
            raise OSError(errno.ENOSPC, "No space left on device")
        return really_open(path, *args, **kwargs)

    monkeypatch.setattr(os, "open", open_unless_torn)


def test_no_room_to_set_a_torn_tail_aside(year_file: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    store = Store(year_file.parent.parent)
    kept = store.append(NOTE, TODAY)
    with year_file.open("a") as file:
        file.write("\n[[entry]]\nbegin = true\nkg = 12")
    before = year_file.read_bytes()
    with monkeypatch.context() as patch:
        no_room_for_torn_files(patch)
        reading = store.read()
        assert reading.entries == (kept,)
        assert reading.read_only
        assert reading.notes[0].startswith("journal/2027.toml, line 6: ")
        assert "the disk is full" in reading.notes[0]
        with pytest.raises(NotWritten, match="the disk is full"):
            store.append(NOTE, TODAY)
    assert year_file.read_bytes() == before
    assert not list(year_file.parent.glob("*.torn*"))
    assert numbered(store.append(NOTE, TODAY).id) == "2027-04-19.2", "with room again, it goes on"
