"""Rows as a drawing in SVG 1.1: words are set to the room of their cells, whatever font the viewer has."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from xml.sax.saxutils import escape

from leafturn_tui.text.layout import Row
from leafturn_tui.text.shapes import HIGH, TYPE, WIDE, Box, Disc, Shape, Words, grounds_of, signs_of
from leafturn_tui.text.styles import PAGE, Look

FONT = "ui-monospace, 'DejaVu Sans Mono', Menlo, Consolas, monospace"
PAPER = "#ffffff"


def svg_of(rows: Sequence[Row], look: Look, columns: int, title: str) -> str:
    """A drawing of some rows.

    Parameters
    ----------
    rows : sequence of Row
    look : Look
        `none` is drawn in black on white.
    columns : int
        Width [cells].
    title : str
        What the drawing shows, for those who hear it.
    """
    wide, high = columns * WIDE, len(rows) * HIGH
    ground = look.hexes(PAGE)[1] or PAPER
    body = "\n".join([*_drawn(grounds_of(rows, look)), *_drawn(signs_of(rows, look))])
    said = "\n".join(row.text.rstrip() for row in rows)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {wide:g} {high:g}" '
        f'width="{wide:g}" height="{high:g}" role="img">\n'
        f"<title>{escape(title)}</title>\n<desc>{escape(said)}</desc>\n"
        f'<rect width="100%" height="100%" fill="{ground}"/>\n'
        f'<g font-family="{FONT}" font-size="{TYPE:g}">\n{body}\n</g>\n</svg>\n'
    )


def _drawn(shapes: Iterable[Shape]) -> list[str]:
    """Shapes of which none lies over another: those of one colour are one path, their words one group."""
    boxes: dict[str, list[str]] = {}
    discs: dict[str, list[str]] = {}
    words: dict[str, list[str]] = {}
    for shape in shapes:
        match shape:
            case Box(x, y, wide, high, colour, opacity):
                more = f' opacity="{opacity:g}"' if opacity < 1 else ""
                place = f"M{x:g} {y:g}h{wide:g}v{high:g}h{-wide:g}z"
                boxes.setdefault(f'fill="{colour}"{more}', []).append(place)
            case Disc(x, y, radius, colour):
                drawn = f'stroke="{colour}" stroke-width="{2 * radius:g}"'
                discs.setdefault(drawn, []).append(f"M{x:g} {y:g}h0")
            case _:
                weight = ' font-weight="bold"' if shape.bold else ""
                words.setdefault(f'fill="{shape.colour}"{weight}', []).append(_text(shape))
    return [
        *(f'<path {how} d="{"".join(places)}"/>' for how, places in boxes.items()),
        *(f'<path {how} stroke-linecap="round" d="{"".join(places)}"/>' for how, places in discs.items()),
        *(f"<g {how}>{''.join(texts)}</g>" for how, texts in words.items()),
    ]


def _text(words: Words) -> str:
    return (
        f'<text x="{words.x:g}" y="{words.y:g}" textLength="{words.room:g}" '
        f'lengthAdjust="spacingAndGlyphs">{escape(words.text)}</text>'
    )
