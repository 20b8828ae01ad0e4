"""What pages and panels have written: notes, and lines of the garden file."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import TYPE_CHECKING

from msgspec.structs import replace

from leafturn.journal.entries import Entry
from leafturn_tui.desk.behind import begin
from leafturn_tui.desk.drawing import Drawing
from leafturn_tui.desk.garden_file import GardenFile
from leafturn_tui.desk.laid import Laid
from leafturn_tui.desk.whole_picture import whole_picture
from leafturn_tui.desk.worker import CameBack, come_back, run_behind
from leafturn_tui.host import PanelFace
from leafturn_tui.notes.far_ahead import far_ahead
from leafturn_tui.pages.noted_lines import offer_lines
from leafturn_tui.panels.choice import YesNo

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace


class Writing(Drawing):
    """The part of the screen that writes. `file` is the garden file, to be changed."""

    file: GardenFile
    _is_renewing = False

    def _look_ahead(self) -> None:
        """Have behind the screen reckoned what keys to come may ask."""
        raise NotImplementedError

    def ask_made(self, make: Callable[[], PanelFace]) -> None:
        """Ask a further question that takes a while to make."""
        raise NotImplementedError

    def behind(self, what: str, work: Callable[[], str], after: Callable[[], None] = lambda: None) -> None:
        """Say what is begun and do it while the screen goes on; `after` it what the work gives is said."""
        self.say(f"{what}; go on meanwhile.")
        run_behind(self, work, after)

    def renew(self) -> None:
        """Have the newest almanac reckoned behind the screen, one at a time, and show it then."""
        newest, frame = self._garden.newest, self._frame
        if newest is self._garden.almanac or self._is_renewing:
            return
        self._is_renewing = True
        laid = Laid(newest, self._stack.tabs, colours=self._laid.colours)

        def work() -> str:
            laid.tabs.wait()
            if frame.page.slow(newest) is None:
                whole_picture(replace(frame, almanac=newest), laid)
            return self._garden.now_known(newest)

        def after() -> None:
            self._is_renewing = False
            if newest is self._garden.newest:
                self._garden.almanac, self._laid = newest, laid
            self._look_ahead()

        begin(partial(come_back, self, work, after))

    def on_came_back(self, message: CameBack) -> None:
        """What was done behind the screen has ended."""
        message.after()
        if message.said:
            self.say(message.said)
        self._show_all()

    def consider(self, entry: Entry) -> None:
        """Keep a note, after asking once if it is doubtful."""
        question = far_ahead(entry.on, self._garden.today) or self.almanac.question_about(entry)
        if question:
            self.ask(YesNo(question, lambda: self.keep(entry)))
        else:
            self.keep(entry)

    def keep(self, entry: Entry, more: Callable[[AlmanacFace], str] = lambda almanac: "") -> None:
        """Write a note and say so; `more` may add to the sentence from what is now known.

        Where the garden file could say so too, its lines are offered.
        """
        self.say(self._garden.keep(entry, more))
        offer_lines(self, entry)

    def keep_all(self, entries: Sequence[Entry], said: str) -> None:
        """Write the notes of one act and say what became of them."""
        self.say(self._garden.keep_all(entries, said))

    def take_back(self, entry: Entry) -> None:
        """Take a note back."""
        self.say(self._garden.take_back(entry))
