"""The page on the journal says what the program does."""

from __future__ import annotations

import re
import tomllib

from tests.samples.places import ROOT

from leafturn.journal.entries import WORDS
from leafturn.journal.store.checking import STAGES, WHATS, entry_from
from leafturn.journal.store.sealing import FORMAT, written_text

PAGE = (ROOT / "docs" / "journal.md").read_text(encoding="utf-8")


def test_its_example_is_a_note_without_fault() -> None:
    (example,) = re.findall(r"```toml\n(.*?)```", PAGE, re.DOTALL)
    entry, faults = entry_from(tomllib.loads(example)["entry"][0], "docs/journal.md", 1)
    assert faults == []
    assert entry is not None
    assert (entry.plant, entry.bbch) == ("comice-1", 61)


def test_it_lists_every_sort_of_note_every_stage_and_every_name() -> None:
    sorts = re.findall(r"^\| (`.*?) \|", PAGE, re.MULTILINE)
    assert sorted(re.findall(r"`([^`]+)`", " ".join(sorts))) == sorted([*WHATS, "what"])
    assert all(f"`{stage}`" in PAGE for stage in STAGES)
    assert [name for name in WORDS if not re.search(rf"`{name}\b", PAGE)] == []


def test_it_shows_how_the_program_writes_a_note() -> None:
    (shown,) = re.findall(r"```\n(\[\[entry\]\] #.*?)```", PAGE, re.DOTALL)
    entry, faults = entry_from(tomllib.loads(shown)["entry"][0]["note"], "docs/journal.md", 1)
    assert faults == []
    assert entry is not None
    assert written_text(entry) == shown
    assert f"format {FORMAT}" in PAGE
