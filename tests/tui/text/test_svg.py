"""Pictures as SVG: read back as XML, every word at its cell."""

from __future__ import annotations

import xml.etree.ElementTree as ET

from leafturn_tui.text.layout import Piece, Row
from leafturn_tui.text.shapes import HIGH, WIDE
from leafturn_tui.text.styles import Look
from leafturn_tui.text.svg import svg_of

SVG = "{http://www.w3.org/2000/svg}"


def parsed(*rows: Row, look: str = "light") -> ET.Element:
    return ET.fromstring(svg_of(rows, Look(look), 20, "a <title>"))


def test_words_stand_at_their_cells_whatever_the_font() -> None:
    root = parsed(Row((Piece("ab  cd", "harm"),)), Row((Piece("x & y"),)))
    words = [(t.text, float(t.get("x", "")), t.get("textLength")) for t in root.iter(f"{SVG}text")]
    assert words[0] == ("ab", 0.0, f"{2 * WIDE:g}")
    assert words[1] == ("cd", 4 * WIDE, f"{2 * WIDE:g}")
    assert [w[0] for w in words[2:]] == ["x", "&", "y"]
    assert root.find(f"{SVG}title").text == "a <title>"  # type: ignore[union-attr]


def test_hills_and_dots_are_drawn_and_grounds_lie_below() -> None:
    root = parsed(Row((Piece("▄⣿●", "f_bloom on frost2"),)))
    boxes = [(r.get("height"), r.get("fill")) for r in root.iter(f"{SVG}rect")]
    assert (f"{HIGH / 2:g}", "#b35796") in boxes
    assert (f"{HIGH:g}", "#d3e6f4") in boxes
    assert len(list(root.iter(f"{SVG}circle"))) == 8 + 1


def test_without_colour_it_is_black_on_white() -> None:
    root = parsed(Row((Piece("no", "*harm"), Piece(" 1", "*on_harm on harm_fill"))), look="none")
    assert {t.get("fill") for t in root.iter(f"{SVG}text")} == {"#21251b", "#ffffff"}
