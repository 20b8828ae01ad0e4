"""A line to type: a note, a date, a word of reason."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

from leafturn_tui.notes import NotUnderstood, dates
from leafturn_tui.panels.base import Panel
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import Row, paragraph


class Typing(Panel):
    """Asks for one line.

    Parameters
    ----------
    title : str
        The question.
    take : callable
        Called with the text on Enter; may ask on. Raises NotUnderstood to keep the panel open and say why.
    preview : callable, optional
        What the text so far is understood as; may raise NotUnderstood.
    enter, escape : str
        What these keys do, for the foot.
    text : str
        What stands on the line to begin with.
    is_offer : bool
        Whether what is typed replaces that.
    """

    label = " > "

    def __init__(
        self,
        title: str,
        take: Callable[[str], None],
        *,
        preview: Callable[[str], str] | None = None,
        enter: str = "note it",
        escape: str = "leave it",
        text: str = "",
        is_offer: bool = False,
    ) -> None:
        self.title = title
        self.first = text
        self.is_offer = is_offer
        self.enter = enter
        self.escape = escape
        self._take = take
        self._preview = preview

    def below(self, typed: str, width: int) -> list[Row]:
        """What the line is understood as."""
        said = self._understood(typed)
        return paragraph(said, width, indent=3) if said else []

    def _understood(self, typed: str) -> str:
        if self._preview is None:
            return ""
        try:
            return self._preview(typed)
        except NotUnderstood as why:
            return str(why) if typed else ""

    def take(self, typed: str) -> None:
        """What is done with the line."""
        self._take(typed)


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
        return (
            phrases.long_day(dates.date(text, on))
            if text.strip()
            else "2027-05-01, 1 May, Saturday, +7 or 2 weeks"
        )

    return Typing(title, lambda text: take(dates.date(text, on)), preview=preview, enter=enter)
