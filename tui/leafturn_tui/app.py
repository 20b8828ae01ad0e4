"""The Textual application: one desk, the terminal's own colours, nothing else."""

from __future__ import annotations

import asyncio
import datetime as dt
import os
from collections.abc import Callable
from typing import TYPE_CHECKING

from textual import events
from textual.app import App

from leafturn_tui.desk.screen import Desk
from leafturn_tui.text.styles import Look, wants_colour, wished_look

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace


class LeafturnApp(App[None]):
    """Opens the pages of a garden.

    Parameters
    ----------
    almanac : AlmanacFace
        The garden on its day.
    clock : callable
        The time now; the only clock the pages know.
    follow : bool
        Whether the almanac's day is today and is to move on at midnight.
    """

    ENABLE_COMMAND_PALETTE = False

    def __init__(
        self,
        almanac: AlmanacFace,
        *,
        clock: Callable[[], dt.datetime] = dt.datetime.now,
        follow: bool = False,
    ) -> None:
        colour = wants_colour()  # read before Textual takes NO_COLOR away
        super().__init__(ansi_color=True)
        depth = self.console.color_system or "none"
        look = Look(wished_look(os.environ) if colour else "none", depth)
        self._desk = Desk(almanac, clock=clock, follow=follow, look=look)

    async def on_event(self, event: events.Event) -> None:
        """Let one key be answered before the next is read, so that one typed ahead finds its panel."""
        if not isinstance(event, events.Key | events.Paste) or event.is_forwarded:
            await super().on_event(event)
            return
        asked, screen = self.focused or self.screen, self.screen
        with self.batch_update():  # so that all of the answer is laid out and painted at once
            await super().on_event(event)
            answered = asyncio.Event()
            asked.call_later(screen.call_later, answered.set)
            while screen.is_running and not answered.is_set():  # it runs no more if it failed
                await asyncio.sleep(0)
        screen.check_idle()

    def get_default_screen(self) -> Desk:
        """The desk is the only screen."""
        return self._desk
