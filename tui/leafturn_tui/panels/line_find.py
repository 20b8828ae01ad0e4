"""Finding a line of the page by letters in it: the bar goes along as they are typed."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from leafturn_tui.host import Offer, PanelKey
from leafturn_tui.panels.base import Panel

if TYPE_CHECKING:
    from leafturn_tui.host import Host

FOUND = 14  # cells of which line of how many


class LineFind(Panel):
    """Letters lay the bar on the first line that holds them, Down and Up on others; Enter leaves it there.

    It is no taller than the foot of the page, so that no line is covered.
    """

    enter = "stay there"
    escape = ""

    def __init__(self, desk: Host) -> None:
        self._desk = desk
        self._typed = ""
        self.label = _asked("")

    def keys(self) -> tuple[PanelKey, ...]:
        """Down goes on, Up back."""
        return (
            PanelKey("down", "the next", partial(self._step, 1)),
            PanelKey("up", "before", partial(self._step, -1)),
        )

    def changed(self, typed: str) -> None:
        """The first line that holds what is typed."""
        self._typed = typed.strip()
        self._seek(0)

    def _step(self, steps: int, offer: Offer | None) -> None:
        self._seek(steps)

    def _seek(self, steps: int) -> None:
        which, of = self._desk.seek(self._typed, steps) if self._typed else (0, 0)
        self.label = _asked(f"{which} of {of}" if of else "none" if self._typed else "")


def _asked(found: str) -> str:
    """What is sought, and which of how many lines the bar is on."""
    return f" Which line? {found:<{FOUND}}"
