"""What is wrong in the garden's files: in plain lines and as JSON."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from leafturn_tui.render.parts.printed import fault_lines
from leafturn_tui.render.parts.question import Question
from leafturn_tui.render.parts.values import Answer
from leafturn_tui.text import phrases

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

QUESTION = Question(
    asked="What is wrong in the files?",
    place=130,
    headed=False,
)


def lines(almanac: AlmanacFace) -> Iterator[str]:
    """What is wrong in the garden's files, and what is worth knowing about them."""
    if not almanac.faults and not almanac.read_only:
        yield f"No faults: {phrases.count(len(almanac.garden.plants), 'plant')} in {almanac.file.name}."
    yield from fault_lines(almanac.faults)
    yield from almanac.notes


def as_json(almanac: AlmanacFace) -> Answer:
    """Nothing more: faults and notes are in every answer."""
    return {}
