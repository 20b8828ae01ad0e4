"""Pages lying on each other."""

from __future__ import annotations

from leafturn_tui.desk.stack import PageStack
from leafturn_tui.pages.one_plant import OnePlant
from leafturn_tui.text.layout import row


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
    assert stack.bar(stack.top, 3) == ("", 3)
    stack.shown = stack.top
    stack.leave_bar(row("a line", key="a"), 5)
    assert stack.bar(stack.top, 9) == ("a", 5)
    stack.start_over()
    assert stack.shown is None
    assert stack.bar(stack.top, 2) == ("", 2)


def test_the_bar_of_a_page_stepped_back_from_is_forgotten() -> None:
    stack = PageStack()
    plant = OnePlant("quince")
    stack.open(plant)
    stack.bar(plant, 4)
    stack.back()
    stack.open(plant)
    assert stack.bar(plant, 0) == ("", 0)
