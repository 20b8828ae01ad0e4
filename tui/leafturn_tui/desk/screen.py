"""The one screen: a page, its list and bar, and what lies over it. Every key comes through here."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, TypeVar

from textual import events
from textual.app import ComposeResult
from textual.screen import Screen

from leafturn.base.faults import Unreadable
from leafturn.journal.entries import Entry
from leafturn_tui.desk.frame import TOO_SMALL, Frame, hidden_rule, keys_of
from leafturn_tui.desk.keys import common_keys
from leafturn_tui.desk.widgets.line_list import LineList
from leafturn_tui.desk.widgets.lines import Lines
from leafturn_tui.desk.worker import Reckoning
from leafturn_tui.notes import grammar
from leafturn_tui.pages import pages, which_pages
from leafturn_tui.pages.base import MARGINS, Key, Page
from leafturn_tui.panels.base import Panel
from leafturn_tui.panels.choice import YesNo
from leafturn_tui.text.layout import Row, paragraph
from leafturn_tui.text.phrases import long_day
from leafturn_tui.text.styles import tones

if TYPE_CHECKING:
    from leafturn.almanac import Almanac


Kept = TypeVar("Kept")


class Desk(Screen[None]):
    """Shows one page of one almanac and does what keys ask.

    Parameters
    ----------
    almanac : Almanac
        The garden on its day.
    clock : callable
        The time now, for saying when a file that has gone bad was last read.
    follow : bool
        Whether the day is today's and moves on at midnight.
    colour : bool
        Whether colours may be used.
    """

    DEFAULT_CSS = """
    Desk { layers: page over; background: ansi_default; color: ansi_default; }
    #panel { layer: over; dock: bottom; background: ansi_default; }
    """

    def __init__(
        self, almanac: Almanac, *, clock: Callable[[], dt.datetime], follow: bool, colour: bool
    ) -> None:
        super().__init__()
        self.almanac = almanac
        self.panel: Panel | None = None
        self._clock = clock
        self._follow = follow
        self._read_at = clock()
        self._shown: Page | None = None
        self._lost = ""
        self._said = ""
        first = next(iter(pages().values()))()
        self._by_digit: dict[str, Page] = {first.digit: first}
        self._stack: list[Page] = [first]
        self._bars: dict[int, tuple[str, int]] = {}
        self._reckoning: Reckoning | None = None
        look = tones(colour)
        self._head = Lines(look, "head")
        self._list = LineList(look, "list", self._show_rule)
        self._rule = Lines(look, "rule")
        self._foot = Lines(look, "foot")
        self._panel = Lines(look, "panel")
        self._common = common_keys()

    def on_mount(self) -> None:
        """Look now and then how far slow work has come."""
        self._watch = self.set_interval(0.1, self._look_at_work, pause=True)

    def compose(self) -> ComposeResult:
        """Head, list, foot, and the panel over them."""
        yield self._head
        yield self._list
        yield self._rule
        yield self._foot
        yield self._panel

    # ---- what pages and panels ask of the desk ----------------------------------------------

    @property
    def page(self) -> Page:
        """The page on top."""
        return self._stack[-1]

    @property
    def current(self) -> Row | None:
        """The line under the bar."""
        return self._list.current

    def say(self, text: str) -> None:
        """Say one sentence in place of the why line, until the next key."""
        self._said = text

    def ask(self, panel: Panel) -> None:
        """Lay a panel over the page."""
        self.panel = panel

    def turn_to(self, digit: str) -> None:
        """Go to a page by its digit."""
        if digit not in pages():
            self.say(f"There is no page {digit} here. {which_pages()}")
            return
        if digit not in self._by_digit:
            self._by_digit[digit] = pages()[digit]()
        self._leave_bar()
        if self._reckoning is not None and self._reckoning.stopped:
            self._reckoning = None
        self._stack = [self._by_digit[digit]]

    def open(self, page: Page) -> None:
        """Lay a page on top; Esc steps back."""
        self._leave_bar()
        self._stack.append(page)

    def start_over(self) -> None:
        """Let the bar of the page on top begin anew."""
        self._bars.pop(id(self.page), None)
        self._shown = None

    def back(self) -> None:
        """Stop slow work that the page waits for; else step back to the page below."""
        if self.waiting and self._reckoning is not None and not self._reckoning.stopped:
            self._reckoning.stop()
        elif len(self._stack) > 1:
            self._bars.pop(id(self._stack.pop()), None)
        else:
            self.say("Nothing to step back to. q leaves.")

    def set_day(self, on: dt.date) -> None:
        """Show everything as on another day."""
        self._follow = False
        self.almanac = self.almanac.at(on)
        self.say(f"Everything is shown as on {long_day(on)}; what is noted now gets that day.")

    def consider(self, entry: Entry) -> None:
        """Keep a note, after asking once if it is doubtful."""
        doubt = self.almanac.doubt(entry)
        if doubt:
            self.ask(YesNo(doubt, lambda: self.keep(entry)))
        else:
            self.keep(entry)

    def keep(self, entry: Entry, more: Callable[[Almanac], str] = lambda almanac: "") -> None:
        """Write a note and say so; `more` may add to the sentence from what is now known."""
        kept = self._write(lambda: self.almanac.note(entry, self.almanac.on))
        if kept is not None:
            self.say(f"noted: {grammar.told(kept, self.almanac.on)}{more(self.almanac)}")

    def keep_all(self, entries: Sequence[Entry], said: str) -> None:
        """Write the notes of one act and say what became of them."""
        if self._write(lambda: self.almanac.note_many(entries, self.almanac.on)) is not None:
            self.say(said)

    def take_back(self, entry: Entry) -> None:
        """Take a note back."""
        if self._write(lambda: self.almanac.take_back(entry.id, self.almanac.on)) is not None:
            self.say(f"taken back: {grammar.told(entry, self.almanac.on)}")

    def _write(self, write: Callable[[], tuple[Almanac, Kept]]) -> Kept | None:
        """Let the almanac write; what was kept, or None after saying why not."""
        if self.almanac.read_only:
            self.say("Nothing is noted: the journal cannot be written (leafturn check says why).")
            return None
        try:
            self.almanac, kept = write()
        except Unreadable as why:
            self.say(f"Not noted: {why}")
        except OSError as why:
            self.say(f"Not noted: the journal could not be written ({why.strerror or why}).")
        else:
            self._lost, self._read_at = "", self._clock()
            return kept
        return None

    # ---- keys ----------------------------------------------------------------------------------

    def on_key(self, event: events.Key) -> None:
        """Everything a key can do."""
        event.stop()
        event.prevent_default()
        if event.key in ("ctrl+c", "ctrl+q", "ctrl+d"):
            self.app.exit()
            return
        before = (self.almanac, self._lost, self.panel, self._said)
        self._said = ""
        self._look_again()
        moved = self._do(event.key, event.character)
        if (self.almanac, self._lost, self.panel, self._said) == before and (moved or self.panel):
            self._show_part()
        else:
            self._show_all()

    def on_paste(self, event: events.Paste) -> None:
        """Pasted text goes to the panel; without one it is not taken for keys."""
        event.stop()
        event.prevent_default()
        if self.panel is not None:
            self.panel.paste(event.text)
        else:
            self._said = "Press n first to paste something into a note."
        self._show_all()

    def on_resize(self, event: events.Resize) -> None:
        """Lay everything out anew; panels keep what they hold."""
        self._show_all()

    def _do(self, key: str, character: str | None) -> bool:
        """Do what a key asks; tell whether it only moved the bar."""
        panel, steps = self.panel, self._moves(key)
        if panel is not None:
            if not panel.key(key, character) and self.panel is panel:
                self.panel = None
        elif self._frame.too_small and key != "q":
            pass
        elif steps:
            self._list.move(steps)
            return True
        elif found := next((k for k in (*self._own_keys(), *self._common) if key == k.name), None):
            found.act(self)
        elif key in "0123456789":
            self.turn_to(key)
        return False

    def _own_keys(self) -> tuple[Key, ...]:
        """The page's own keys; none while it waits for its work."""
        return () if self.waiting else self.page.keys()

    def _moves(self, key: str) -> int:
        page = self._list.page
        return {
            "up": -1, "down": 1, "pageup": -page, "pagedown": page, "home": -(10**7), "end": 10**7,
        }.get(key, 0)  # fmt: skip

    def _look_again(self) -> None:
        """Read the files again if they changed, and let the day move on."""
        today = self._clock().date()
        if self._follow and today != self.almanac.on:
            self.almanac = self.almanac.at(today)
        try:
            if self._lost or self.almanac.stale():
                self.almanac = self.almanac.reread()
                self._lost, self._read_at = "", self._clock()
        except Unreadable as why:
            self._lost = why.fault.sentence()
        except OSError as why:
            self._lost = f"{self.almanac.file.name}: {why.strerror or why}"

    # ---- drawing -------------------------------------------------------------------------------

    @property
    def _frame(self) -> Frame:
        width, height = self.app.size
        return Frame(self.almanac, self.page, width, height, self._lost, self._read_at)

    def _show_all(self) -> None:
        frame = self._frame
        if frame.too_small:
            self._head.show(paragraph(TOO_SMALL, max(1, frame.width)))
            for lines in (self._rule, self._foot, self._panel):
                lines.show([])
            self._list.display = False
            return
        self._list.display = True
        while len(self._stack) > 1 and self.page.gone(self.almanac):
            self.back()
        frame = self._frame
        self._show_list(frame.width)
        self._head.show(frame.head())
        self._show_rule()
        self._show_foot(frame)
        self._panel.show(frame.over(self.panel) if self.panel else [])

    def _show_part(self) -> None:
        """After a key that moved the bar or was the panel's: nothing else can have changed."""
        frame = self._frame
        if frame.too_small:
            return
        if self.panel is None:
            self._show_foot(frame)
        else:
            self._panel.show(frame.over(self.panel))

    # ---- slow work -----------------------------------------------------------------------------

    @property
    def waiting(self) -> bool:
        """Whether the page on top waits for slow work, or for having it begun again."""
        work, slow = self._reckoning, self.page.slow(self.almanac)
        return slow is not None and work is not None and work.fits(self.page, self.almanac, slow.what)

    def _begin_work(self) -> None:
        """Begin what the page on top waits for, unless it is begun; work for another almanac is let go."""
        slow = self.page.slow(self.almanac)
        if slow is None or self.waiting:
            return
        if self._reckoning is not None:
            self._reckoning.stop()
        self._reckoning = Reckoning(self.page, self.almanac, slow)
        self._reckoning.start()
        self._watch.resume()

    def _look_at_work(self) -> None:
        work = self._reckoning
        if work is None or not work.running:
            self._watch.pause()
        if work is not None and work.failure is not None:
            raise work.failure
        if work is not None and work.page is self.page:
            self._show_all()

    def _show_list(self, width: int) -> None:
        page = self.page
        self._begin_work()
        if self.waiting and self._reckoning is not None:
            self._list.show(self._reckoning.rows(width - MARGINS))
            self._shown = None
            return
        rows = page.rows(self.almanac, width - MARGINS)
        if id(page) not in self._bars:
            self._bars[id(page)] = ("", page.start(self.almanac, rows))
        elif self._shown is page:
            self._leave_bar()
        key, at = self._bars[id(page)]
        self._list.show(rows, key, at)
        self._shown = page

    def _leave_bar(self) -> None:
        """Remember where the bar of the shown page is."""
        if self._shown is not None and self._list.at >= 0:
            row = self._list.current
            self._bars[id(self._shown)] = (row.key if row else "", self._list.at)

    def _show_rule(self) -> None:
        if not self._frame.too_small:
            self._rule.show([hidden_rule(self.app.size.width, *self._list.unseen)])

    def _show_foot(self, frame: Frame) -> None:
        under = self._list.current
        steps_back = len(self._stack) > 1
        keys = keys_of(self.page, self._common, steps_back=steps_back, width=frame.width)
        self._foot.show(frame.foot(self._said or (under.why if under else ""), keys))
