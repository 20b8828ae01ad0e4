"""What the screen shows: pages as they are laid, and a word in their place until they are."""

from __future__ import annotations

import contextlib
from typing import TYPE_CHECKING

from msgspec.structs import replace

from leafturn_tui.desk import behind
from leafturn_tui.desk.bar_list import BarList
from leafturn_tui.desk.bindings import bindings
from leafturn_tui.desk.frame import TOO_SMALL, Frame, Told
from leafturn_tui.desk.kept_picture import across
from leafturn_tui.desk.keys import common_keys, foot_keys, in_order
from leafturn_tui.desk.laid import Laid
from leafturn_tui.desk.once import Patience
from leafturn_tui.desk.picture import window_lines
from leafturn_tui.desk.ready_screen import ReadyScreen
from leafturn_tui.desk.stack import PageStack
from leafturn_tui.desk.widgets.whole_window import WholeWindow
from leafturn_tui.desk.worker import SlowWork
from leafturn_tui.text.layout import Row, paragraph
from leafturn_tui.text.styles import Look, season_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from leafturn_tui.almanac_face import AlmanacFace
    from leafturn_tui.desk.dialog import Dialog
    from leafturn_tui.desk.open_garden import ShownGarden
    from leafturn_tui.host import PageFace, PanelFace

STILL = "Being reckoned; it comes by itself. Other keys are answered meanwhile."


class Drawing(ReadyScreen):
    """The part of the screen that draws the page on top, with its bar, and what stands round it."""

    _dialog: Dialog

    def __init__(self, garden: ShownGarden, look: Look, *, counts_later: bool) -> None:
        super().__init__()
        self._garden = garden
        self._said = ""
        self._is_drawn = False
        self._is_counted = not counts_later  # what waits on the other pages
        self._stack = PageStack()
        self._tabs = self._stack.names()
        self._laid = Laid(garden.almanac, self._stack.tabs, colours=look.in_colour)
        self._work = SlowWork(self)
        self._look = look
        self._list = BarList()
        self._head: list[Row] = []  # above the list, as it was drawn last
        self._window = WholeWindow(look, painted=self._count if counts_later else None)
        self._common = common_keys()
        self._bindings = bindings(in_order(self.page.keys(), self._common))

    @property
    def page(self) -> PageFace:
        """The page on top."""
        return self._stack.top

    @property
    def current(self) -> Row | None:
        """The line under the bar."""
        return self._list.current

    @property
    def almanac(self) -> AlmanacFace:
        """The garden as it is shown."""
        return self._garden.almanac

    @almanac.setter
    def almanac(self, almanac: AlmanacFace) -> None:
        self._garden.almanac = almanac

    @property
    def _frame(self) -> Frame:
        width, height = self.app.size
        garden = self._garden
        return Frame(
            garden.almanac, self.page, width, height, garden.lost, garden.read_at, shown=self._stack.key
        )

    # ---- what is told and asked ------------------------------------------------------------------

    def say(self, text: str) -> None:
        """Say one sentence in place of the why line, until the next key."""
        self._said = text

    def ask(self, panel: PanelFace) -> None:
        """Lay a panel over the page, in place of one that is there."""
        self._dialog.ask(panel)

    def ask_next(self, panel: PanelFace) -> None:
        """Ask a further question of the same act: Esc steps back to the panel before, as it was left."""
        self._dialog.ask_next(panel)

    # ---- what is reckoned behind the screen ------------------------------------------------------

    def _patience(self, come: Callable[[], None]) -> Patience:
        """How long a key waits for what is asked behind the screen, and what is done when it comes later."""

        def tell() -> None:
            with contextlib.suppress(RuntimeError):  # the program has left meanwhile
                self.call_later(come)

        seconds = self._garden.patience if self._is_drawn else None  # the picture that stands there has them
        return Patience(seconds=seconds, come=tell)

    def _count(self) -> None:
        """Have the other pages asked what waits there, behind the first picture."""
        self.run_worker(self._counted(self._frame, self._laid))

    async def _counted(self, frame: Frame, laid: Laid) -> None:
        await behind.done(lambda: (laid.page(frame).wait(), laid.tabs.wait()))
        self._is_counted = True
        self._show_all()

    # ---- drawing ---------------------------------------------------------------------------------

    def _show_all(self) -> None:
        """Show everything anew."""
        frame = self._frame
        if frame.too_small:
            self._window.show(across(paragraph(TOO_SMALL, max(1, frame.width)), frame.width))
            self._dialog.lay_out(0, 0)
            return
        if self._laid.almanac is not self.almanac:
            self._laid = Laid(self.almanac, self._stack.tabs, colours=self._look.in_colour)
        while self._stack.steps_back and self.page.gone(self.almanac):
            self._stack.back()
        if self._is_counted and self._laid.tabs.is_there(self._patience(self._show_all)):
            self._tabs = self._laid.tabs.wait()
        frame = replace(self._frame, tabs=self._tabs)
        self._look.turn(season_of(self.almanac.on.month, frame.southern))
        self._bindings = bindings(in_order(self.page.keys(), self._common))
        self._lay(frame)
        self._draw(frame)
        self._is_drawn = True
        self._dialog.lay_out(frame.width, frame.height)

    def _lay(self, frame: Frame) -> None:
        page = self.page
        if work := self._work.begin(page, self.almanac):
            self._lay_word([frame.pages(), *frame.over_list()], work.rows(frame.rows_width))
            return
        laid = self._laid.page(frame)
        if not laid.is_there(self._patience(self._show_all)):
            self._lay_word([frame.pages()], paragraph(STILL, frame.rows_width))
            return
        head, rows, start = laid.wait()
        self._head = [frame.pages(), *head]
        if self._stack.shown is page:
            self._leave_bar()
        else:
            self._list.top = 0
        self._list.show(rows, *self._stack.bar(page, start))
        self._stack.shown = page

    def _lay_word(self, head: list[Row], rows: list[Row]) -> None:
        """In place of a page that is not there yet a word on that."""
        self._leave_bar()
        self._head = head
        self._list.show(rows)
        self._stack.shown = None

    def _leave_bar(self) -> None:
        """Remember where the bar of the shown page is."""
        if self._list.at >= 0:
            self._stack.leave_bar(self._list.current, self._list.at)

    def _told(self, frame: Frame, under: Row | None) -> Told:
        """What is told of the line under the bar, or a word in its place."""
        if self._stack.shown is not self.page:
            return Told()
        told = self._laid.told(frame, under)
        if told.is_there(self._patience(self._show_all)):
            return told.wait()
        width = frame.side_width
        return Told(paragraph(STILL, width - 1, "dim", hang=0), "", []) if width else Told([], STILL, [])

    def _draw(self, frame: Frame) -> None:
        """Draw the window with the bar where it is."""
        under = self._list.current
        told = self._told(frame, under)
        keys = foot_keys(frame, self._common, under, steps_back=self._stack.steps_back)
        in_colour = self._look.in_colour
        self._window.show(
            window_lines(frame, self._list, self._head, told, keys, self._said, colours=in_colour)
        )
