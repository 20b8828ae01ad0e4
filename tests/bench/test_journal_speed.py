"""How long the newest notes and the whole journal take. Ratios within one run; run with `-m bench -s`.

Goal: the newest 50 within 2 ms, whether there are 300 notes or 100,000. The baseline is Python's own TOML
reader on the whole journal, which any reading without an order of files and seals has to pay.
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


def test_the_newest_do_not_wait_for_the_rest(tmp_path: Path) -> None:
    small = journal(tmp_path / "small", years=10, notes_a_year=30)
    large = journal(tmp_path / "large", years=100, notes_a_year=1_000)
    crowded = journal(tmp_path / "crowded", years=10, notes_a_year=10_000)
    taken = milliseconds(
        {
            "newest of 300": lambda: Store(small).newest(50),
            "newest of 100,000 in 100 years": lambda: Store(large).newest(50),
            "newest of 100,000 in 10 years": lambda: Store(crowded).newest(50),
            "all 300, by tomllib": lambda: parse_all(small),
        },
        turns=25,
    )
    print("\n" + "\n".join(f"{name}: {value:.2f} ms" for name, value in taken.items()))
    assert len(Store(large).newest(50)) == 50
    assert taken["newest of 100,000 in 100 years"] <= 2 * taken["newest of 300"]
    assert taken["newest of 100,000 in 10 years"] <= 4 * taken["newest of 300"]
    # Even where there is little else to read, it is far cheaper; the whole of 100,000 takes 300 times this.
    assert taken["newest of 100,000 in 100 years"] * 6 <= taken["all 300, by tomllib"]


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
