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
    """Heat, the frost that is next, and what the weather rests on, in a line; in winter little of it."""
    heading = almanac.heading()
    heat, warm = heading.heat, ""
    if heat.days_ahead is not None:
        sums = phrases.count(quantities.heat(heat.to_date), "degree-day")
        warm = f"heat {sums}, {phrases.ahead(heat.days_ahead)}"
    cold = phrases.next_frost(heading.frost, almanac.on)
    return "; ".join(part for part in (warm, cold, safe_text(heading.filled or "")) if part)
