"""The one screen: a page, its list and bar, and what lies over it. Every key comes through here."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING

from msgspec.structs import replace
from textual import events
from textual.app import ComposeResult
from textual.reactive import Reactive
from textual.widget import Widget
from textual.worker import Worker, WorkerState

from leafturn_tui.desk.bar_list import steps_of
from leafturn_tui.desk.beforehand import Beforehand
from leafturn_tui.desk.dialog import Dialog
from leafturn_tui.desk.drawing import STILL
from leafturn_tui.desk.garden_file import GardenFile
from leafturn_tui.desk.once import Once
from leafturn_tui.desk.open_garden import ShownGarden
from leafturn_tui.desk.ready_screen import KeysTaken
from leafturn_tui.desk.whole_picture import keep_week
from leafturn_tui.desk.worker import CameFar
from leafturn_tui.desk.writing import Writing
from leafturn_tui.host import Key, PageFace, PanelFace
from leafturn_tui.notes import NotUnderstood
from leafturn_tui.pages import DIGITS, check_keys, pages, which_pages
from leafturn_tui.panels.base import Waiting
from leafturn_tui.text.styles import Look

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace
    from leafturn_tui.desk.frame import Frame


class Desk(Writing):
    """Shows one page of one garden and does what keys ask."""

    DEFAULT_CSS = "Desk { layers: page over; background: ansi_default; color: ansi_default; }"
    focused: Reactive[Widget | None] = Reactive(None, repaint=False)  # nothing looks different

    def __init__(self, garden: ShownGarden, look: Look, *, counts_later: bool = False) -> None:
        super().__init__(garden, look, counts_later=counts_later)
        self.file = GardenFile(garden)
        self._beforehand = Beforehand(self, self._stack.by_key)
        self._dialog = Dialog(look, self._answer)
        self._answered = 0  # keys
        check_keys({key.name: "desk/keys.py" for key in self._common})

    def compose(self) -> ComposeResult:
        """The page, and the dialog over it."""
        yield from (self._window, self._dialog)

    # ---- what pages and panels ask of the desk ----------------------------------------------

    @property
    def newest(self) -> AlmanacFace:
        """The garden with all that was written."""
        return self._garden.newest

    @property
    def today(self) -> dt.date:
        """The day on which notes are written."""
        return self._garden.today

    @property
    def panel(self) -> PanelFace | None:
        """What is asked over the page."""
        return self._dialog.panel

    def ask_made(self, make: Callable[[], PanelFace]) -> None:
        """Ask a further question; in a garden of many plants it is made behind the screen."""
        made, waiting = Once(make), Waiting()

        def come() -> None:
            if self.panel is waiting:
                self._answer(lambda: self._dialog.ask_instead(made.wait))
                self.post_message(KeysTaken())

        if made.is_there(self._patience(come)):
            self.ask_next(made.wait())
        else:
            self.ask_next(waiting)

    def seek(self, letters: str, steps: int) -> tuple[int, int]:
        """Lay the bar on the first line that holds letters, or one on or back; which it is, of how many."""
        found = self._list.seek(letters, steps)
        self._draw(self._frame)
        return found

    def leave(self) -> None:
        """End the program; the week is kept, to be shown at once when the garden is opened next."""
        garden, (key, page) = self._garden, next(iter(pages().items()))
        frame = replace(self._frame, page=self._stack.by_key[key], tabs=self._tabs, shown=key)
        stands = garden.newest is self.almanac and not (garden.lost or frame.too_small)
        if garden.named is not None and stands and self._week_is_reckoned(frame):
            keep_week(replace(frame, page=page()), self._laid, garden.named)
        self.app.exit()

    def _week_is_reckoned(self, frame: Frame) -> bool:
        """Whether it was laid, or what waits on every page is counted; else leaving would wait for it."""
        return self._laid.tabs.is_done or self._laid.page(frame).is_done

    def turn_to(self, key: str) -> None:
        """Go to a page by its key."""
        if key not in pages():
            self.say(f"There is no page {key} here. {which_pages()}")
            return
        self._leave_bar()
        self._work.forget_stopped()
        self._stack.turn_to(key)

    def open(self, page: PageFace) -> None:
        """Lay a page on top; Esc steps back."""
        self._leave_bar()
        self._stack.open(page)

    def start_over(self) -> None:
        """Let the bar of the page on top begin anew."""
        self._stack.start_over()

    def back(self) -> None:
        """Stop slow work that the page waits for; else step back to the page below."""
        work = self._work.waited_for(self.page, self.almanac)
        if work is not None and not work.stopped:
            work.worker.cancel()
        elif not self._stack.back():
            self.say("Nothing to step back to. q leaves.")

    def set_day(self, on: dt.date) -> None:
        """Show everything as on another day."""
        self.say(self._garden.set_day(on))

    # ---- keys ----------------------------------------------------------------------------------

    def takes(self, typed: events.Key | events.Paste) -> bool:
        """What is typed waits for a panel that is still being made; Esc lets that go."""
        escapes = isinstance(typed, events.Key) and typed.key == "escape"
        return super().takes(typed) and (escapes or not isinstance(self.panel, Waiting))

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """A panel takes every key but those that end the program, or turn the page where it only tells;
        a window too small leaves only `q`."""
        if self.panel is not None:
            turns = action == "press" and str(parameters[0]) in DIGITS and self.panel.lets_go
            return turns or action not in ("press", "move")
        return parameters == ("q",) or not self._frame.too_small or action not in ("press", "move")

    def action_move(self, key: str) -> None:
        """Move the bar."""
        self._answer(lambda: self._list.move(steps_of(key, self._list.height)), page_stays=True)

    def action_press(self, name: str) -> None:
        """Do what a key of the page, or else of every page, does; else it turns to a page."""

        def act() -> None:
            if self.panel is not None:
                self._dialog.close()
            own = () if self._work.waited_for(self.page, self.almanac) else self.page.keys()
            if found := next((k for k in (*own, *self._common) if k.name == name), None):
                self._do(found)
            elif name in pages() or name in DIGITS:
                self.turn_to(name)

        self._answer(act)

    def _do(self, key: Key) -> None:
        """Do what a key does; what it asks in a garden of many plants is asked behind the screen first."""
        answered = self._answered

        def come() -> None:
            if answered == self._answered:  # no other key since
                self._answer(partial(key.act, self))

        asks = None if self._garden.patience is None else key.asks
        if asks is None or Once(partial(asks, self)).is_there(self._patience(come)):
            key.act(self)
        else:
            self.say(STILL)

    def on_key(self, event: events.Key) -> None:
        """Keys that nothing is bound to end here."""
        event.stop()
        event.prevent_default()

    def _answer(self, act: Callable[[], None], *, page_stays: bool = False) -> None:
        """Do what a key asks and draw what may have changed; the dialog draws itself."""
        before = (self._garden.state, self._said)
        self._said = ""
        self._answered += 1
        self._garden.look_again(self._patience(self._files_read))
        try:
            act()
        except NotUnderstood as why:  # no panel asked for it, which would stay with what was typed
            self.say(str(why))
        if before != (self._garden.state, self._said) or not (page_stays or self.panel):
            self._show_all()
        elif self.panel is None and not self._frame.too_small:
            self._draw(self._frame)
        self._look_ahead()

    def _files_read(self) -> None:
        """Files that had changed were read again behind the screen."""
        self._garden.look_again(self._patience(self._files_read))
        self._show_all()
        self._look_ahead()

    def _look_ahead(self) -> None:
        """Have behind the screen reckoned what was written, or else what keys to come may ask."""
        if self._garden.is_reading:
            self._garden.look_again(replace(self._patience(self._files_read), seconds=0.0))
        self.renew()
        if not self._is_renewing:
            self._beforehand.key_answered(self._frame, self._laid, self._list.near)

    def on_paste(self, event: events.Paste) -> None:
        """Text pasted where no line is to be typed is not taken for keys."""
        event.stop()
        event.prevent_default()
        if self.panel is None:
            self._said = "Press n first to paste something into a note."
            self._show_all()

    def on_resize(self, event: events.Resize) -> None:
        """Lay everything out anew; panels keep what they hold."""
        self._show_all()
        self._beforehand.key_answered(self._frame, self._laid, self._list.near)

    def on_came_far(self, message: CameFar) -> None:
        """Slow work has come further."""
        self._work.came_far(message.worker, message.done, message.of)
        if self._work.is_of(self.page):
            self._show_all()

    def on_worker_state_changed(self, event: Worker.StateChanged) -> None:
        """Slow work has ended; a slip in it is not hidden."""
        if event.state is WorkerState.ERROR and event.worker.error is not None:
            raise event.worker.error
        if event.worker.is_finished and self._work.is_of(self.page):
            self._show_all()
