"""What keys are bound to on a page."""

from __future__ import annotations

from collections.abc import Iterable

from textual.binding import Binding, BindingsMap

from leafturn_tui.desk.ready_screen import LEAVE
from leafturn_tui.host import Key
from leafturn_tui.pages import DIGITS, pages

MOVES = ("up", "down", "pageup", "pagedown", "home", "end")


def bindings(keys: Iterable[Key]) -> BindingsMap:
    """The keys of a page, those that move the bar, that turn to other pages and that leave.

    Each has priority: it is answered at once, so that a key typed ahead finds what it was meant for.
    """
    own = [
        Binding(k.name, f"press({k.name!r})", k.label, key_display=k.shown, priority=True, tooltip=k.what)
        for k in keys
    ]
    bar = [Binding(name, f"move({name!r})", priority=True) for name in MOVES]
    turn = [Binding(key, f"press({key!r})", priority=True) for key in {*pages(), *DIGITS}]
    return BindingsMap([*own, *bar, *turn, *(Binding(name, "app.quit", priority=True) for name in LEAVE)])
