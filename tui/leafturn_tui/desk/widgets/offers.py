"""The lines of a panel that may be chosen."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual import events
from textual.css.styles import RulesMap
from textual.geometry import Size
from textual.reactive import Reactive
from textual.strip import Strip
from textual.style import Style as BaseStyle
from textual.visual import RenderOptions, Visual
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from leafturn_tui.desk.widgets.lines import strip_of
from leafturn_tui.host import Offer
from leafturn_tui.text.layout import Piece, Row
from leafturn_tui.text.styles import PAGE, UNDER_BAR, Look

MARK = 3  # cells before each line, for the bar


class OneLine(Visual):
    """What Textual is told of an option: it is one line; the list draws it."""

    def render_strips(
        self, width: int, height: int | None, style: BaseStyle, options: RenderOptions
    ) -> list[Strip]:
        """Nothing of its own."""
        return [Strip.blank(width)]

    def get_optimal_width(self, rules: RulesMap, container_width: int) -> int:
        """All there is."""
        return container_width

    def get_height(self, rules: RulesMap, width: int) -> int:
        """One line."""
        return 1


LINE = OneLine()


class Offers(OptionList, can_focus=False, inherit_css=False):
    """Textual's option list of prepared rows, with a mark on the one under the bar. The dialog moves it."""

    DEFAULT_CSS = """
    Offers {
        height: 0; width: 1fr; overflow: hidden hidden; scrollbar-size: 0 0;
        background: ansi_default; color: ansi_default;
    }
    """

    COMPONENT_CLASSES: ClassVar[set[str]] = OptionList.COMPONENT_CLASSES

    virtual_size = Reactive(Size(0, 0))  # it asks for no second layout

    def __init__(self, look: Look, id: str) -> None:
        super().__init__(id=id, markup=False)
        self.disable_messages(OptionList.OptionHighlighted)  # nobody waits for it
        self._look = look
        self.offered: Sequence[Offer] = ()
        self._as_options: list[Option] = []

    @property
    def current(self) -> Offer | None:
        """The offer under the bar."""
        return None if self.highlighted is None else self.offered[self.highlighted]

    def offer(self, offered: Sequence[Offer], at: int) -> None:
        """Show these, the bar on the one at this place, or the last."""
        self.offered = offered
        self._as_options += [Option(LINE) for _ in range(len(offered) - len(self._as_options))]
        self.set_options(self._as_options[: len(offered)])
        if offered:
            self.highlighted = min(at, len(offered) - 1)

    def on_resize(self, event: events.Resize) -> None:
        """The bar stays on screen; lines are no taller in a narrower window."""
        event.prevent_default()
        self.scroll_to_highlight()

    def render_line(self, y: int) -> Strip:
        """One line of the screen, after its mark."""
        n = self.scroll_offset.y + y
        if n >= len(self.offered):
            return Strip.blank(self.size.width, self._look.page)
        marked = n == self.highlighted
        row = Row((Piece(" > " if marked else "   ", "*accent"), *self.offered[n].pieces))
        return strip_of(row, UNDER_BAR if marked else PAGE, self.size.width, self._look)
