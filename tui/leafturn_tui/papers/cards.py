"""Cards and the safety log of an almanac."""

from __future__ import annotations

from typing import TYPE_CHECKING

from leafturn.garden.reading.names import plain_id
from leafturn.papers.cards import MonthOf, bloom_card, month_card, tree_card
from leafturn.papers.safety_log import safety_log, watched
from leafturn_tui.safe_text import safe_text

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

KINDS = ("month", "bloom", "safety")


def make_card(almanac: AlmanacFace, what: str) -> list[str]:
    """A card in lines: "month", "bloom", "safety", or the id of a plant.

    Raises
    ------
    KeyError
        If there is no such plant.
    """
    if what == "month":
        garden, on = almanac.garden, almanac.on
        month = MonthOf(place=garden.place.name, on=on, helpers=garden.all_helpers)
        return month_card(month, almanac.jobs(), almanac.season().events, safe_text)
    if what == "bloom":
        return bloom_card(almanac.garden.place.name, almanac.season().events, almanac.on, safe_text)
    if what == "safety":
        return _safety(almanac)
    card = almanac.plant(what)
    if card is None:
        raise KeyError(what)
    return tree_card(card, almanac.jobs(), almanac.on, safe_text)


def file_name(almanac: AlmanacFace, what: str) -> str:
    """What a card's file is called: letters, digits and hyphens."""
    if what in KINDS:
        day = almanac.on
        return {
            "month": f"month-{day:%Y-%m}.txt",
            "bloom": f"bloom-{day.isoformat()}.txt",
            "safety": f"safety-{day.isoformat()}.txt",
        }[what]
    word = plain_id(what).encode("ascii", errors="ignore").decode().strip("-")[:60]
    return f"card-{word or 'plant'}.txt"


def _safety(almanac: AlmanacFace) -> list[str]:
    found = almanac.heed()
    entries = tuple(line.entry for line in reversed(almanac.book()) if not line.taken_back)
    said = [(line.plant, line.says) for line in found.falls]
    named = {plant for plant, _ in said}
    said += [
        (p.id, f"{p.id} is {p.state}.")
        for p in almanac.garden.plants
        if p.state in ("declining", "dead standing") and p.id not in named
    ]
    return safety_log(
        almanac.garden.place.name, watched(said, entries, almanac.jobs()), found.calls, almanac.on, safe_text
    )
