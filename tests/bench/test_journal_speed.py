"""How long the whole journal takes to read. Ratios within one run; run with `-m bench -s`.

The baseline is Python's own TOML reader on the same files.
"""

from __future__ import annotations

import time
import tomllib
from collections.abc import Callable
from pathlib import Path

import pytest

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


def milliseconds(works: dict[str, Callable[[], object]], turns: int) -> dict[str, float]:
    """The quickest of several runs of each [ms], taken in turn so that a busy machine slows all alike."""
    quickest = dict.fromkeys(works, float("inf"))
    for _ in range(turns):
        for name, work in works.items():
            start = time.perf_counter()
            work()
            quickest[name] = min(quickest[name], (time.perf_counter() - start) * 1e3)
    return quickest


def test_the_whole_journal_is_read_faster_than_as_plain_toml(tmp_path: Path) -> None:
    folder = journal(tmp_path, years=10, notes_a_year=1_000)
    taken = milliseconds(
        {"read and checked": lambda: Store(folder).read(), "parsed by tomllib": lambda: parse_all(folder)},
        turns=5,
    )
    print(
        f"\n10,000 notes: {taken['read and checked']:.0f} ms; {taken['parsed by tomllib']:.0f} ms by tomllib"
    )
    assert len(Store(folder).read().entries) == 10_000
    assert taken["read and checked"] * 2 <= taken["parsed by tomllib"]
