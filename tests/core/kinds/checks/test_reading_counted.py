"""How many of the facts that decide were read on a page."""

from __future__ import annotations

import pytest

from leafturn.answers.kinds_read import kinds_read
from leafturn.kinds.checks.reading import commonest, deciding_facts, reading_of
from leafturn.kinds.library import Library, load_library
from leafturn.kinds.packaged import kind_tables


@pytest.fixture(scope="module")
def library() -> Library:
    return load_library()[0]


def test_the_commonest_kinds_are_counted_once_each_the_least_read_first(library: Library) -> None:
    found = kinds_read(library)
    assert sorted(one.kind for one in found.kinds) == sorted(commonest().kinds)
    unread = [len(one.unread) for one in found.kinds]
    assert unread == sorted(unread, reverse=True)
    assert found.facts == found.read + sum(unread)
    assert found.percent == pytest.approx(100 * found.read / found.facts)


def test_a_fact_counts_as_read_by_its_source_alone(library: Library) -> None:
    apple = kind_tables().kind("apple")
    whole, none = reading_of(apple, library.sources), reading_of(apple, {})
    assert whole.facts == none.facts == len(list(deciding_facts(apple)))
    assert none.read == 0
    assert 0 < whole.read < whole.facts
    assert all(
        one.source not in library.sources or not library.sources[one.source].read for one in whole.unread
    )


def test_bloom_that_open_records_measured_counts_as_read(library: Library) -> None:
    apple = kind_tables().kind("apple")
    by_book, measured = reading_of(apple, {}), reading_of(apple, {}, measured={"apple"})
    assert measured.read == by_book.read + 1
    assert {one.what for one in by_book.unread} - {one.what for one in measured.unread} == {
        "bloom.first_open_heat"
    }


def test_windows_of_cutting_decide_too() -> None:
    ways = [path for path, _ in deciding_facts(kind_tables().kind("apple")) if path[0] == "pruning"]
    assert ways
    assert all(len(path) == 3 for path in ways)
