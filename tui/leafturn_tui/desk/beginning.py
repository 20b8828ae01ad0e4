"""The screen on which a garden begins: questions below, the file that they come to above."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any

from msgspec.structs import replace
from textual import events
from textual.app import ComposeResult
from textual.binding import Binding, BindingsMap

from leafturn.garden.beginning.first_file import Beginning
from leafturn.garden.editing.garden_text import GardenText
from leafturn_tui.desk.dialog import Dialog
from leafturn_tui.desk.frame import LEAST_HEIGHT, LEAST_WIDTH, TOO_SMALL
from leafturn_tui.desk.ready_screen import LEAVE, ReadyScreen
from leafturn_tui.desk.widgets.lines import Lines
from leafturn_tui.host import PanelFace
from leafturn_tui.notes.beginning import (
    first_text,
    library_of,
    next_step,
    steps,
    understood,
    with_plant,
    write_garden,
)
from leafturn_tui.panels.choice import Choice, Option
from leafturn_tui.panels.line import Typing
from leafturn_tui.panels.planting import PLACED, Ground, PlantQuestions
from leafturn_tui.text.layout import BLANK, paragraph, piece, row
from leafturn_tui.text.phrases import count
from leafturn_tui.text.styles import Look

LEAVING = "leave, and write nothing"


class BeginningScreen(ReadyScreen):
    """Asks for a garden; `written` is the folder once its file lies there.

    Parameters
    ----------
    folder : Path
        Where the garden will lie.
    """

    DEFAULT_CSS = "BeginningScreen { layers: page over; background: ansi_default; color: ansi_default; }"

    def __init__(self, folder: Path, look: Look) -> None:
        super().__init__()
        self.written: Path | None = None
        self._folder = folder
        self._steps = steps(folder)
        self._library = library_of(folder)
        self._beginning = Beginning()
        self._text: GardenText | None = None
        self._before: list[GardenText] = []  # the file before each plant
        self._year, self._beside = "", "gate"
        self._head = Lines(look, "head")
        self._dialog = Dialog(look, self._answer)
        self._bindings = BindingsMap([Binding(key, "app.quit", priority=True) for key in LEAVE])

    def compose(self) -> ComposeResult:
        """The file so far, and the dialog over it."""
        yield self._head
        yield self._dialog

    def on_mount(self) -> None:
        """Begin with the first question."""
        self._ask_step(0, Beginning(), self.ask)

    def on_resize(self, event: events.Resize) -> None:
        """Lay everything out anew."""
        self._show()

    # ---- asking --------------------------------------------------------------------------------

    def ask(self, panel: PanelFace) -> None:
        """Ask something, in place of what was asked before."""
        self._dialog.ask(panel)

    def ask_next(self, panel: PanelFace) -> None:
        """Ask on: Esc steps back to the question before."""
        self._dialog.ask_next(panel)

    def _ask_step(self, n: int, beginning: Beginning, ask: Callable[[PanelFace], None]) -> None:
        """Ask question `n`, or go on to the plants after the last."""
        self._beginning = beginning
        n = next_step(self._steps, n, beginning)
        if n == len(self._steps):
            self._text = first_text(beginning, self._folder)
            self._ask_plant()
            return
        step = self._steps[n]

        def take(text: str) -> None:
            again = step.repeats and text.strip()
            self._ask_step(n if again else n + 1, step.take(beginning, text), self.ask_next)

        preview = partial(understood, step, beginning)
        ask(Typing(step.question, take, preview=preview, enter="go on", escape="back"))

    def _ask_plant(self) -> None:
        text = self._text
        if text is None:
            return
        garden = text.reading.garden

        def take(fields: dict[str, Any]) -> None:
            after = with_plant(text, fields)
            self._before.append(text)
            self._text = after
            self._year = str(fields.get("year") or "")
            self._beside = fields["id"] if PLACED & fields.keys() else self._beside
            self._ask_plant()

        said = f"{count(len(garden.plants), 'plant')} so far. Enter on an empty line: that is all."
        ground = Ground(self._library, garden, self._year, self._beside)
        PlantQuestions(self, ground, take).ask(said, enough=self._ask_what_now)

    def _ask_what_now(self) -> None:
        """Write the file, go on, or leave."""
        options = [Option("0", LEAVING, self.app.exit)]
        if self._text is None:
            options.insert(0, Option("1", "go on", partial(self._ask_step, 0, self._beginning, self.ask)))
        else:
            options = [
                Option("1", f"write {self._text.file}", self._write),
                Option("2", "another plant", self._ask_plant),
                *([Option("3", "take the last plant away", self._without_last)] if self._before else []),
                *options,
            ]
        self.ask(Choice("What now?", options))

    def _without_last(self) -> None:
        self._text = self._before.pop()
        self._beside = "gate"
        self._ask_what_now()

    def _write(self) -> None:
        if self._text is not None:
            write_garden(self._text, self._beginning.weather, self._folder)
            self.written = self._folder
            self.app.exit()

    # ---- keys and drawing ------------------------------------------------------------------------

    def _answer(self, act: Callable[[], None], *, page_stays: bool = False) -> None:
        """Do what a key asks. Where nothing is asked any more, ask what is to be done now."""
        act()
        if self._dialog.panel is None and self.written is None:
            self._ask_what_now()
        self._show()

    def _show(self) -> None:
        """The last lines of the file that fit above the dialog."""
        width, height = self.app.size
        if width < LEAST_WIDTH or height < LEAST_HEIGHT:
            self._dialog.lay_out(0, 0)
            self._head.show(paragraph(TOO_SMALL, max(1, width)))
            return
        self._dialog.lay_out(width, height)
        room = height - 2 - int(self._dialog.styles.height.value if self._dialog.styles.height else 0)
        title = row(piece(f" A garden begins in {self._folder}", "question"))
        lines = [line for line in self._lines() if not line.startswith("#")]
        shown = [part for line in lines for part in paragraph(line, width - 1, indent=3)]
        self._head.show([title, BLANK, *shown[max(0, len(shown) - room) :]])

    def _lines(self) -> list[str]:
        if self._text is not None:
            return self._text.data.decode().splitlines()
        if self._beginning.lat is None:
            return ["Enter alone skips a question, Esc steps back; nothing is written before you say so."]
        return replace(self._beginning, weather=Path(self._beginning.weather).name).text().splitlines()
