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
    assert "two swifts" in said
    assert "holds no more" in said
    file.write_bytes(newer)
    assert not store.read().notes
