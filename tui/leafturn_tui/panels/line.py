"""A line to type: a note, a date, a word of reason."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

from leafturn_tui.notes import NotUnderstood, dates
from leafturn_tui.panels.base import Panel, keys_row, title_row
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import Piece, Row, paragraph
from leafturn_tui.text.typed_line import TypedLine


class Typing(Panel):
    """Asks for one line.

    Parameters
    ----------
    title : str
        The question.
    take : callable
        Called with the text on Enter. Raises NotUnderstood to keep the panel open with its sentence.
    preview : callable, optional
        What the text so far is understood as; may raise NotUnderstood.
    enter : str
        What Enter does, for the foot.
    """

    def __init__(
        self,
        title: str,
        take: Callable[[str], None],
        *,
        preview: Callable[[str], str] | None = None,
        enter: str = "note it",
        text: str = "",
    ) -> None:
        self.title = title
        self.typed = TypedLine(text, len(text))
        self._take = take
        self._preview = preview
        self._enter = enter
        self._complaint = ""

    def lines(self, width: int, height: int) -> list[Row]:
        """The question, the line, what it is understood as, the keys."""
        said = self._complaint or self._understood()
        shown = paragraph(said, width - 1, indent=3, most=max(0, height - 3)) if said else []
        typed = Row((Piece(" > ", "bar"), *self.typed.pieces(width - 4)))
        return [title_row(self.title), typed, *shown, keys_row(("Enter", self._enter), ("Esc", "leave it"))]

    def _understood(self) -> str:
        if self._preview is None:
            return ""
        try:
            return self._preview(self.typed.text)
        except NotUnderstood as why:
            return str(why) if self.typed.text else ""

    def key(self, name: str, character: str | None) -> bool:
        """Letters are typed, Enter takes the line, Esc leaves it."""
        if name == "escape":
            return False
        if name == "enter":
            try:
                self._take(self.typed.text)
            except NotUnderstood as why:
                self._complaint = str(why)
                return True
            return False
        self._complaint = ""
        self.typed.key(name, character)
        return True

    def paste(self, text: str) -> None:
        """Put pasted text where the cursor is."""
        self._complaint = ""
        self.typed.insert(text)


def date_to_type(title: str, on: dt.date, take: Callable[[dt.date], None], *, enter: str) -> Typing:
    """Ask for a date, which is shown in full while it is typed.

    Parameters
    ----------
    on : date
        The day from which "+7" counts.
    take : callable
        Called with the date on Enter. Raises NotUnderstood to keep the panel open with its sentence.
    """

    def preview(text: str) -> str:
        return phrases.long_day(dates.date(text, on)) if text.strip() else "2027-05-01, 1 May, +7 or 2 weeks"

    return Typing(title, lambda text: take(dates.date(text, on)), preview=preview, enter=enter)
