"""The words of an `answered` note about a tree without a partner, as they stand in the files.

"content without", "fix: " with the way chosen ("fix: graft"), or "waiting until " with a year.
"""

from __future__ import annotations

from typing import Literal, get_args

from leafturn.base.patterns import pattern
from leafturn.base.value import Value

RemedyWay = Literal["borrow", "graft", "move", "plant"]
AnswerWay = Literal["content", "wait", RemedyWay]

_REMEDY = pattern(r"fix:\s*(?P<way>\w+)\b")
_WAIT = pattern(r"waiting until\s+(?P<year>\d{4})\b")
_CONTENT = "content without"
_REMEDY_WAYS: dict[str, RemedyWay] = {way: way for way in get_args(RemedyWay)}


class Said(Value, kw_only=False):
    """The way chosen, and for waiting the year that is waited for."""

    way: AnswerWay
    year: int | None = None

    def __str__(self) -> str:
        """As it is written, and told."""
        match self.way:
            case "content":
                return _CONTENT
            case "wait":
                return f"waiting until {self.year}"
            case way:
                return f"fix: {way}"

    @property
    def is_remedy(self) -> bool:
        """Whether something is to be done for the tree."""
        return self.way in _REMEDY_WAYS


def read_said(answer: str | None) -> Said | None:
    """What the words of an answer say; None if they are about something else."""
    words = " ".join((answer or "").lower().split())
    if words.startswith(_CONTENT):
        return Said("content")
    if wait := _WAIT.match(words):
        return Said("wait", int(wait["year"]))
    remedy = _REMEDY.match(words)
    way = _REMEDY_WAYS.get(remedy["way"]) if remedy else None
    return Said(way) if way else None
