"""A page as it stands in a whole window: head, list with the story beside it, rule and foot, as lines."""

from __future__ import annotations

from collections.abc import Sequence

from leafturn.base.value import Value
from leafturn_tui.desk.bar_list import BarList
from leafturn_tui.desk.frame import DIVIDER, Frame, Told, hidden_rule
from leafturn_tui.desk.kept_picture import Line, Stretch, across
from leafturn_tui.text.layout import BLANK, Piece, Row
from leafturn_tui.text.styles import PAGE

DIVIDED = (Piece("│", "faint"), Piece(" "))
MORE = Row((Piece("… w and Enter tell more", "dim"),))


class Around(Value):
    """What stands round a list: above it, beside it, below it."""

    head: Sequence[Row]
    story: Sequence[Row]
    foot: Sequence[Row]

    def room(self, height: int) -> int:
        """Lines that a window so high leaves to the list; one more says what is out of sight."""
        return max(0, height - len(self.head) - len(self.foot) - 1)


def window_lines(
    frame: Frame,
    bar: BarList,
    head: Sequence[Row],
    told: Told,
    keys: Sequence[tuple[str, str]],
    said: str = "",
    *,
    colours: bool,
) -> list[Line]:
    """The lines of a whole window, the list made to fit the room that is left.

    Parameters
    ----------
    frame : Frame
    bar : BarList
    head : sequence of Row
        What stands over the list.
    told : Told
        Of the line under the bar.
    keys : sequence of (key, label)
    said : str
        A sentence in answer to the last key.
    colours : bool
        Whether the terminal shows any.
    """
    foot = frame.foot(said, told, keys, frame.height - len(head) - len(bar.rows))
    around = Around(head=head, story=told.story, foot=foot)
    bar.fit(around.room(frame.height))
    return lines_of(frame, bar, around, colours=colours)


def lines_of(frame: Frame, bar: BarList, around: Around, *, colours: bool) -> list[Line]:
    """A window's lines from top to bottom.

    Parameters
    ----------
    frame : Frame
    bar : BarList
        The list, made to fit the room there is.
    around : Around
    colours : bool
        Whether the terminal shows any.
    """
    width, beside = frame.width, frame.side_width
    left = frame.list_width

    def body(y: int) -> Line:
        n = bar.top + y
        told, ground = bar.marked_line(n, colours=colours) if n < len(bar.rows) else (BLANK, PAGE)
        listed = Stretch(told.pieces, ground, left)
        if not beside:
            return (listed,)
        return (listed, Stretch(_beside(around.story, y, bar.height).pieces, PAGE, beside + DIVIDER))

    head, below = across(around.head, width), hidden_rule(left, *bar.out_of_sight, bool(beside))
    return [*head, *map(body, range(bar.height)), *across([below, *around.foot], width)][: frame.height]


def _beside(story: Sequence[Row], y: int, height: int) -> Row:
    """A line of what is told beside the list; the last says where there is no room for all."""
    row = story[y] if y < len(story) else Row(())
    if y == height - 1 and len(story) > height:
        row = MORE
    return Row((*DIVIDED, *row.pieces))
