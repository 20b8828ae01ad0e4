"""Cards of an almanac, and the looks at its failing trees."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from leafturn.garden.reading.names import plain_id
from leafturn.papers.cards import MonthOf, bloom_card, month_card, tree_card
from leafturn.papers.page_layout import Paper
from leafturn.papers.tree_looks import tree_looks, watched
from leafturn.tasks.subjects import several_of
from leafturn_tui.papers.drawings import season_drawing
from leafturn_tui.papers.printed import Printed, foot_of
from leafturn_tui.safe_text import safe_text

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

KINDS = {"month": "month card", "bloom": "bloom card", "looks": "looks at failing trees"}


def make_card(almanac: AlmanacFace, what: str) -> Printed:
    """A card: "month", "bloom", "looks", or the id of a plant.

    Raises
    ------
    KeyError
        If there is no such plant.
    """
    made, on = CARDS.get(what), almanac.on
    if made is not None:
        pictures = {"season": partial(season_drawing, almanac, whole=False)}
        return Printed(
            paper=made(almanac), foot=foot_of(almanac, KINDS[what]), on=on, pictures=pictures, one_page=True
        )
    card = almanac.plant(what)
    if card is None:
        raise KeyError(what)
    paper = tree_card(card, almanac.jobs(), on, safe_text)
    return Printed(paper=paper, foot=foot_of(almanac, f"card of {card.id}"), on=on)


def file_name(almanac: AlmanacFace, what: str) -> str:
    """What a card's file is called, without its ending: letters, digits and hyphens."""
    if what in KINDS:
        day = almanac.on
        return f"{what}-{f'{day:%Y-%m}' if what == 'month' else day.isoformat()}"
    word = plain_id(what).encode("ascii", errors="ignore").decode().strip("-")[:60]
    return f"card-{word or 'plant'}"


def _month(almanac: AlmanacFace) -> Paper:
    garden = almanac.garden
    several = {p.id: several_of(almanac.library.match(p.kind).kind) for p in garden.plants}
    month = MonthOf(place=garden.place.name, on=almanac.on, helpers=garden.all_helpers, several=several)
    return month_card(month, almanac.jobs(), almanac.season().events, safe_text)


def _bloom(almanac: AlmanacFace) -> Paper:
    return bloom_card(almanac.garden.place.name, almanac.season().events, almanac.on, safe_text)


def _looks(almanac: AlmanacFace) -> Paper:
    found = almanac.heed()
    entries = tuple(line.entry for line in reversed(almanac.book()) if not line.taken_back)
    said = [(line.plant, line.says) for line in found.falls]
    named = {plant for plant, _ in said}
    said += [
        (p.id, f"{p.id} is {p.state}.")
        for p in almanac.garden.plants
        if p.state in ("declining", "dead standing") and p.id not in named
    ]
    return tree_looks(
        almanac.garden.place.name, watched(said, entries, almanac.jobs()), found.calls, almanac.on, safe_text
    )


CARDS = {"month": _month, "bloom": _bloom, "looks": _looks}
