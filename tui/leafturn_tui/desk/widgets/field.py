"""The line to type."""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import replace  # noqa: TID251 - a binding of Textual
from typing import ClassVar

from rich.highlighter import Highlighter
from rich.segment import Segment
from rich.text import Text
from textual import events
from textual.binding import Binding, BindingType
from textual.geometry import Size
from textual.reactive import Reactive
from textual.strip import Strip
from textual.widgets import Input

from leafturn_tui.safe_text import one_mark_each, without_controls
from leafturn_tui.text.styles import NOTHING, Look

LONGEST = 4000


class HiddenMarked(Highlighter):
    """Shows each character that would hide, or be carried out, as one mark."""

    def highlight(self, text: Text) -> None:
        """Put the marks in their places."""
        text.plain = one_mark_each(text.plain)


class Field(Input, inherit_css=False, inherit_bindings=False):
    """Textual's input on one line. Its keys are answered at once, so that keys typed ahead keep their order.

    Parameters
    ----------
    on_typed : callable
        Called when the text has changed.
    """

    DEFAULT_CSS = """
    Field {
        height: 1; width: 1fr; overflow: hidden hidden; scrollbar-size: 0 0;
        background: ansi_default; color: ansi_default;
        & > .input--cursor, & > .input--selection { text-style: reverse; }
    }
    """
    COMPONENT_CLASSES: ClassVar[set[str]] = Input.COMPONENT_CLASSES
    BINDINGS: ClassVar[list[BindingType]] = [
        replace(b, priority=True) for b in Input.BINDINGS if isinstance(b, Binding)
    ]

    virtual_size = Reactive(Size(0, 0))  # it asks for no second layout

    def __init__(self, look: Look, id: str, on_typed: Callable[[], None]) -> None:
        super().__init__(
            id=id, highlighter=HiddenMarked(), select_on_focus=False, max_length=LONGEST, validate_on=()
        )
        self.disable_messages(Input.Changed, Input.Blurred)  # nobody waits for them
        self.cursor_blink = False
        self.not_typed: Collection[str] = ()  # characters that are keys of the panel
        self._look = look
        self._on_typed = on_typed

    def fill(self, text: str) -> None:
        """Put a text on the line, the cursor behind it."""
        self.value = text
        self.cursor_position = len(text)

    def render_line(self, y: int) -> Strip:
        """The line, in ink on the page's ground."""
        page = self._look.page
        return Strip([Segment(s.text, (s.style or NOTHING) + page) for s in super().render_line(y)])

    def check_consume_key(self, key: str, character: str | None) -> bool:
        """Letters are typed, but for those that are keys of the panel."""
        return key not in self.not_typed and super().check_consume_key(key, character)

    def watch_has_focus(self, _has_focus: bool) -> None:
        """It looks the same, so that no styles are sought anew."""

    def watch_value(self, value: str) -> None:
        """The text has changed."""
        self._on_typed()

    def on_paste(self, event: events.Paste) -> None:
        """Put pasted text where the cursor is, as far as there is room; line ends become blanks."""
        event.stop()
        event.prevent_default()
        start, end = sorted(self.selection)
        room = LONGEST - len(self.value) + end - start
        self.replace(without_controls(event.text)[:room], start, end)
