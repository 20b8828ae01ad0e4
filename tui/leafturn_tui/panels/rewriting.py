"""What is to be written into the garden file: shown line by line before it is done."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from leafturn.base.faults import Unreadable
from leafturn.garden.editing.edits import Edit, NotTaken, TooUnusual
from leafturn_tui.host import PanelKey
from leafturn_tui.notes import NotUnderstood
from leafturn_tui.panels.base import Panel
from leafturn_tui.panels.sentences import Sheet
from leafturn_tui.render.parts.edit_lines import edit_lines
from leafturn_tui.text.layout import Column, Row, columns, piece

if TYPE_CHECKING:
    from leafturn_tui.host import Maker


class Rewriting(Panel):
    """Shows the lines of an edit; Enter writes them.

    Parameters
    ----------
    title : str
    edit : Edit
    write : callable
        What Enter does.
    enter : str
        Its words for the foot.
    other : PanelKey, optional
        Another way on.
    """

    escape = "leave it"

    def __init__(
        self,
        title: str,
        edit: Edit,
        write: Callable[[], None],
        *,
        enter: str = "write it",
        other: tuple[PanelKey, ...] = (),
    ) -> None:
        self.title = title
        self.edit = edit
        self.enter = enter
        self._write = write
        self._other = other

    def keys(self) -> tuple[PanelKey, ...]:
        """Other ways on."""
        return self._other

    def below(self, typed: str, width: int) -> list[Row]:
        """The lines, as they will stand in the file."""
        table = [(piece(f"  {what}", "quiet"), piece(text)) for what, text in edit_lines(self.edit)]
        return [Row(line) for line in columns(table, (Column(24), Column()), width)]

    def take(self, typed: str) -> None:
        """Write it."""
        self._write()


def ask_rewrite(desk: Maker, make: Callable[[], Edit], show: Callable[[Edit], Panel]) -> None:
    """Make an edit and show it; where the file is too unusual, show the lines to put in by hand.

    If it cannot be made, the reason is told below the panel that asked for it.
    """

    def panel() -> Panel:
        try:
            return show(make())
        except TooUnusual as why:
            return Sheet(str(why), why.lines)
        except (NotTaken, Unreadable) as why:
            raise NotUnderstood(str(why)) from None

    desk.ask_made(panel)
