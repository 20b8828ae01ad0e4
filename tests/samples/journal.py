"""Notes and helpers that several journal tests share. All names and numbers are invented."""

from __future__ import annotations

import datetime as dt
import gc
import re
import tomllib
from collections.abc import Callable
from multiprocessing import get_context
from multiprocessing.connection import Connection
from pathlib import Path
from typing import Any

from hypothesis import strategies as st

from leafturn.base.bloom_stages import BBCH
from leafturn.base.closed_words import FRUIT_SETS
from leafturn.journal.entries import KINDS, WORDS, Done, Entry
from leafturn.journal.store.checking import STAGES, WHATS

TODAY = dt.date(2027, 4, 19)

# Every form a value can take: text with quotes, line ends and signs beyond ASCII, a list, numbers, a truth.
RICH = Done(
    on=dt.date(2027, 4, 18),
    plant="comice-1",
    tasks=("comice-1:prune:2027", "comice-2:prune:2027"),
    besides=(("kg", 123.0), ("wind", True)),
    by="saturday pair",
    minutes=35.0,
    text='said "later"\nthen came back \\ in the sun ☀ 🌳',
)

HAND_WRITTEN = """\
# my own notes
[[entry]]
on = 2026-05-01          # a Friday
what = "harvest"
plant = "rhubarb"
kg = 12
"""


def toml_entries(path: Path) -> list[dict[str, Any]]:
    """What Python's own TOML reader finds in a file; it knows nothing of this project."""
    found = tomllib.loads(path.read_bytes().decode()).get("entry", [])
    return [entry.get("note", entry) for entry in ([found] if isinstance(found, dict) else found)]


def id_key(given: str) -> tuple[dt.date, int]:
    day, number, *_ = given.split(".")
    return dt.date.fromisoformat(day), int(number)


def numbered(given: str) -> str:
    """An id without the letters drawn at random."""
    return ".".join(given.split(".")[:2])


def in_child(work: Callable[[Connection], None]) -> tuple[Any, Connection]:
    """Start `work` in a child process; the process, and the end of the pipe to hear it by."""
    context = get_context("fork")
    ours, theirs = context.Pipe()

    def begin() -> None:
        gc.freeze()  # what the tests before it left is not its own to look through
        work(theirs)

    child = context.Process(target=begin)
    child.start()
    theirs.close()
    return child, ours


# Any Unicode text but surrogates, which no file in UTF-8 can hold.
any_text = st.text(st.characters(exclude_categories=["Cs"]), min_size=1, max_size=40)
any_day = st.dates(dt.date(1990, 1, 1), dt.date(2090, 12, 31))


def maybe(strategy: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    return st.none() | strategy


@st.composite
def any_entry(draw: st.DrawFn) -> Entry:
    """Any note that says enough to be kept, with words of other kinds beside its own."""
    stage = draw(st.sampled_from(STAGES))
    kind = KINDS[draw(st.sampled_from([what for what in WHATS if what != "withdraw"]))]
    said = {
        "on": draw(any_day),
        "plant": draw(any_text),
        "heap": draw(any_text),
        "task": draw(any_text),
        "tasks": tuple(draw(st.lists(any_text, max_size=3))),
        "stage": stage,
        "bbch": BBCH.get(stage),
        "kg": draw(maybe(st.floats(0, 1e5))),
        "set": draw(st.sampled_from(FRUIT_SETS)),
        "tmin_c": draw(maybe(st.floats(-90, 60))),
        "temp_c": draw(st.floats(-40, 100)),
        "live_percent": draw(st.floats(0, 100)),
        "wind": draw(maybe(st.booleans())),
        "until": draw(any_day),
        "by": draw(any_text),
        "to": draw(any_text),
        "minutes": draw(maybe(st.integers(0, 500))),
        "text": draw(maybe(any_text)),
        "sheet": draw(any_text),
    }
    own = {name: value for name, value in said.items() if name in kind.__struct_fields__}
    others = [name for name in WORDS if name in said.keys() - own.keys() and said[name] not in (None, ())]
    return kind(**own, besides=tuple((name, said[name]) for name in others))


def headings(text: str) -> list[int]:
    """Lines on which notes begin."""
    return [number for number, line in enumerate(text.split("\n"), 1) if re.match(r"\s*\[\[entry\]\]", line)]
