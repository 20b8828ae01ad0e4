"""Under the round: what is due in the gardens that the garden file names as `also`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from leafturn.tasks.model import DUE
from leafturn_tui.pages.round_lines import line_rows
from leafturn_tui.render.parts.gardens import titles
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import BLANK, Row, heading, paragraph

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace


def other_garden_rows(almanac: AlmanacFace, width: int) -> list[Row]:
    """The due lines of each other garden under its name; they are only told, and tended with it opened."""
    found = almanac.also()
    rows: list[Row] = []
    for number, (one, title) in enumerate(zip(found, titles(found), strict=True)):
        rows += [BLANK, heading(f"also due: {title}")]
        if one.garden is None:
            rows += paragraph(one.fault.sentence() if one.fault else "", width, "due", key=f"also {number}")
            continue
        week = one.garden.round()
        due = [line for line in week.lines if line.state in DUE]
        if not due:
            rows += paragraph(week.quiet or "Nothing is due now.", width, key=f"also {number}")
        for told in line_rows(due, week.beyond_reach, almanac.on, width):
            why = f"In {title}: {told.sentence} To tend it: leafturn {one.path}"
            rows.append(Row(told.pieces, f"also {number} {told.key}", why))
        rows += paragraph(phrases.hours_lines(week)[-1], width, "quiet")
    return rows
