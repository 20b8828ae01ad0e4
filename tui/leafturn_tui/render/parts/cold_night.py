"""What a cold night would do: in plain lines and as JSON."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from leafturn.base import quantities
from leafturn_tui.render.parts.heading import head
from leafturn_tui.render.parts.values import Answer, fields, shell
from leafturn_tui.text import phrases

if TYPE_CHECKING:
    from leafturn.answers.cold_night import ColdHit, Tonight
    from leafturn_tui.almanac_face import AlmanacFace


def night_lines(almanac: AlmanacFace, night: Tonight) -> Iterator[str]:
    """What a cold night would do, worst first."""
    yield from head(almanac, f"What would a night of {quantities.celsius(night.garden_c)} do?")
    yield from lines_of_night(night)


def lines_of_night(night: Tonight) -> Iterator[str]:
    """The night, a line a plant that it hurts, and the caution."""
    yield night.said
    for hit in night.plants:
        lost = f"{phrases.tenths(hit.share, hit.low, hit.high)} lost"
        stage = f"{hit.stage} ({hit.stage_from})"
        yield ", ".join((f"{hit.plant}: {lost}", stage, hit.words, hit.cover_words, hit.basis))
    if not night.plants:
        yield "Nothing here is at a stage that cold is known to hurt."
    if night.not_known:
        yield f"in flower, but what cold they bear is not known: {', '.join(night.not_known)}"
    yield night.caution


def night_as_json(almanac: AlmanacFace, night: Tonight, question: str | None) -> Answer:
    """What a cold night would do; `question` is what a person would be asked about the figure typed."""
    said = fields(night, "not_known", "caution", garden_celsius="garden_c", station_celsius="station_c")
    return shell(almanac) | said | {"question": question, "plants": [cold_hit(h) for h in night.plants]}


def cold_hit(said: ColdHit) -> Answer:
    """One plant on a cold night."""
    names = ("plant", "kind", "stage", "stage_from", "cover", "cover_words", "words", "basis")
    lost = fields(said, share_lost="share", share_lost_low="low", share_lost_high="high")
    killing = fields(said, tenth_lost_at_celsius="tenth_c", nine_tenths_lost_at_celsius="nine_tenths_c")
    return fields(said, *names, height_metres="height_m") | lost | killing
