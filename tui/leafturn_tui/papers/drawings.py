"""The drawings of papers, without colour: the garden from above, and the season as a strip."""

from __future__ import annotations

from typing import TYPE_CHECKING

from leafturn_tui.charts.field import Field
from leafturn_tui.charts.garden_plan import legend_rows, plan_rows
from leafturn_tui.charts.letters import codes
from leafturn_tui.charts.season_strip import Strip
from leafturn_tui.text.layout import BLANK, Row, paragraph

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

PLAN_ROWS = 30  # half a page of fixed type

HOW_TO_READ = (
    "Bloom, then picking: the higher, the likelier. Frost stands above. At the right stands the day of full "
    "bloom or, once that is past, of the first picking."
)


def garden_drawing(almanac: AlmanacFace, columns: int) -> list[Row]:
    """The garden from above with its letters and what they stand for; nothing without a plant."""
    plan = almanac.garden_plan()
    if not plan.plants:
        return []
    names = codes([p.plant for p in plan.plants])
    drawn = plan_rows(plan, Field.whole(plan, columns, PLAN_ROWS), names, colour=False)
    return [*drawn, BLANK, *legend_rows(plan, names, columns)]


def season_drawing(almanac: AlmanacFace, columns: int, *, whole: bool) -> list[Row]:
    """Bloom and picking as hills, the season by week or some eight weeks by day; nothing without any."""
    days = almanac.season_days()
    frost = almanac.season().frost.following(almanac.on)
    strip = Strip.across(days, frost, almanac.on, columns, whole=whole)
    hills = strip.rows(lambda _, drawn: drawn)
    if not hills:
        return []
    return [*paragraph(HOW_TO_READ, columns, hang=0), *strip.heads(frost), *hills]
