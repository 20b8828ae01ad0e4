"""Rows as a drawing in SVG 1.1: words are set to the room of their cells, whatever font the viewer has."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from xml.sax.saxutils import escape

from leafturn.base.patterns import pattern
from leafturn_tui.text.layout import Row
from leafturn_tui.text.shapes import HIGH, TYPE, WIDE, Box, Disc, Shape, Words, grounds_of, signs_of
from leafturn_tui.text.styles import PAGE, Look

FONT = "ui-monospace, 'DejaVu Sans Mono', Menlo, Consolas, monospace"
PAPER = "#ffffff"
PARTED = pattern(" {3,}")  # blanks between columns: whoever hears them needs no more than two


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
    grounds = (box for box in grounds_of(rows, look) if box.colour != ground)
    body = "\n".join([*_drawn(grounds), *_drawn(signs_of(rows, look))])
    said = "\n".join(PARTED.sub("  ", row.text.rstrip()) for row in rows)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {wide:g} {high:g}" '
        f'width="{wide:g}" height="{high:g}" role="img">\n'
        f"<title>{escape(title)}</title>\n<desc>{escape(said)}</desc>\n"
        f'<rect width="100%" height="100%" fill="{ground}"/>\n'
        f'<g font-family="{FONT}" font-size="{TYPE:g}">\n{body}\n</g>\n</svg>\n'
    )


def _drawn(shapes: Iterable[Shape]) -> list[str]:
    """Shapes of which none lies over another: those of one colour and height are one path of strokes as thick
    as they are high, words of one colour one group."""
    strokes: dict[str, list[str]] = {}
    words: dict[str, list[str]] = {}
    for shape in shapes:
        match shape:
            case Box(x, y, wide, high, colour, opacity):
                more = f' opacity="{opacity:g}"' if opacity < 1 else ""
                drawn, place = f"{_stroke(colour, high)}{more}", f"M{x:g} {y + high / 2:g}h{wide:g}"
            case Disc(x, y, radius, colour):
                drawn, place = f'{_stroke(colour, 2 * radius)} stroke-linecap="round"', f"M{x:g} {y:g}h0"
            case _:
                weight = ' font-weight="bold"' if shape.bold else ""
                words.setdefault(f'fill="{shape.colour}"{weight}', []).append(_text(shape))
                continue
        strokes.setdefault(drawn, []).append(place)
    return [
        *(f'<path {how} d="{"".join(places)}"/>' for how, places in strokes.items()),
        *(f"<g {how}>{''.join(texts)}</g>" for how, texts in words.items()),
    ]


def _stroke(colour: str, thick: float) -> str:
    return f'stroke="{colour}" stroke-width="{thick:g}"'


def _text(words: Words) -> str:
    return f'<text x="{words.x:g}" y="{words.y:g}" textLength="{words.room:g}">{escape(words.text)}</text>'
