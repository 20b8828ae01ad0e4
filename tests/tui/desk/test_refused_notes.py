"""A note that the disk refuses stays as it was typed, and is kept at the next Enter."""

from __future__ import annotations

import datetime as dt
import errno
from pathlib import Path
from unittest import mock

import pytest
from tests.at_the_desk import AtTheDesk

from leafturn.almanac import open_almanac
from leafturn.journal.store import disk

ON = dt.date(2027, 4, 19)
FULL = OSError(errno.ENOSPC, "No space left on device")


def notes(garden: Path) -> list[str | None]:
    return [entry.text or entry.what for entry in open_almanac(garden, ON).entries]


@pytest.mark.parametrize(
    ("keys", "stays", "kept"),
    [
        (("n", "owl", "enter"), "owl", "owl"),
        (("0", "x", "hail", "enter", "enter", "enter"), "gone", "loss"),
    ],
)
def test_what_was_typed_stays_until_it_is_kept(
    garden: Path, keys: tuple[str, ...], stays: str, kept: str
) -> None:
    before = notes(garden)
    with AtTheDesk(garden, ON) as desk:
        with mock.patch.object(disk, "append", side_effect=FULL):
            desk.press(*keys)
        assert "the disk is full" in " ".join(desk.text.split())
        assert notes(garden) == before
        desk.press("enter")
        assert "the disk is full" not in " ".join(desk.text.split())
    assert notes(garden) == [*before, kept]


def test_of_a_key_that_asks_nothing_why_is_told_at_the_foot(garden: Path) -> None:
    with AtTheDesk(garden, ON) as desk:
        with mock.patch.object(disk, "append", side_effect=FULL):
            desk.press("space")
        assert "the disk is full" in " ".join(desk.text.split())
        desk.press("space")
        assert "the disk is full" not in " ".join(desk.text.split())
    assert len(notes(garden)) > 0


def test_a_garden_file_that_cannot_be_read_for_the_moment_keeps_no_note_out(garden: Path) -> None:
    """As where another program is in the midst of writing it."""
    file, before = garden / "garden.toml", notes(garden)
    whole = file.read_bytes()
    with AtTheDesk(garden, ON) as desk:
        file.write_text("[place\n")
        desk.press("n", "owl", "enter")
        assert "noted: owl" in desk.text
        desk.press("9")
        assert "owl" in desk.text
        assert "as read at" in desk.text
        file.write_bytes(whole)
        desk.press("1")
        assert "as read at" not in desk.text
    assert notes(garden) == [*before, "owl"]
    assert sum(file.read_text().count('text = "owl"') for file in (garden / "journal").glob("*.toml")) == 1
