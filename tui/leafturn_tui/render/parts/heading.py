"""What stands above every answer: the question, the day and the place, heat and frost."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from leafturn.base.prose import RARE, in_years
from leafturn_tui.safe_text import safe_text
from leafturn_tui.text import phrases

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

LONG = 10_000  # cells; a line in a pipe is never cut for its width
NO_PLANTS = "No plants yet. These two lines in the garden file make the first:"
FIRST_PLANT = ("[[plant]]", 'kind = "pear"')


def head(almanac: AlmanacFace, question: str) -> Iterator[str]:
    """The question with the day and the place, heat and frost, and a blank line."""
    place = almanac.heading().place
    yield f"{question}  {phrases.long_day(almanac.on)}{', ' + place if place else ''}"
    yield season_line(almanac, LONG)
    yield ""


def first_plant(almanac: AlmanacFace) -> Iterator[str]:
    """What to write in a garden file without plants."""
    if not almanac.garden.plants:
        yield NO_PLANTS
        yield from (f"    {line}" for line in FIRST_PLANT)


def season_line(almanac: AlmanacFace, width: int) -> str:
    """The second line of every page: heat and frost."""
    from leafturn_tui.text.layout import longest

    heading = almanac.heading()
    heat, frost = heading.heat, heading.frost
    pace = f", {said}" if (said := phrases.ahead(heat.days_ahead)) else ""
    warm = f"heat {phrases.count(heat.to_date, 'degree-day')}{pace}"
    gone = f"; {phrases.frost_gone(frost.last_gone)}"
    last = f"last frost likely {phrases.likely(frost.last, almanac.on)}"
    short = f"last frost likely {phrases.day(frost.last.likely, almanac.on)}"
    if frost.last.likely is None:
        years = max(frost.last_years, frost.first_years)
        short = f"frost rare, {in_years(years)}" if 0 < years < RARE else "no frost likely"
        last, gone = short, ""
    filled = f"; {safe_text(heading.filled)}" if heading.filled else ""
    return longest(
        [
            f"{warm}; {last}{gone}{filled}",
            f"{warm}; {last}{filled}",
            f"{warm}; {last}",
            f"{warm}; {short}",
            f"heat {round(heat.to_date)}{pace}; {short}",
            f"heat {round(heat.to_date)}{pace}",
        ],
        width,
    )
