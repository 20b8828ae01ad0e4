"""A page as it stands in a whole window, before any key: what the screen's widgets show, as lines."""

from __future__ import annotations

from pathlib import Path

from leafturn_tui.desk.frame import DIVIDER, Frame, hidden_rule, shown_keys
from leafturn_tui.desk.kept_picture import KeptPicture, Stretch, Window, keep
from leafturn_tui.desk.keys import bindings, common_keys
from leafturn_tui.desk.widgets.line_list import marked_line, resting_line
from leafturn_tui.desk.widgets.lines import beside_list
from leafturn_tui.text.layout import BLANK, Row
from leafturn_tui.text.styles import PAGE, season_of


def keep_week(frame: Frame, named: Path, *, colours: bool) -> None:
    """Keep the frame's page as it opens, for the next start of the garden that was named so."""
    if picture := whole_picture(frame, colours=colours):
        window = Window(frame.width, frame.height, colours)
        keep(picture, window, named, [named, *frame.almanac.rests_on])


def whole_picture(frame: Frame, *, colours: bool) -> KeptPicture | None:
    """A window with its page as it opens; None where the bar would stand below the window's end.

    Parameters
    ----------
    frame : Frame
    colours : bool
        Whether the terminal shows any.
    """
    page, almanac = frame.page, frame.almanac
    page.colours, page.height = colours, frame.height
    rows = page.rows(almanac, frame.rows_width)
    at = resting_line(rows, "", page.start(almanac, rows))
    under = rows[at] if at >= 0 else None
    keys = shown_keys(bindings(page.keys(), common_keys()), steps_back=False)
    head, foot, story = frame.head(), frame.foot("", under, keys), frame.story(under)
    room = frame.height - len(head) - len(foot) - 1
    if at >= room:
        return None

    def body(n: int) -> tuple[Stretch, ...]:
        told, ground = marked_line(rows, n, at, colours) if n < len(rows) else (BLANK, PAGE)
        left = Stretch(told.pieces, ground, frame.list_width)
        beside = frame.side_width + DIVIDER if frame.side_width else 0
        return (left, Stretch(beside_list(story, n, room).pieces, PAGE, beside)) if beside else (left,)

    def across(row: Row) -> tuple[Stretch, ...]:
        return (Stretch(row.pieces, PAGE, frame.width),)

    below = hidden_rule(frame.list_width, 0, max(0, len(rows) - room), bool(frame.side_width))
    lines = (*map(across, head), *map(body, range(room)), across(below), *map(across, foot))
    return KeptPicture(almanac.on, season_of(almanac.on.month, frame.southern), lines)
