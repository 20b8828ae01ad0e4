"""How long the whole journal takes to read. Ratios within one run; run with `-m bench -s`.

The baseline is Python's own TOML reader on the same files.
"""

from __future__ import annotations

import datetime as dt
import tomllib
from pathlib import Path

import pytest
from tests.bench.timing import best_of

from leafturn.journal.entries import Done
from leafturn.journal.store.store import Store

pytestmark = pytest.mark.bench

NOTE = """\
[[entry]]
begin = true
id = "{year}-04-19.{number}"
on = {year}-04-18
what = "done"
task = "comice-1:prune:{year}"
by = "saturday pair"
minutes = 35.0
text = "the upper half only"
end = true

"""


def journal(folder: Path, years: int, notes_a_year: int) -> Path:
    (folder / "journal").mkdir(parents=True)
    for year in range(2027 - years + 1, 2028):
        notes = "".join(NOTE.format(year=year, number=number) for number in range(1, notes_a_year + 1))
        (folder / "journal" / f"{year}.toml").write_text(notes)
    return folder


def parse_all(folder: Path) -> None:
    for path in (folder / "journal").iterdir():
        tomllib.loads(path.read_text())


def test_the_whole_journal_is_read_faster_than_as_plain_toml(tmp_path: Path) -> None:
    folder = journal(tmp_path, years=10, notes_a_year=1_000)
    read, parsed = best_of(lambda: Store(folder).read(), lambda: parse_all(folder))
    print(f"\n10,000 notes: {read * 1e3:.0f} ms; {parsed * 1e3:.0f} ms by tomllib")
    assert len(Store(folder).read().entries) == 10_000
    assert read * 2 <= parsed


def test_a_long_run_of_letters_in_a_note_costs_no_more_than_its_length(tmp_path: Path) -> None:
    """Tried from each of its letters on, as the beginning of a name, it took seconds."""
    short, long = (damaged(tmp_path / str(letters), letters) for letters in (10_000, 40_000))
    quick, slow = best_of(lambda: Store(short).read(), lambda: Store(long).read())
    print(f"\na run of 10,000 letters: {quick * 1e3:.1f} ms; of 40,000: {slow * 1e3:.1f} ms")
    assert slow < 8 * quick


def damaged(folder: Path, letters: int) -> Path:
    """A journal with a note in whose line so many letters stand."""
    folder.mkdir()
    note = Done(on=dt.date(2027, 4, 18), task="comice-1:prune:2027", by="saturday pair")
    Store(folder).append(note, dt.date(2027, 4, 19))
    (file,) = (folder / "journal").glob("*.toml")
    file.write_text(file.read_text().replace("by = ", f"{'x' * letters} by = "))
    return folder
