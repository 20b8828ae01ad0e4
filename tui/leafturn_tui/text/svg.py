"""Rows as a drawing in SVG 1.1: every word is set to the room of its cells, whatever font the viewer has."""

from __future__ import annotations

from collections.abc import Sequence
from xml.sax.saxutils import escape

from leafturn_tui.text.layout import Row
from leafturn_tui.text.shapes import HIGH, TYPE, WIDE, Box, Disc, Shape, shapes_of
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
    body = "\n".join(map(_element, shapes_of(rows, look)))
    said = "\n".join(row.text.rstrip() for row in rows)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {wide:g} {high:g}" '
        f'width="{wide:g}" height="{high:g}" role="img">\n'
        f"<title>{escape(title)}</title>\n<desc>{escape(said)}</desc>\n"
        f'<rect width="100%" height="100%" fill="{ground}"/>\n'
        f'<g font-family="{FONT}" font-size="{TYPE:g}">\n{body}\n</g>\n</svg>\n'
    )


def _element(shape: Shape) -> str:
    match shape:
        case Box(x, y, wide, high, colour, opacity):
            more = f' opacity="{opacity:g}"' if opacity < 1 else ""
            return f'<rect x="{x:g}" y="{y:g}" width="{wide:g}" height="{high:g}" fill="{colour}"{more}/>'
        case Disc(x, y, radius, colour):
            return f'<circle cx="{x:g}" cy="{y:g}" r="{radius:g}" fill="{colour}"/>'
        case _:
            weight = ' font-weight="bold"' if shape.bold else ""
            return (
                f'<text x="{shape.x:g}" y="{shape.y:g}" textLength="{shape.room:g}" '
                f'lengthAdjust="spacingAndGlyphs" fill="{shape.colour}"{weight}>{escape(shape.text)}</text>'
            )
