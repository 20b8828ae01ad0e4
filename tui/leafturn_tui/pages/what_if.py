"""What could be done about an old tree, side by side: light, reach, habitat, successors."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from typing import TYPE_CHECKING

from leafturn.base import quantities
from leafturn.canopy.model import OldTree, WhatIf
from leafturn_tui.pages.base import Page
from leafturn_tui.pages.canopy_light import what_is_behind
from leafturn_tui.render.canopy import choice_words
from leafturn_tui.safe_text import safe_text
from leafturn_tui.text.layout import Row, fit, paragraph, piece
from leafturn_tui.text.wrapping import wrap

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace
    from leafturn_tui.panels.sentences import Sheet

LABEL = 13
SIDE_BY_SIDE_FROM = 66


class WhatIfPage(Page):
    """One old tree and what could be done about it."""

    name = "What if"

    def __init__(self, plant: str) -> None:
        self.plant = plant

    def _old_tree(self, almanac: AlmanacFace) -> OldTree | None:
        return next((e for e in almanac.canopy().old_trees if e.plant == self.plant), None)

    def heading(self, almanac: AlmanacFace) -> str:
        """The question, of this tree."""
        return safe_text(f"{self.plant}: what if?", limit=60)

    def gone(self, almanac: AlmanacFace) -> bool:
        """Whether the tree is no longer an old one of this garden."""
        return self._old_tree(almanac) is None

    def rows(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """A column for each choice; one after the other where the window is narrow."""
        old_tree = self._old_tree(almanac)
        if old_tree is None:
            return []
        if width < SIDE_BY_SIDE_FROM:
            return [
                r
                for n, c in enumerate(old_tree.choices)
                for r in paragraph(choice_words(c), width, key=f"{n}")
            ]
        rows = []
        for label, cells in _table(old_tree):
            rows += _side_by_side(label, cells, width)
        return rows

    def has_why(self, row: Row) -> bool:
        """What stands behind all of it is told of every line."""
        return True

    def why(self, almanac: AlmanacFace, row: Row) -> Sheet | None:
        """What stands behind all of it, said of the tree."""
        old_tree = self._old_tree(almanac)
        return None if old_tree is None else what_is_behind(old_tree)

    def below(self, almanac: AlmanacFace, under: Row | None, width: int) -> list[Row]:
        """Whom to ask first."""
        return paragraph(almanac.canopy().caution, width - 1, indent=1, most=2)


def _table(old_tree: OldTree) -> list[tuple[str, list[str]]]:
    choices = old_tree.choices
    return [
        ("", [c.what for c in choices]),
        ("light, mean", [f"{c.light:.0f} % of open" for c in choices]),
        ("who gains", [_gains(c) for c in choices]),
        (
            "may reach",
            [f"{quantities.metres(c.reach_m, 0)} round" if c.reach_m else "nothing more" for c in choices],
        ),
        ("path in reach", [quantities.metres(c.path_metres, 0) for c in choices]),
        ("seats, roofs", [_used(c) for c in choices]),
        ("habitat", [c.habitat for c in choices]),
        ("successors", [c.successors for c in choices]),
    ]


def _gains(choice: WhatIf) -> str:
    if not choice.gainers:
        return "nobody yet"
    return ", ".join(f"{plant} +{points:.0f}" for plant, points in choice.gainers[:4])


def _used(choice: WhatIf) -> str:
    return "; ".join(choice.in_reach) if choice.in_reach else "none"


def _side_by_side(label: str, cells: Sequence[str], width: int) -> list[Row]:
    each = (width - LABEL - 2 * len(cells)) // len(cells)
    wrapped = [wrap(safe_text(cell, limit=300), each) for cell in cells]
    spoken = "; ".join(safe_text(cell, limit=300) for cell in cells)
    rows = []
    for n, parts in enumerate(itertools.zip_longest(*wrapped, fillvalue="")):
        text = "".join("  " + fit(part, each) for part in parts)
        first = piece(fit(label if n == 0 else "", LABEL), "heading")
        why = f"{label}: {spoken}" if label else spoken
        rows.append(
            Row((first, piece(text.rstrip(), "" if label else "heading", limit=None)), f"{label} {n}", why)
        )
    return rows
