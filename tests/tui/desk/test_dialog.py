"""The dialog over a page: typing, choosing, asking on, all by Textual's own widgets, made once."""

from __future__ import annotations

import asyncio
import datetime as dt
import time
from collections.abc import Callable, Sequence

import pytest
from fake_almanac import FakeAlmanac
from screens import NAMES, key_event, screen_lines, send, send_keys, settled
from textual import events
from textual.app import App
from textual.widgets import Input, OptionList

from leafturn_tui.app import LeafturnApp
from leafturn_tui.desk.screen import Desk
from leafturn_tui.host import Offer, PanelKey
from leafturn_tui.notes import NotUnderstood
from leafturn_tui.panels.base import Panel
from leafturn_tui.panels.find import Finding, Named
from leafturn_tui.panels.line import Typing
from leafturn_tui.panels.sentences import Sheet
from leafturn_tui.text.layout import Row, piece, row

Step = str | events.Event | Callable[["LeafturnApp"], None]


def after(*steps: Step, size: tuple[int, int] = (80, 24)) -> tuple[object, list[str], FakeAlmanac]:
    """Panel, screen and garden after keys and pastes, typed ahead of each other, and what else is done."""

    async def run() -> tuple[object, list[str], FakeAlmanac]:
        almanac = FakeAlmanac(log=[])
        app = LeafturnApp(almanac, clock=lambda: dt.datetime(2027, 4, 19, 14, 5))
        async with app.run_test(size=size) as pilot:
            given: list[events.Event] = []
            for step in steps:
                if callable(step):
                    await send(app, *given)
                    given.clear()
                    step(app)
                    await settled(pilot)
                else:
                    given.append(step if isinstance(step, events.Event) else key_event(step))
            await send(app, *given)
            await settled(pilot)
            desk: Desk = app.screen  # type: ignore[assignment]
            return desk.panel, screen_lines(app), desk.almanac  # type: ignore[return-value]

    return asyncio.run(run())


def typed(text: str) -> list[str]:
    return [NAMES.get(c, c) for c in text]


def noted(*steps: Step) -> str:
    """The note that is kept after these keys on the line of `n`."""
    return str(after("n", *steps, "enter")[2].log[-1].text)


def ask(panel: Panel) -> Step:
    return lambda app: app.screen.ask(panel)  # type: ignore[attr-defined]


def test_a_line_is_edited_as_lines_are() -> None:
    assert noted(*typed("the slow worm"), "home", "delete", "T", "end", "s") == "The slow worms"
    assert noted(*typed("two words"), "ctrl+w", *typed("toads")) == "two toads"
    assert noted(*typed("one toad"), *["shift+left"] * 4, *typed("newt")) == "one newt"
    assert noted(*typed("by mistake"), "ctrl+u", *typed("meant")) == "meant"
    assert noted(*typed("owl"), "ctrl+a", *typed("tawny ")) == "tawny owl"


def test_keys_typed_ahead_keep_their_order_whatever_they_do() -> None:
    assert noted("a", "c", "left", "b", "end", "d", "backspace", "e") == "abce"


def test_pasted_text_goes_where_the_cursor_is_between_keys_typed_ahead() -> None:
    pasted = events.Paste("two\r\nlines\tand \x1b[31m")
    assert noted(*typed("ab"), "left", pasted, "end", "x") == "atwo  lines and [31mbx"


def test_more_than_fits_is_cut_and_not_refused() -> None:
    assert noted("a", events.Paste("n" * 10_000)) == "a" + "n" * 3999


def test_what_hides_is_shown_as_a_mark_and_kept_as_it_was_typed() -> None:
    _, lines, almanac = after("n", events.Paste("a\u202eb\u200dc"))
    assert any(line == " > a\ufffdb\ufffdc" for line in lines)
    assert not almanac.log
    assert noted(events.Paste("a\u202eb")) == "a\u202eb"


def test_a_long_line_shows_the_end_that_is_typed() -> None:
    _, lines, _ = after("n", *typed("a long way " * 12), *typed("home"))
    assert any(line.endswith(" home") and line.startswith(" > ") for line in lines)


def test_every_panel_is_shown_by_the_same_widgets() -> None:
    """Mounting and styling anew at each opening is what made panels slow."""

    async def run() -> None:
        app: App[None] = LeafturnApp(FakeAlmanac(log=[]))
        async with app.run_test(size=(80, 24)) as pilot:
            await settled(pilot)
            before = list(app.screen.query("*"))
            for key in ("n", "b", "h", "f", "g", "w", "o", "t", "question_mark", "S", "l"):
                await send_keys(app, (key,))
                await settled(pilot)
                assert app.screen.panel is not None  # type: ignore[attr-defined]
                assert list(app.screen.query("*")) == before
                await send_keys(app, ("escape",))
            assert sum(isinstance(w, Input) for w in before) == 1
            assert sum(isinstance(w, OptionList) for w in before) == 1

    asyncio.run(run())


NAMED = [Named(f"tree-{n:02}", "pear" if n % 2 else "plum") for n in range(60)]


def finding(taken: list[str]) -> Finding:
    return Finding("Which tree?", NAMED, taken.append)


def bar(lines: Sequence[str]) -> list[str]:
    """The lines of the panel that carry the bar."""
    return [line.split()[1] for line in lines if line.startswith(" > ")]


@pytest.mark.sweep(each=4)
@pytest.mark.parametrize(
    ("keys", "there"),
    [
        ((), "tree-00"),
        (("down", "down", "up"), "tree-01"),
        (("up",), "tree-59"),
        (("pagedown", "pagedown", "pagedown"), "tree-27"),
        (("pagedown", "pageup"), "tree-00"),
        (("1", "7"), "tree-17"),
        ((*typed("pear"), "down"), "tree-03"),
        (("down", "down", "t"), "tree-00"),
    ],
)
def test_the_bar_of_a_long_list_moves_and_stays_in_sight(keys: tuple[str, ...], there: str) -> None:
    taken: list[str] = []
    _, lines, _ = after(ask(finding(taken)), *keys)
    assert bar(lines) == [there]
    panel, _, _ = after(ask(finding(taken)), *keys, "enter")
    assert taken == [there]
    assert panel is None


def test_where_nothing_is_found_enter_says_so_and_the_panel_stays() -> None:
    panel, lines, _ = after("f", *typed("zz"), "enter")
    assert any("nothing here has these letters" in line for line in lines)
    assert panel is not None  # type: ignore[attr-defined]


def test_what_is_not_understood_keeps_the_panel_until_it_is_put_right() -> None:
    def take(text: str) -> None:
        if text != "12":
            raise NotUnderstood("twelve was asked for")

    _, lines, _ = after(ask(Typing("A dozen?", take)), *typed("1"), "enter")
    assert any("twelve was asked for" in line for line in lines)
    _, lines, _ = after(ask(Typing("A dozen?", take)), *typed("1"), "enter", "2")
    assert not any("twelve" in line for line in lines)
    panel, _, _ = after(ask(Typing("A dozen?", take)), *typed("1"), "enter", "2", "enter")
    assert panel is None  # type: ignore[attr-defined]


def test_esc_steps_back_to_the_panel_before_as_it_was_left() -> None:
    panel, lines, _ = after("h", *typed("co"), "down", "left", "enter", *typed("4 kg"), "escape")
    assert any(line.startswith("   letters: co") for line in lines)
    assert any("Picked: yesterday" in line for line in lines)
    assert bar(lines) == ["2"]
    assert panel is not None  # type: ignore[attr-defined]
    entry = after(
        "h", *typed("co"), "down", "enter", *typed("4"), "escape", "enter", *typed("5 kg"), "enter"
    )[2].log[-1]
    assert (entry.plant, entry.kg) == ("comice-2", 5)
    assert after("h", *typed("co"), "enter", "escape", "escape")[0] is None  # type: ignore[attr-defined]


def test_a_panel_does_not_shrink_while_one_types() -> None:
    def top(lines: Sequence[str]) -> int:
        return next(n for n, line in enumerate(lines) if line.startswith(" Which tree?"))

    assert top(after(ask(finding([])), *typed("17"))[1]) == top(after(ask(finding([])))[1])


def test_sentences_that_do_not_fit_are_scrolled() -> None:
    told = Sheet("Read", [f"sentence {n}" for n in range(40)])
    _, lines, _ = after(ask(told))
    assert any("Down 30 more lines" in line for line in lines)
    _, lines, _ = after(ask(told), "down", "down", "pagedown")
    assert any("sentence 11" in line for line in lines)
    assert not any(line == " sentence 0" for line in lines)
    _, lines, _ = after(ask(told), "end")
    assert any("Up back to the start" in line for line in lines)
    assert any("sentence 39" in line for line in lines)


class Counting(Panel):
    """A key of its own counts, and is no letter here."""

    title = "How many?"
    label = " > "
    enter = "take them"

    def __init__(self) -> None:
        self.count = 0
        self.taken: list[str] = []

    def keys(self) -> tuple[PanelKey, ...]:
        return (PanelKey("p", "one more", self._more), PanelKey("left", "", self._more))

    def _more(self, offer: Offer | None) -> None:
        self.count += 1

    def offers(self, typed: str, width: int) -> Sequence[Offer]:
        words = f"{self.count} of {typed}"
        return [Offer((piece(words),), lambda: self.taken.append(words), key="7")]

    def below(self, typed: str, width: int) -> list[Row]:
        return [row(f" counted {self.count}")]


def test_a_panels_own_keys_come_before_typing_and_it_is_told_anew() -> None:
    panel = Counting()
    _, lines, _ = after(ask(panel), *typed("apple"), "left", size=(60, 20))
    assert " >  3 of ale" not in lines
    assert " > 3 of ale" in lines
    assert " counted 3" in lines
    assert " Enter take them   Esc back   p one more" in lines
    after(ask(panel), "x", "7")
    assert panel.taken == ["3 of x"]


class Faulty(Typing):
    """One whose preview fails."""

    def below(self, typed: str, width: int) -> list[Row]:
        if typed:
            raise RuntimeError("a fault of the panel's own")
        return []


def test_a_fault_while_typing_ends_the_program_and_never_hangs() -> None:
    async def run() -> None:
        app = LeafturnApp(FakeAlmanac(log=[]))
        async with app.run_test() as pilot:
            app.screen.ask(Faulty("What?", lambda text: None))  # type: ignore[attr-defined]
            app.post_message(key_event("x"))
            await settled(pilot)

    began = time.monotonic()
    with pytest.raises(RuntimeError, match="a fault of the panel's own"):
        asyncio.run(asyncio.wait_for(run(), 20))
    assert time.monotonic() - began < 15  # or it was the time limit that ended it
