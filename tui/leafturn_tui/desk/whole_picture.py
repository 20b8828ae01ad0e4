"""A page as it opens, before any key."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec.structs import replace

from leafturn_tui.desk.bar_list import BarList
from leafturn_tui.desk.frame import Frame
from leafturn_tui.desk.kept_picture import KeptPicture, Line, Window, across, keep
from leafturn_tui.desk.laid import Laid
from leafturn_tui.desk.picture import Around, lines_of, window_lines
from leafturn_tui.pages import first_page
from leafturn_tui.text.layout import BLANK, Row
from leafturn_tui.text.styles import season_of

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

FOOT = 5  # lines under a list, left free until what stands there is known; as many as it usually takes


def keep_week(frame: Frame, laid: Laid, named: Path) -> None:
    """Keep the frame's page as it opens, for the next start of the garden that was named so."""
    window = Window(frame.width, frame.height, laid.colours)
    keep_picture(whole_picture(frame, laid), window, frame.almanac, named)


def keep_picture(picture: KeptPicture, window: Window, almanac: AlmanacFace, named: Path) -> None:
    """Keep a picture of an almanac, for the next start of the garden that was named so."""
    keep(picture, window, named, [named, *almanac.rests_on])


def week_pictures(almanac: AlmanacFace, window: Window) -> Iterator[KeptPicture]:
    """The week as more is known of its window: the list alone, then with all that stands round it.

    The modules of other pages and of the keys are loaded between the two. What waits on those pages is not
    counted yet. Nothing where the window has no room.
    """
    page = first_page()()
    frame = Frame(almanac, page, window.width, window.height, shown=page.key)
    if frame.too_small:
        return
    laid = Laid(almanac, lambda _: (), colours=window.colours)
    yield _list_alone(frame, laid)
    from leafturn_tui.desk.stack import PageStack

    yield whole_picture(replace(frame, tabs=PageStack().names()), laid)


def _list_alone(frame: Frame, laid: Laid) -> KeptPicture:
    """A window of which only the page's head and list are known."""
    frame.page.drawn_below = False
    head, bar = _opened(frame, laid)
    frame.page.drawn_below = True
    around = Around(head=[BLANK, *head], story=(), foot=[BLANK] * FOOT)
    bar.fit(around.room(frame.height))
    lines = lines_of(frame, bar, around, colours=laid.colours)
    return _picture(frame, [*lines[: -FOOT - 1], *across([BLANK] * (FOOT + 1), frame.width)])


def whole_picture(frame: Frame, laid: Laid) -> KeptPicture:
    """A window with its page as it opens."""
    from leafturn_tui.desk.keys import common_keys, foot_keys

    head, bar = _opened(frame, laid)
    keys = foot_keys(frame, common_keys(), bar.current, steps_back=False)
    told = laid.told(frame, bar.current).wait()
    lines = window_lines(frame, bar, [frame.pages(), *head], told, keys, colours=laid.colours)
    return _picture(frame, lines)


def _opened(frame: Frame, laid: Laid) -> tuple[list[Row], BarList]:
    """What stands over a page's list, and the list with its bar where it starts."""
    head, rows, start = laid.page(frame).wait()
    bar = BarList()
    bar.show(rows, at=start)
    return head, bar


def _picture(frame: Frame, lines: Iterable[Line]) -> KeptPicture:
    on = frame.almanac.on
    return KeptPicture(on, season_of(on.month, frame.southern), tuple(lines))
