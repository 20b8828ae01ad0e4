"""Rows as a terminal draws them: segments of text with a style."""

from __future__ import annotations

from rich.segment import Segment

from leafturn_tui.text.glyphs import plain
from leafturn_tui.text.layout import Row
from leafturn_tui.text.styles import Look


def segments_of(row: Row, base: str, width: int, look: Look) -> list[Segment]:
    """The row as one line of exactly `width` cells, on the ground that `base` names."""
    under = look.style(base)
    segments = [
        Segment(
            (p.plain or plain(p.text)) if look.plain else p.text,
            under + look.style(p.tone) if p.tone else under,
        )
        for p in row.pieces
        if p.text
    ]
    return Segment.adjust_line_length(segments, width, under)
