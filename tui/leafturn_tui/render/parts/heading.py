"""What stands above every answer: the question, the day and the place, heat and frost."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from leafturn.base import quantities
from leafturn_tui.safe_text import safe_text
from leafturn_tui.text import phrases

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

NO_PLANTS = "No plants yet. These two lines in the garden file make the first:"
FIRST_PLANT = ("[[plant]]", 'kind = "pear"')


def head(almanac: AlmanacFace, question: str) -> Iterator[str]:
    """The question with the day and the place, heat and frost, and a blank line."""
    place = almanac.heading().place
    yield f"{question}  {phrases.long_day(almanac.on)}{', ' + place if place else ''}"
    yield season_line(almanac)
    yield ""


def first_plant(almanac: AlmanacFace) -> Iterator[str]:
    """What to write in a garden file without plants."""
    if not almanac.garden.plants:
        yield NO_PLANTS
        yield from (f"    {line}" for line in FIRST_PLANT)


def season_line(almanac: AlmanacFace) -> str:
    """Heat and frost in a line."""
    heading = almanac.heading()
    heat, frost = heading.heat, heading.frost
    pace = f", {said}" if (said := phrases.ahead(heat.days_ahead)) else ""
    warm = f"heat {phrases.count(quantities.heat(heat.to_date), 'degree-day')}{pace}"
    if frost.last.likely is None:
        cold = phrases.frost_rare(max(frost.last_years, frost.first_years))
    else:
        last = phrases.likely(frost.last, almanac.on)
        cold = f"last frost {last}, {phrases.frost_gone(frost.last_gone)}"
    filled = f"; {safe_text(heading.filled)}" if heading.filled else ""
    return f"{warm}; {cold}{filled}"
