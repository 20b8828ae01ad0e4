"""Inputs with bytes or values changed at random, and any bytes at all: read or refused in a sentence."""

from __future__ import annotations

import tempfile
import time
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.faults.by_commands import BY_COMMANDS
from tests.faults.by_pages import BY_PAGES
from tests.faults.fuzz import FUZZED, Fuzzed, fuzz
from tests.faults.trial import is_sentence

ALL = (*FUZZED, *BY_COMMANDS, *BY_PAGES)


@pytest.mark.sweep(each=6)
@pytest.mark.parametrize("one", ALL, ids=lambda one: one.name)
def test_some_changed_inputs(one: Fuzzed) -> None:
    found = fuzz(one, one.short, 19)
    assert found.clean, found


@pytest.mark.parametrize("one", FUZZED, ids=lambda one: one.name)
def test_any_bytes_at_all(one: Fuzzed) -> None:
    with tempfile.TemporaryDirectory() as folder:

        @settings(max_examples=30, deadline=None)
        @given(st.binary(max_size=300) | st.text(max_size=200).map(lambda text: text.encode()))
        def read(data: bytes) -> None:
            assert all(map(is_sentence, one.read(Path(folder), data)))

        read()


def test_blanks_without_end_are_read_as_soon_as_anything() -> None:
    """A pattern that tried each of 8,500 blanks with each other took 14 s; an input has one second."""
    (typed,) = (one for one in FUZZED if one.name == "typed")
    for blank in ("\n", " ", ",", "; "):
        start = time.process_time()
        assert all(map(is_sentence, typed.read(Path(), f"26 A1e{blank * 10_000}x".encode())))
        assert time.process_time() - start < typed.slow


@pytest.mark.faults
@pytest.mark.parametrize("one", ALL, ids=lambda one: one.name)
def test_very_many_changed_inputs(one: Fuzzed) -> None:
    found = fuzz(one, one.long, 20270419)
    assert found.clean, found
