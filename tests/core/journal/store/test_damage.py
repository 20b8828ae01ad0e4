"""What is damaged costs itself and nothing more; what a hand or another program did is named."""

from __future__ import annotations

import tempfile
import time
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.samples.journal import TODAY, numbered

from leafturn.base.faults import MOST_FAULTS
from leafturn.journal.entries import HarvestNote, PlainNote
from leafturn.journal.store.reading import read_data
from leafturn.journal.store.store import JournalReading, Store

NOTE = PlainNote(on=TODAY, text="frost on the grass")
FORMAT_1 = Path(__file__).parents[3] / "samples" / "journals" / "format-1.toml"


@pytest.fixture
def year_file(tmp_path: Path) -> Path:
    """Three notes of the program's, the middle one of 500 kg of quinces."""
    store = Store(tmp_path)
    store.append_many([NOTE, HarvestNote(on=TODAY, plant="quince", kg=500.0), NOTE], TODAY)
    return tmp_path / "journal" / "2027.toml"


def reading_of(file: Path) -> JournalReading:
    return Store(file.parent.parent).read()


# ---- format 1 ----------------------------------------------------------------------------------------------


def test_a_journal_of_the_first_format_is_read_and_goes_on(tmp_path: Path) -> None:
    """The file was written by the program before its first release."""
    path = tmp_path / "journal" / "2027.toml"
    path.parent.mkdir()
    before = FORMAT_1.read_bytes()
    path.write_bytes(before)
    reading = reading_of(path)
    assert (reading.faults, reading.notes) == ((), ())
    assert [(entry.id, entry.what) for entry in reading.entries] == [
        ("2027-04-19.1", "bloom"), ("2027-04-19.2", "harvest"), ("2027-04-19.3", "harvest"),
        ("2027-04-19.4", "withdraw"), ("2027-04-20.1", "done"),
    ]  # fmt: skip
    assert reading.entries[0].text == 'south side "only"\nso far ☀'
    kept = Store(tmp_path).append(NOTE, TODAY)
    assert numbered(kept.id) == "2027-04-20.2"
    assert path.read_bytes().startswith(before)
    assert reading_of(path).entries == (*reading.entries, kept)


def test_a_file_of_a_later_format_is_read_and_never_written(year_file: Path) -> None:
    later = year_file.read_bytes().replace(b"format 2", b"format 3", 1)
    year_file.write_bytes(later)
    reading = reading_of(year_file)
    assert len(reading.entries) == 3
    assert [(fault.line, "newer leafturn" in fault.hint) for fault in reading.faults] == [(1, True)]
    assert Store(year_file.parent.parent).append(NOTE, TODAY).file == "journal/2027-2.toml"
    assert year_file.read_bytes() == later


# ---- bytes and lines out of place --------------------------------------------------------------------------


@pytest.mark.parametrize("bad", [b"caf\xe9", b"a\rb", b"\x00", b"\x1b[31m"])
def test_a_bad_byte_costs_its_note_and_no_other(year_file: Path, bad: bytes) -> None:
    year_file.write_bytes(year_file.read_bytes().replace(b"quince", bad))
    reading = reading_of(year_file)
    assert [entry.text for entry in reading.entries] == [NOTE.text, NOTE.text]
    assert [(fault.file, fault.line) for fault in reading.faults] == [("journal/2027.toml", 7)]


@pytest.mark.parametrize("stray", ["oops\n", "kg : 4\n", "<<<<<<<\n", 'text = "never closed\n', "] ]\n"])
@pytest.mark.parametrize("old", [True, False])
def test_a_stray_line_never_hides_the_note_above_it(year_file: Path, stray: str, old: bool) -> None:
    if old:
        year_file.write_bytes(FORMAT_1.read_bytes())
    text = year_file.read_text()
    entries = reading_of(year_file).entries
    blocks = text.split("\n\n")
    line = ("\n\n".join(blocks[:3]) + "\n").count("\n") + 1
    year_file.write_text("\n\n".join(blocks[:3]) + "\n" + stray + "\n" + "\n\n".join(blocks[3:]))
    reading = reading_of(year_file)
    assert [entry.id for entry in reading.entries] == [entry.id for entry in entries]
    assert [fault.line for fault in reading.faults] == [line]


def test_marks_of_a_merge_are_named_and_the_notes_of_both_sides_read(year_file: Path) -> None:
    head, first, second, third = year_file.read_text().split("\n\n")
    year_file.write_text(f"{head}\n\n{first}\n\n<<<<<<< ours\n{second}\n\n=======\n{third}>>>>>>> theirs\n")
    before = year_file.read_bytes()
    reading = reading_of(year_file)
    assert len(reading.entries) == 3
    (fault,) = reading.faults
    assert "a merge of two versions" in fault.message
    assert Store(year_file.parent.parent).append(NOTE, TODAY).file == "journal/2027-2.toml"
    assert year_file.read_bytes() == before


def test_fields_added_below_a_note_of_the_program_belong_to_it(year_file: Path) -> None:
    year_file.write_text(year_file.read_text() + 'by = "Ann"\n')
    reading = reading_of(year_file)
    assert reading.faults == ()
    assert reading.entries[-1].by == "Ann"


# ---- very many ---------------------------------------------------------------------------------------------


def seconds(data: bytes) -> float:
    before = time.process_time()
    read_data(data, "journal/2027.toml")
    return time.process_time() - before


@pytest.mark.long
@pytest.mark.parametrize(
    "piece",
    [
        '[[entry]]\non = 2027-04-19\nwhat = "note"\ntext = “curly”\n\n',
        '[[entry]]\non = 2027-04-19\nwhat = "harvest"\nplant = "rhubarb"\nkg = 4 # a bunch\n\n',
        '[[entry]]\non = 2027-04-19\nwhat = "look"\n',
        "[entry]\n",
        "[[entry]]\n",
        '[[entry]]\non = 2027-04-19\nwhat = "look"\nodd{} = 1\n',
    ],
    ids=["curly quotes", "by hand", "equal", "one bracket", "empty", "unknown names"],
)  # fmt: skip
def test_reading_takes_as_long_as_the_file_is_large(piece: str) -> None:
    """Four times the notes may take six times as long, on a busy machine; were it quadratic, sixteen."""
    few, many = ("".join(piece.replace("{}", str(n)) for n in range(k)).encode() for k in (1_000, 4_000))
    seconds(few)
    assert seconds(many) < 8 * min(seconds(few) for _ in range(3)) + 0.05


def test_the_store_takes_equal_notes_and_withdrawals_of_nothing_in_its_stride(tmp_path: Path) -> None:
    """30,000 of the one and 15,000 of the other once took over half a minute."""
    (tmp_path / "journal").mkdir()
    equal = '[[entry]]\non = 2027-04-19\nwhat = "look"\n\n' * 6_000
    lost = "".join(
        f'[[entry]]\non = 2027-04-19\nwhat = "withdraw"\nentry = "2027-04-18.{n}"\n\n' for n in range(3_000)
    )
    (tmp_path / "journal" / "2027.toml").write_text(equal + lost)
    before = time.process_time()
    reading = Store(tmp_path).read()
    assert time.process_time() - before < 5
    assert len({entry.id for entry in reading.entries}) == 9_000
    assert len(reading.faults) == MOST_FAULTS + 1
    assert sum(len(fault.sentence()) for fault in reading.faults) < 60_000


@pytest.mark.long
@settings(max_examples=200)
@given(st.binary(max_size=40), st.binary(max_size=40))
def test_whatever_follows_a_whole_note_that_note_is_read(before: bytes, after: bytes) -> None:
    """As where a file system lost a block in the midst of later notes, and left NUL bytes in its place."""
    with tempfile.TemporaryDirectory() as folder:
        Store(Path(folder)).append(PlainNote(on=TODAY, text="one"), TODAY)
        (file,) = (Path(folder) / "journal").glob("*.toml")
        file.write_bytes(file.read_bytes() + before + b"\0" + after)
        assert [entry.text for entry in Store(Path(folder)).read().entries][:1] == ["one"]
