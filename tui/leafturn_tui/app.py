"""The Textual application: the desk, and before it is ready the picture that was kept of it."""

from __future__ import annotations

import asyncio
import contextlib
import datetime as dt
import os
import select
import signal
import sys
from collections import deque
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, ClassVar, NamedTuple

from textual import events
from textual.app import App
from textual.binding import Binding, BindingType
from textual.driver import Driver
from textual.screen import Screen

from leafturn_tui.desk import behind, turns
from leafturn_tui.desk.drivers import AtOnce, OverPicture
from leafturn_tui.desk.first_screen import FirstScreen
from leafturn_tui.desk.hushed import Attributes, give_back
from leafturn_tui.desk.kept_picture import KeptPicture
from leafturn_tui.desk.ready_screen import ReadyScreen
from leafturn_tui.text.styles import Look, draws_plain, look_name

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace


GONE_FOR_S = 2.0  # so often is looked whether there still is a terminal


class StillOpening(NamedTuple):
    """A garden that is read while its kept picture is on the screen.

    Parameters
    ----------
    picture : KeptPicture
    on : date
        The day that is asked for.
    open : callable
        Reads the garden; called in a thread of its own. What it raises ends the pages.
    """

    picture: KeptPicture
    on: dt.date
    open: Callable[[], AlmanacFace]


class KeyByKey(App[None]):
    """Draws with the terminal's own colours, and answers one key before it reads the next.

    Ended, stopped or continued from outside, it gives the terminal back as it was, and takes it anew. Textual
    takes it twice where the program is continued that was not stopped by Ctrl-Z (`timeout` and a debugger do
    so), and then gives it back raw; so both signals are answered here.
    """

    ENABLE_COMMAND_PALETTE = False
    BINDINGS: ClassVar[list[BindingType]] = [Binding("ctrl+z", "suspend_process", show=False, priority=True)]

    def __init__(self, driver: type[Driver] = AtOnce, terminal: Attributes | None = None) -> None:
        self._terminal = terminal  # as it was before keys waited in it; None where they never did
        self._terminal_is_back = False  # stopped, the terminal given to whoever started the program
        self._typed: deque[events.Key | events.Paste] = deque()  # and not answered yet
        name = look_name()  # read before Textual takes NO_COLOR away
        super().__init__(driver_class=driver, ansi_color=True)
        depth = self.console.color_system or "none"
        self._look = Look(name, depth, plain=draws_plain())

    def show(self) -> None:
        """Run until it is left. The terminal's own selecting and copying stays as it is."""
        turns.run(self.run_async(mouse=False))

    def on_mount(self) -> None:
        """Answer the signals that end, stop and continue a program."""
        answers = {signal.SIGTERM: self._end_with, signal.SIGHUP: self._end_with} | (
            {signal.SIGTSTP: self._stop, signal.SIGCONT: self._go_on} if not self.is_headless else {}
        )
        for one, answer in answers.items():
            with contextlib.suppress(NotImplementedError, RuntimeError, ValueError):  # not the main thread
                asyncio.get_running_loop().add_signal_handler(one, answer, 128 + one)
        if not self.is_headless:
            self.set_interval(GONE_FOR_S, self._end_if_terminal_has_gone)

    def _end_if_terminal_has_gone(self) -> None:
        """End also where no signal tells that, as under `nohup`: else the terminal's end is read for ever."""
        watched = select.poll()
        watched.register(sys.stdin, 0)  # of hanging up it tells though it is asked nothing
        if watched.poll(0):
            self._end_with(128 + signal.SIGHUP)

    def _end_with(self, status: int) -> None:
        self.exit(return_code=status)

    def _stop(self, status: int) -> None:
        self._give_terminal_back()
        os.kill(os.getpid(), signal.SIGSTOP)

    def _give_terminal_back(self) -> None:
        if self._driver is not None and not self._terminal_is_back:
            self._driver.suspend_application_mode()
            if self._terminal is not None:
                give_back(self._terminal)
            self._terminal_is_back = True

    def _go_on(self, status: int) -> None:
        if self._driver is None or self._exit:
            return
        self._give_terminal_back()
        if os.tcgetpgrp(sys.stdin.fileno()) != os.getpgrp():  # continued behind the shell: it may not draw
            os.kill(os.getpid(), signal.SIGSTOP)
            return
        self._terminal_is_back = False
        self._driver.resume_application_mode()
        self.refresh(layout=True)

    def on_resize(self, event: events.Resize) -> None:
        """Paint all anew where the window was dragged away and back, for which Textual sees no need."""
        if event.size == self.size:
            self.refresh()

    async def on_event(self, event: events.Event) -> None:
        """Let one key be answered before the next is read, so that one typed ahead finds its panel."""
        if not isinstance(event, events.Key | events.Paste) or event.is_forwarded:
            await super().on_event(event)
            return
        if isinstance(event, events.Key) and event.key == "ctrl+j":
            event = events.Key("enter", "\r")  # so comes one typed before the program had the terminal
        if _of(self.screen).leaves(event):
            self._typed.clear()
        self._typed.append(event)
        await self.on_keys_taken()

    async def on_keys_taken(self) -> None:
        """Answer what was typed, in its order, as far as the screen takes it now."""
        while self._typed and _of(self.screen).takes(self._typed[0]):
            await self._answer(self._typed.popleft())

    async def _answer(self, event: events.Key | events.Paste) -> None:
        asked, screen = self.focused or self.screen, self.screen
        with self.batch_update():  # so that all of the answer is laid out and painted at once
            await super().on_event(event)
            answered = asyncio.Event()
            asked.call_later(screen.call_later, answered.set)
            # What failed runs no more, be it the screen or what has the focus.
            while screen.is_running and asked.is_running and not answered.is_set():
                await asyncio.sleep(0)
        screen.check_idle()


def _of(screen: Screen[object]) -> ReadyScreen:
    """A screen, of which all are of one kind here."""
    assert isinstance(screen, ReadyScreen)
    return screen


class BeginningApp(KeyByKey):
    """Asks for a garden that is to lie in `folder`; tells whether it was written."""

    def __init__(self, folder: Path, terminal: Attributes | None = None) -> None:
        from leafturn_tui.desk.beginning import BeginningScreen

        super().__init__(OverPicture, terminal)
        self._screen = BeginningScreen(folder, self._look)

    @property
    def written(self) -> bool:
        """Whether there is a garden file now."""
        return self._screen.written is not None

    def get_default_screen(self) -> Screen[None]:
        """The questions."""
        return self._screen


class LeafturnApp(KeyByKey):
    """Opens the pages of a garden, over the picture that `desk/straight.py` has painted.

    Parameters
    ----------
    garden : AlmanacFace or StillOpening
        The garden on its day, or what stands for it until it is read.
    clock : callable
        The time now; the only clock the pages know.
    follow : bool
        Whether the almanac's day is today and is to move on at midnight.
    named : Path or None
        How the garden was named, under which its picture is kept; None keeps none.
    terminal : Attributes or None
        Of the terminal before keys waited in it.
    """

    def __init__(
        self,
        garden: AlmanacFace | StillOpening,
        *,
        clock: Callable[[], dt.datetime] = dt.datetime.now,
        follow: bool = False,
        named: Path | None = None,
        terminal: Attributes | None = None,
    ) -> None:
        super().__init__(OverPicture, terminal)
        self._garden, self._clock, self._follow, self._named = garden, clock, follow, named
        self.failed: Exception | None = None  # why the garden could not be opened

    def get_default_screen(self) -> Screen[None]:
        """The desk, or until there is one the kept picture."""
        if isinstance(self._garden, StillOpening):
            return FirstScreen(self._garden.picture, self._garden.on, self._look)
        return self._desk(self._garden, counts_later=True)

    def on_mount(self) -> None:
        """Begin to read once the picture is painted."""
        if isinstance(self._garden, StillOpening):
            read = self._garden.open
            self.call_after_refresh(lambda: self.run_worker(self._read(read)))

    async def _read(self, read: Callable[[], AlmanacFace]) -> None:
        """Read the garden, and lay the desk over the picture."""
        try:
            almanac = await behind.done(read)
        except Exception as why:
            self.failed = why
            self.exit()
            return
        await self.push_screen(self._desk(almanac))

    def _desk(self, almanac: AlmanacFace, *, counts_later: bool = False) -> Screen[None]:
        from leafturn_tui.desk.open_garden import ShownGarden
        from leafturn_tui.desk.screen import Desk

        garden = ShownGarden(almanac, self._clock, follow=self._follow, named=self._named)
        return Desk(garden, self._look, counts_later=counts_later)
