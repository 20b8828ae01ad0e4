"""Every plant: in plain lines and as JSON."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from leafturn_tui.render.parts.heading import first_plant
from leafturn_tui.render.parts.question import Question
from leafturn_tui.render.parts.values import Answer, fields

if TYPE_CHECKING:
    from leafturn.answers.plant_card import PlantCard
    from leafturn_tui.almanac_face import AlmanacFace

QUESTION = Question(asked="What stands here?", place=70)


def lines(almanac: AlmanacFace) -> Iterator[str]:
    """Every plant of the garden: kind, place, and a few words."""
    yield from first_plant(almanac)
    for card in almanac.plants():
        yield ", ".join(part for part in (card.id, card.line or card.kind, card.where) if part)


def as_json(almanac: AlmanacFace) -> Answer:
    """Every plant."""
    return {"plants": [plant(c) for c in almanac.plants()]}


def plant(card: PlantCard) -> Answer:
    """One plant with its facts and their sources."""
    return fields(
        card, "id", "name", "kind", "botanical", "guessed", "where", "metres_from_gate", "line"
    ) | fields(card, "facts", "conflicts", "jobs", "nothing_to_do", "cautions", "own_words")
