"""A job's reasons, short enough for paper."""

from __future__ import annotations

import re

from leafturn.papers.page_layout import cells

_CLAUSE_ENDS = (". ", "; ", ": ", ", ", " (")
_HALVES = ("if ", "unless ", "where ", "when ", "once ")  # begin what goes on behind a comma


def one_line(when: str, why: str, width: int) -> str:
    """When and why as one line if a whole clause of the reason fits; else both in full."""
    said = f"{when}: {why}" if when and why else when or why
    if cells(said) <= width:
        return said
    ends = sorted({at for end in _CLAUSE_ENDS for at in _places(why, end)}, reverse=True)
    for at in (at for at in ends if _is_whole(why[:at])):
        shorter = f"{when}: {why[:at]}." if when else f"{why[:at]}."
        if cells(shorter) <= width:
            return shorter
    return said


def _is_whole(kept: str) -> bool:
    """Whether words end with a clause that can stand alone, as "if not yet" cannot."""
    return not re.split(r"[.;:] ", kept)[-1].startswith(_HALVES)


def _places(text: str, sought: str) -> list[int]:
    """Where something stands in a text, but for the first few letters, which tell too little."""
    found = []
    at = text.find(sought, 12)
    while at >= 0:
        found.append(at)
        at = text.find(sought, at + 1)
    return found
