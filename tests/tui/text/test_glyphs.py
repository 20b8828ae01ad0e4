"""What is drawn in ASCII, and when."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from leafturn_tui.charts.braille import Dots
from leafturn_tui.charts.heights import BLOCKS, hill
from leafturn_tui.safe_text import safe_text
from leafturn_tui.text.glyphs import plain, wants_plain


@given(st.text(max_size=40))
def test_whatever_is_shown_becomes_ascii_of_the_same_width(text: str) -> None:
    safe = safe_text(text)
    drawn = plain(safe)
    assert drawn.isascii()
    assert len(drawn) == sum(cell_len(sign) for sign in safe)


def test_letters_lose_their_accents_and_heights_are_figures_that_rise() -> None:
    assert plain("pêche de vigne, Apfelbäume") == "peche de vigne, Apfelbaume"
    assert plain(BLOCKS) == " 12345678"
    chances = [plain(hill(n / 10)) for n in range(11)]
    assert chances == sorted(chances)


def test_dots_tell_the_half_of_the_cell_that_they_lie_in() -> None:
    def drawn(*rows: int) -> str:
        dots = Dots(1, 1)
        for y in rows:
            dots.set(0, y)
        return plain(dots.cell(0, 0))

    assert (drawn(0), drawn(1), drawn(2), drawn(3), drawn(0, 3)) == ("'", "'", ".", ".", ":")


@pytest.mark.parametrize(
    ("environ", "encoding", "expected"),
    [
        ({}, "utf-8", False),
        ({"LANG": "en_GB.UTF-8"}, "utf-8", False),
        ({"LANG": "en_GB.utf8"}, "UTF-8", False),
        ({"LANG": "en_GB.ISO-8859-1"}, "utf-8", True),
        ({"LANG": "en_GB.UTF-8", "LC_ALL": "C"}, "utf-8", True),
        ({}, "latin-1", True),
        ({"TERM": "linux"}, "utf-8", True),
        ({"TERM": "linux", "LEAFTURN_GLYPHS": "full"}, "utf-8", False),
        ({"LEAFTURN_GLYPHS": " Plain "}, "utf-8", True),
        ({"LEAFTURN_GLYPHS": "other"}, None, False),
    ],
)
def test_when_all_is_drawn_in_ascii(environ: dict[str, str], encoding: str | None, expected: bool) -> None:
    assert wants_plain(environ, encoding) is expected
