"""A look at the crown of an old tree, noted from the pages that tell of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from leafturn.canopy.stand.growing_season import month_of_looks
from leafturn_tui.notes import dates, grammar
from leafturn_tui.panels.line import Typing

if TYPE_CHECKING:
    from leafturn.journal.entries import Entry
    from leafturn_tui.host import Host


def ask_crown_look(desk: Host, plant: str) -> None:
    """Ask how much of a crown is alive, and note it."""
    on, month = desk.almanac.on, month_of_looks(desk.almanac.garden.place.lat)

    def look(text: str) -> Entry:
        seen, day = dates.day_at_end(text, on)
        return grammar.crown(plant, seen, day)

    def preview(text: str) -> str:
        if not text.strip():
            return f"33%, or 33% and what else was seen; best in {month}, when leaves tell"
        return grammar.entry_words(look(text), on)

    def take(text: str) -> None:
        desk.consider(look(text))

    desk.ask(Typing(f"How much of the crown of {plant} is alive?", take, preview=preview))
