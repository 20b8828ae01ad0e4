"""Notes that another hand or program took out of the journal while it was open are told of."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from leafturn.journal.entries import PlainNote
from leafturn.journal.store.store import Store

ON = dt.date(2027, 4, 19)


def test_notes_that_another_program_took_out_are_told_of_while_it_is_open(tmp_path: Path) -> None:
    """As a synchroniser does that puts an older copy of a file back."""
    store = Store(tmp_path)
    store.append(PlainNote(on=ON, text="one"), ON)
    (file,) = (tmp_path / "journal").glob("*.toml")
    older = file.read_bytes()
    store.append(PlainNote(on=ON, text="two swifts"), ON)
    newer = file.read_bytes()
    assert not store.read().notes
    file.write_bytes(older)
    (said,) = store.read().notes
    assert "two swifts (19 Apr)" in said
    assert "holds no more" in said
    file.write_bytes(newer)
    assert not store.read().notes


def test_a_copy_that_is_read_and_goes_again_as_one_file_takes_no_note_out(tmp_path: Path) -> None:
    """As when two copies are made one by hand: their notes stand then in the file, whatever their ids are."""
    store, other = Store(tmp_path / "one"), Store(tmp_path / "other")
    for each, text in ((store, "one"), (other, "other")):
        (tmp_path / text).mkdir()
        each.append(PlainNote(on=ON, text=text), ON)
    (file,) = (tmp_path / "one" / "journal").glob("*.toml")
    (theirs,) = (tmp_path / "other" / "journal").glob("*.toml")
    copy = file.with_name("2027 (copy).toml")
    copy.write_bytes(theirs.read_bytes())
    assert len(store.read().entries) == 2
    file.write_bytes(file.read_bytes() + copy.read_bytes())
    copy.unlink()
    found = store.read()
    assert len(found.entries) == 2
    assert not found.notes
