"""The dialog over a page: Textual's input and option list, made once and filled with what a panel tells."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace  # noqa: TID251 - a binding of Textual
from typing import TYPE_CHECKING, Protocol

from textual.app import ComposeResult
from textual.binding import Binding, BindingsMap
from textual.geometry import Size
from textual.reactive import Reactive
from textual.widget import Widget

from leafturn.base.value import Value
from leafturn_tui.desk.frame import rule
from leafturn_tui.desk.widgets.field import Field
from leafturn_tui.desk.widgets.lines import Lines, Scrolled
from leafturn_tui.desk.widgets.offers import MARK, Offers
from leafturn_tui.host import shown_key
from leafturn_tui.notes import NotUnderstood
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import Piece, Row, paragraph, piece
from leafturn_tui.text.styles import Look

if TYPE_CHECKING:
    from leafturn_tui.host import Offer, PanelFace, PanelKey


class Answer(Protocol):
    """Does what a key asks and draws what may have changed; `page_stays` where that is not the page."""

    def __call__(self, act: Callable[[], None], *, page_stays: bool = ...) -> None:
        """Do it."""
        ...


MOVES = {
    "up": "cursor_up", "down": "cursor_down", "pageup": "page_up", "pagedown": "page_down",
    "home": "first", "end": "last",
}  # fmt: skip
MOST_PICKED = 40  # offers among which those with a key of their own are; there are no more digits and letters
EDITING = ("home", "end")  # moves that the line to type has for itself


class Left(Value, kw_only=False):
    """A panel that a further question was asked from, as it was left."""

    panel: PanelFace
    typed: str
    at: int


class Dialog(Widget, can_focus=True):
    """Asks what a panel asks. It has the focus, or its line has, while there is a panel.

    Parameters
    ----------
    answer : callable
    """

    DEFAULT_CSS = """
    Dialog { layer: over; dock: bottom; layout: vertical; height: 0; background: ansi_default; }
    #typing { layout: horizontal; height: 0; }
    #label { width: 3; height: 1; }
    """

    virtual_size = Reactive(Size(0, 0))  # it asks for no second layout

    def __init__(self, look: Look, answer: Answer) -> None:
        super().__init__(id="panel")
        self.panel: PanelFace | None = None
        self._answer = answer
        self._below: list[Left] = []
        self._most_offers = self._most = 0
        self._complaint = ""
        self._own: dict[str, PanelKey] = {}
        self._room = (0, 0)
        self._title = Lines(look, "title")
        self._label = Lines(look, "label")
        self._field = Field(look, "field", self._typed)
        self._typing = Widget(self._label, self._field, id="typing")
        self._offers = Offers(look, "offers")
        self._told = Scrolled(look, "text")
        self._keys = Lines(look, "keys")

    def watch_has_focus(self, _has_focus: bool) -> None:
        """It looks the same, so that no styles are sought anew."""

    def compose(self) -> ComposeResult:
        """The question, the line to type, what is offered and told, the keys."""
        yield from (self._title, self._typing, self._offers, self._told, self._keys)

    # ---- asking --------------------------------------------------------------------------------

    def ask(self, panel: PanelFace) -> None:
        """Ask what a panel asks, in place of what was asked before."""
        self._below.clear()
        self._begin(panel, panel.first, panel.at)

    def ask_next(self, panel: PanelFace) -> None:
        """Ask on: Esc steps back to the panel before, as it was left."""
        if self.panel is not None:
            self._below.append(Left(self.panel, self._field.value, self._offers.highlighted or 0))
        self._begin(panel, panel.first, panel.at)

    def ask_instead(self, make: Callable[[], PanelFace]) -> None:
        """Ask what was still being made; what is not understood is told below the panel that asked for it."""
        try:
            panel = make()
        except NotUnderstood as why:
            self._step_back()
            self._complaint = str(why)
            self.draw()
        else:
            self._begin(panel, panel.first, panel.at)

    def close(self) -> None:
        """Nothing is asked any more."""
        self._below.clear()
        self.panel = None
        self.styles.height = 0
        self.screen.set_focus(None)

    def _begin(self, panel: PanelFace, typed: str, at: int) -> None:
        self.panel = None  # so that filling the line is not taken for typing
        self._complaint = ""
        self._most_offers = self._most = 0
        self._field.fill(typed)
        if panel.is_offer and typed == panel.first:
            self._field.select_all()
        self.panel = panel
        own = panel.keys()
        self._own = {key.name: key for key in own}
        self._show_offers(at)
        picking = {offer.key for offer in self._offers.offered[:MOST_PICKED] if offer.key}
        self._bindings = self._bound(panel, picking)
        self._field.not_typed = {*self._own, *picking}
        self._label.styles.width = len(panel.label)
        self.screen.set_focus(self._field if panel.label else self, scroll_visible=False)
        self.draw()

    # ---- keys ----------------------------------------------------------------------------------

    def _bound(self, panel: PanelFace, picking: set[str]) -> BindingsMap:
        """The keys of a panel, in the order they stand below it. They come before those of the line."""
        given = {
            name: Binding(name, action, words, key_display=shown_key(name), show=bool(words))
            for name, action, words in (("enter", "take", panel.enter), ("escape", "step_back", panel.escape))
        }
        moves = [key for key in MOVES if not (panel.label and key in EDITING)]
        given |= {key: Binding(key, f"move({key!r})", show=False) for key in moves}
        given |= {key: Binding(key, f"pick({key!r})", show=False) for key in picking}
        given |= {
            name: Binding(
                name, f"own({name!r})", key.label, key_display=shown_key(name), show=bool(key.label)
            )
            for name, key in self._own.items()
        }
        return BindingsMap(replace(b, priority=True) for b in given.values())

    def action_take(self) -> None:
        """Take what is under the bar, else what is typed."""
        if self.panel is None:
            return
        if self.panel.enter:
            self._do(self._act_of(self._offers.current))

    def action_pick(self, key: str) -> None:
        """Lay the bar on the offer that has this key, and take it where the panel does so."""
        at = next((n for n, offer in enumerate(self._offers.offered[:MOST_PICKED]) if offer.key == key), None)
        if self.panel is None or at is None:
            return
        self._offers.highlighted = at
        if self.panel.keys_take:
            self._do(self._act_of(self._offers.current))

    def action_own(self, name: str) -> None:
        """Do what a key of the panel's own does; what is offered is then told anew."""
        key = self._own[name]

        def act() -> None:
            key.act(self._offers.current)
            self._show_offers(self._offers.highlighted or 0)

        self._do(act, closes=key.closes)

    def action_move(self, key: str) -> None:
        """Move the bar; where nothing is offered, scroll what is told."""
        if self._offers.offered:
            if "page" in key and not self._offers.size.height:
                return  # nothing is laid out yet, so there is no page
            getattr(self._offers, f"action_{MOVES[key]}")()
        else:
            self._told.scroll_by(key)
        self.draw()

    def action_step_back(self) -> None:
        """To the panel before, or to the page."""
        self._answer(self._step_back, page_stays=not self._below)

    def _step_back(self) -> None:
        if self._below:
            left = self._below.pop()
            self._begin(left.panel, left.typed, left.at)
        else:
            self.close()

    def _act_of(self, offer: Offer | None) -> Callable[[], None]:
        panel, typed = self.panel, self._field.value
        if offer is not None:
            return offer.act
        return lambda: panel.take(typed) if panel else None

    def _do(self, act: Callable[[], None], *, closes: bool = True) -> None:
        """Do what is asked for; then close, unless that asked on or did not understand."""
        panel = self.panel

        def done() -> None:
            try:
                act()
            except NotUnderstood as why:
                self._complaint = str(why)
            else:
                if closes and self.panel is panel:
                    self.close()
            if self.panel is panel:
                self.draw()

        self._answer(done)

    def _typed(self) -> None:
        """The text on the line has changed."""
        if self.panel is not None:
            self._complaint = ""
            self.panel.changed(self._field.value)
            self._show_offers(0)
            self.draw()

    # ---- drawing -------------------------------------------------------------------------------

    def lay_out(self, width: int, height: int) -> None:
        """Draw for a screen of this size. Without any size nothing is seen, and keys still come here."""
        resized = self._room[0] != width
        self._room = (width, height)
        if resized and self.panel is not None:
            self._show_offers(self._offers.highlighted or 0)
        self.draw()

    def _show_offers(self, at: int) -> None:
        if self.panel is not None:
            self._offers.offer(self.panel.offers(self._field.value, self._room[0] - MARK - 1), at)

    def draw(self) -> None:
        """Draw the panel at the foot of the screen, over at most its lower half."""
        panel = self.panel
        width, height = self._room
        if panel is None or not height:
            self.styles.height = 0
            return
        most = min(max(6, height // 2), height - 5)
        asked = panel.heading()
        title = paragraph(asked, width - 1, "question", indent=1, most=max(1, most - 3)) if asked else []
        told = self._text(panel, width - 1)
        offers, text = self._shares(most - len(title) - bool(panel.label) - 1, len(told))
        self._title.show([rule(width), *title])
        self._label.show([Row((Piece(panel.label, "*accent"),))])
        self._typing.styles.height = int(bool(panel.label))
        self._offers.styles.height = offers
        self._told.show_in(text, told)
        self._keys.show([self._keys_row(len(told) - text)])
        self.styles.height = 1 + len(title) + bool(panel.label) + offers + text + 1

    def _shares(self, room: int, told: int) -> tuple[int, int]:
        """Lines for what is offered and what is told. Neither shrinks meanwhile, so that nothing jumps."""
        offered, room = len(self._offers.offered), max(1, room)
        told = min(told, room - 1 if offered else room)
        self._most_offers = max(self._most_offers, offered)
        offers = min(self._most_offers, room - told) if offered else 0
        self._most = max(min(self._most, room), offers + told)
        return offers, self._most - offers

    def _text(self, panel: PanelFace, width: int) -> list[Row]:
        if self._complaint:
            return paragraph(self._complaint, width, indent=3)
        if (under := self._offers.current) is not None and under.whole:
            return paragraph(under.whole, width, indent=6, hang=0)
        return panel.below(self._field.value, width)

    def _keys_row(self, hidden: int) -> Row:
        """The keys that have a label, and how many lines are out of sight."""
        keys = [(b.key_display or b.key, b.description) for _, b in self._bindings if b.show]
        if hidden > 0 and not self._offers.offered:
            below = max(0, hidden - self._told.out_of_sight[0])
            keys.append(("Down", phrases.count(below, "more line")) if below else ("Up", "back to the start"))
        pieces = [Piece(" ")]
        for n, (name, words) in enumerate(keys):
            pieces += [Piece("   " if n else ""), Piece(name, "key"), piece(f" {words}")]
        return Row(tuple(pieces))
