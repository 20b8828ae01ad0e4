"""Answers kept by what was asked."""

from __future__ import annotations

import gc
import weakref

from msgspec.structs import replace

from leafturn.base.kept import kept
from leafturn.base.value import Value

asked: list[tuple[int, int]] = []


class Times(Value):
    """Multiplies, and says how often it did."""

    by: int

    @kept
    def times(self, number: int) -> int:
        """The product."""
        asked.append((self.by, number))
        return self.by * number


@kept
def plus(times: Times, number: int) -> int:
    """The sum."""
    asked.append((times.by, number))
    return times.by + number


def test_each_question_is_worked_out_once_for_each_object() -> None:
    asked.clear()
    two = Times(by=2)
    three = replace(two, by=3)
    assert [one.times(n) for one in (two, three) for n in (4, 5, 4)] == [8, 10, 8, 12, 15, 12]
    assert asked == [(2, 4), (2, 5), (3, 4), (3, 5)]


def test_what_it_says_of_itself_is_that_of_the_method() -> None:
    assert Times.times.__doc__ == "The product."


def test_a_function_is_asked_once_for_each_thing_and_number() -> None:
    asked.clear()
    two, three = Times(by=2), Times(by=3)
    assert [plus(one, n) for one in (two, three) for n in (4, 5, 4)] == [6, 7, 6, 7, 8, 7]
    assert asked == [(2, 4), (2, 5), (3, 4), (3, 5)]
    assert plus.__doc__ == "The sum."


def test_what_was_asked_of_does_not_outlast_those_who_hold_it() -> None:
    two = Times(by=2)
    two.times(4), plus(two, 4)
    gone = weakref.ref(two)
    del two
    gc.collect()
    assert gone() is None
