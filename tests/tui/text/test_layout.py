"""Fitting text to terminal cells."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st
from rich.cells import cell_len

from leafturn_tui.safe_text import safe_text
from leafturn_tui.text.layout import Column, columns, cut, cut_heads, fit, paragraph, piece
from leafturn_tui.text.wrapping import wrap

WORDS = st.text(st.sampled_from("abc  梨é-"), max_size=80)


@settings(max_examples=60)
@given(WORDS, st.integers(4, 60), st.integers(0, 3))
def test_wrapped_lines_fit_and_keep_every_word(text: str, width: int, hang: int) -> None:
    lines = wrap(text, width, hang)
    assert all(cell_len(line) <= max(width, hang + 2) for line in lines)
    assert "".join("".join(lines).split()) == "".join(text.split())


@settings(max_examples=60)
@given(st.text(max_size=60), st.integers(1, 30))
def test_fitted_text_takes_exactly_its_cells(text: str, width: int) -> None:
    assert cell_len(fit(safe_text(text), width)) == width
    assert cell_len(cut(safe_text(text), width)) <= width


@settings(max_examples=60)
@given(st.lists(st.tuples(WORDS, WORDS, WORDS), min_size=1, max_size=5), st.integers(30, 90))
def test_columns_keep_within_the_width(table: list[tuple[str, str, str]], width: int) -> None:
    laid = columns([[piece(c) for c in cells] for cells in table], [Column(), Column(), Column()], width)
    assert all(sum(cell_len(p.text) for p in line) <= width for line in laid)


def test_the_column_that_gives_most_shrinks_first() -> None:
    table = [[piece("a" * 20), piece("b" * 20), piece("c" * 5)]]
    (line,) = columns(table, [Column(), Column(least=8, gives=1), Column()], 40)
    assert line[0].text == "a" * 20
    assert line[2].text == "b" * 10 + "…"


def test_a_paragraph_cut_short_says_so() -> None:
    rows = paragraph("one two three four five six seven", 10, most=2)
    assert [r.text for r in rows][-1].endswith("…")
    assert len(rows) == 2


def test_a_day_stays_with_its_month_and_a_number_with_its_unit() -> None:
    told = "first of autumn about 10 Nov (21 Oct-26 Nov) in 8 of 10 years, 24 m off"
    for width in range(24, 60):
        lines = wrap(told, width)
        assert " ".join(lines) == told
        assert max(map(len, lines)) <= width
        for kept in ("10 Nov", "(21 Oct-26 Nov)", "8 of 10", "24 m"):
            assert any(kept in line for line in lines), (width, lines)


def test_a_name_longer_than_a_line_parts_behind_a_hyphen() -> None:
    parts = ["oldest-pear-", "tree-behind-the-", "beehives"]
    assert wrap("oldest-pear-tree-behind-the-beehives", 16) == parts
    assert wrap("abcdefghijklmnopqrst", 16) == ["abcdefghijklmnop", "qrst"]


def test_a_head_of_which_hardly_a_letter_has_room_is_left_out() -> None:
    line = "  tree      of 10 springs    the weakest link"
    assert cut_heads(line, len(line)) == line
    assert cut_heads(line, 33) == "  tree      of 10 springs"
    assert cut_heads(line, 40) == cut(line, 40)
    assert cut_heads(line, 25) == "  tree      of 10 springs"
    assert cut_heads(line, 12) == "  tree"
