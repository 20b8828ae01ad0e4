"""A page as it opens, before any key."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from leafturn_tui.desk.bar_list import BarList
from leafturn_tui.desk.frame import Frame, shown_keys
from leafturn_tui.desk.kept_picture import KeptPicture, Window, keep
from leafturn_tui.desk.keys import common_keys, idle, in_order
from leafturn_tui.desk.laid import Laid
from leafturn_tui.desk.picture import Around, lines_of
from leafturn_tui.desk.stack import PageStack
from leafturn_tui.text.styles import season_of

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace


def keep_week(frame: Frame, laid: Laid, named: Path) -> None:
    """Keep the frame's page as it opens, for the next start of the garden that was named so."""
    window = Window(frame.width, frame.height, laid.colours)
    keep_picture(whole_picture(frame, laid), window, frame.almanac, named)


def keep_picture(picture: KeptPicture, window: Window, almanac: AlmanacFace, named: Path) -> None:
    """Keep a picture of an almanac, for the next start of the garden that was named so."""
    keep(picture, window, named, [named, *almanac.rests_on])


def week_picture(almanac: AlmanacFace, window: Window) -> KeptPicture | None:
    """The week before what waits on other pages is counted; None where the window has no room for it."""
    stack = PageStack()
    frame = Frame(almanac, stack.top, window.width, window.height, tabs=stack.names(), shown=stack.key)
    if frame.too_small:
        return None
    return whole_picture(frame, Laid(almanac, stack.tabs, colours=window.colours))


def whole_picture(frame: Frame, laid: Laid) -> KeptPicture:
    """A window with its page as it opens."""
    page, almanac = frame.page, frame.almanac
    head, rows, start = laid.page(frame).wait()
    bar = BarList()
    bar.show(rows, at=start)
    own, common, under = page.keys(), common_keys(), bar.current
    keys = shown_keys(in_order(own, common), False, idle(own, common, under, almanac.garden))
    told = laid.told(frame, under).wait()
    head = [frame.pages(), *head]
    foot = frame.foot("", told, keys, frame.height - len(head) - len(rows))
    around = Around(head=head, story=told.story, foot=foot)
    bar.fit(around.room(frame.height))
    lines = tuple(lines_of(frame, bar, around, colours=laid.colours))
    return KeptPicture(almanac.on, season_of(almanac.on.month, frame.southern), lines)
