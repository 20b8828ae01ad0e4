"""Pages lying on each other."""

from __future__ import annotations

import pytest

from leafturn_tui.desk.stack import PageStack
from leafturn_tui.pages.one_plant import OnePlant
from leafturn_tui.text.layout import row


def not_asked() -> int:
    pytest.fail("the bar of a page seen before does not begin anew")


def test_the_first_page_lies_below_all_until_another_is_turned_to() -> None:
    stack = PageStack()
    first = stack.top
    assert first.question.asked == "What needs hands this week?"  # type: ignore[attr-defined]
    assert not stack.steps_back
    assert not stack.back()
    plant = OnePlant("quince")
    stack.open(plant)
    assert stack.top is plant
    assert stack.steps_back
    assert stack.back()
    assert stack.top is first


def test_a_page_keeps_what_was_turned_to_on_it() -> None:
    stack = PageStack()
    stack.turn_to("4")
    canopy = stack.top
    stack.open(OnePlant("quince"))
    stack.turn_to("1")
    assert not stack.steps_back
    stack.turn_to("4")
    assert stack.top is canopy


def test_the_bar_of_a_page_rests_where_it_was_left() -> None:
    stack = PageStack()
    assert stack.bar(stack.top, lambda: 3) == ("", 3)
    stack.shown = stack.top
    stack.leave_bar(row("a line", key="a"), 5)
    assert stack.bar(stack.top, not_asked) == ("a", 5)
    stack.start_over()
    assert stack.shown is None
    assert stack.bar(stack.top, lambda: 2) == ("", 2)


def test_the_bar_of_a_page_stepped_back_from_is_forgotten() -> None:
    stack = PageStack()
    plant = OnePlant("quince")
    stack.open(plant)
    stack.bar(plant, lambda: 4)
    stack.back()
    stack.open(plant)
    assert stack.bar(plant, lambda: 0) == ("", 0)
