"""A job's reasons, short enough for paper."""

from __future__ import annotations

from leafturn.papers.page_layout import cells

_CLAUSE_ENDS = (". ", "; ", ": ", ", ", " (")


def one_line(when: str, why: str, width: int) -> str:
    """When and why as one line if a whole clause of the reason fits; else both in full."""
    said = f"{when}: {why}" if when and why else when or why
    if cells(said) <= width:
        return said
    ends = sorted({at for end in _CLAUSE_ENDS for at in _places(why, end)}, reverse=True)
    for at in ends:
        shorter = f"{when}: {why[:at]}." if when else f"{why[:at]}."
        if cells(shorter) <= width:
            return shorter
    return said


def _places(text: str, sought: str) -> list[int]:
    """Where something stands in a text, but for the first few letters, which tell too little."""
    found = []
    at = text.find(sought, 12)
    while at >= 0:
        found.append(at)
        at = text.find(sought, at + 1)
    return found
