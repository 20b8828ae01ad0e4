"""A line being typed."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st
from rich.cells import cell_len

from leafturn_tui.text.typed_line import LONGEST, TypedLine

KEYS = st.sampled_from(["left", "right", "home", "end", "backspace", "delete", "a", "é", "梨", " "])


@settings(max_examples=60)
@given(st.lists(KEYS, max_size=60), st.integers(6, 30))
def test_any_keys_leave_a_line_that_fits(keys: list[str], width: int) -> None:
    line = TypedLine()
    for key in keys:
        line.key(key, key if len(key) == 1 else None)
        assert 0 <= line.at <= len(line.text)
        assert sum(cell_len(p.text) for p in line.pieces(width)) <= width


def test_pasted_line_ends_become_blanks_and_controls_go() -> None:
    line = TypedLine("ab", 1)
    line.insert("x\ny\x1b\tz")
    assert line.text == "ax y zb"


def test_two_thousand_pasted_characters_are_kept() -> None:
    line = TypedLine()
    line.insert("nettle " * 300)
    assert len(line.text) == 2100
    line.insert("x" * 10_000)
    assert len(line.text) == LONGEST
