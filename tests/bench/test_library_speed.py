"""Loading the plant library against reading its files as TOML, in the same run."""

from __future__ import annotations

import time
import tomllib

import pytest
from tests.bench.timing import best_of

from leafturn.kinds import library, packaged
from leafturn.kinds.library import load_library

pytestmark = pytest.mark.bench

# A garden of common kinds asks for some thirty.
ASKED = [
    "apple", "pear", "quince", "medlar", "european plum", "damson", "sweet cherry", "sour cherry", "apricot",
    "peach", "hazel", "walnut", "chestnut", "fig", "mulberry", "grape", "hardy kiwi", "hop", "redcurrant",
    "blackcurrant", "gooseberry", "raspberry", "blackberry", "elder", "comfrey", "rhubarb", "mint", "clover",
    "lime", "alder",
]  # fmt: skip


def fresh():
    library._packaged.cache_clear()
    packaged.kind_tables.cache_clear()
    packaged.packaged_tables.cache_clear()
    return load_library()[0]


def a_garden_asks():
    found = fresh()
    for name in ASKED:
        found.match(name)


def raw():
    for file in packaged.DATA.rglob("*.toml"):
        tomllib.loads(file.read_text("utf-8"))


def test_loading_costs_a_small_part_of_reading_the_toml():
    a_garden_asks()  # the decoders are made once in a process
    loaded, asked, read = best_of(fresh, a_garden_asks, raw, rounds=7, clock=time.process_time)
    print(f"load {loaded * 1e3:.1f} ms, thirty kinds {asked * 1e3:.1f} ms, raw TOML {read * 1e3:.0f} ms")
    assert loaded < 0.06 * read
    assert asked < 0.12 * read
