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


def strokes(root: ET.Element) -> list[tuple[str, float, str]]:
    """Colour, height and places of all that is drawn, in order."""
    return [
        (p.get("stroke", ""), float(p.get("stroke-width", "")), p.get("d", ""))
        for p in root.iter(f"{SVG}path")
    ]


def test_words_stand_at_their_cells_whatever_the_font() -> None:
    root = parsed(Row((Piece("ab  cd", "harm"),)), Row((Piece("x & y"),)))
    words = [(t.text, float(t.get("x", "")), t.get("textLength")) for t in root.iter(f"{SVG}text")]
    assert words[0] == ("ab", 0.0, f"{2 * WIDE:g}")
    assert words[1] == ("cd", 4 * WIDE, f"{2 * WIDE:g}")
    assert words[2] == ("x & y", 0.0, f"{5 * WIDE:g}")
    assert root.find(f"{SVG}title").text == "a <title>"  # type: ignore[union-attr]


def test_hills_and_dots_are_drawn_and_grounds_lie_below() -> None:
    root = parsed(Row((Piece("▄⣿●", "f_bloom on frost2"),)))
    paths = strokes(root)
    ground = ("#d3e6f4", HIGH, f"M0 {HIGH / 2:g}h{3 * WIDE:g}")
    assert paths[0] == ground, "once for all three"
    assert ("#b35796", HIGH / 2, f"M0 {0.75 * HIGH:g}h{WIDE:g}") in paths
    assert sum(drawn.count("h0") for _, _, drawn in paths) == 8 + 1


def test_what_stands_on_a_ground_is_drawn_after_all_grounds() -> None:
    """Else the ground of one crown would hide the upper half of its neighbour, which has the same colour."""
    root = parsed(Row((Piece("▀", "harm on well"), Piece("▀", "well on harm"))))
    assert [high for _, high, _ in strokes(root)] == [HIGH, HIGH, HIGH / 2, HIGH / 2]


def test_without_colour_it_is_black_on_white() -> None:
    root = parsed(Row((Piece("no", "*harm"), Piece(" 1", "*on_harm on harm_fill"))), look="none")
    groups = [g for g in root.iter(f"{SVG}g") if g.get("fill")]
    assert {g.get("fill") for g in groups} == {"#21251b", "#ffffff"}


def test_what_is_repeated_is_left_out() -> None:
    """The ground of the page is drawn once, and who hears a picture hears no runs of blanks."""
    root = parsed(Row((Piece("a          b", "ink on ground"),)))
    assert not strokes(root)
    assert root.findtext(f"{SVG}desc") == "a  b"
