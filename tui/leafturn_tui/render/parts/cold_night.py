"""What a cold night would do: in plain lines and as JSON."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from leafturn_tui.render.parts.heading import head
from leafturn_tui.render.parts.values import Answer, shell
from leafturn_tui.text import phrases

if TYPE_CHECKING:
    from leafturn.answers.cold_night import ColdHit, Tonight
    from leafturn_tui.almanac_face import AlmanacFace


def night_lines(almanac: AlmanacFace, night: Tonight) -> Iterator[str]:
    """What a cold night would do, worst first."""
    yield from head(almanac, f"What would a night of {night.garden_c:.1f} C do?")
    yield from told_of_night(night)


def told_of_night(night: Tonight) -> Iterator[str]:
    """The night, a line a plant that it hurts, and the caution."""
    yield night.said
    for hit in night.plants:
        lost = f"{phrases.hundredths(hit.share, hit.low, hit.high)} lost"
        stage = f"{hit.stage} ({hit.stage_from})"
        yield ", ".join((f"{hit.plant}: {lost}", stage, hit.words, hit.cover_words, hit.basis))
    if not night.plants:
        yield "Nothing here is at a stage that cold is known to hurt."
    if night.not_known:
        yield f"in flower, but what cold they bear is not known: {', '.join(night.not_known)}"
    yield night.caution


def night_as_json(almanac: AlmanacFace, night: Tonight, question: str | None) -> Answer:
    """What a cold night would do; `question` is what a person would be asked about the figure typed."""
    return shell(almanac) | {
        "garden_celsius": night.garden_c,
        "station_celsius": night.station_c,
        "question": question,
        "plants": [cold_hit(h) for h in night.plants],
        "not_known": list(night.not_known),
        "caution": night.caution,
    }


def cold_hit(said: ColdHit) -> Answer:
    """One plant on a cold night."""
    return {
        "plant": said.plant,
        "kind": said.kind,
        "stage": said.stage,
        "stage_from": said.stage_from,
        "share_lost": said.share,
        "share_lost_low": said.low,
        "share_lost_high": said.high,
        "tenth_lost_at_celsius": said.tenth_c,
        "nine_tenths_lost_at_celsius": said.nine_tenths_c,
        "height_metres": said.height_m,
        "cover": said.cover,
        "cover_words": said.cover_words,
        "words": said.words,
        "basis": said.basis,
    }
