"""Answers kept by what was asked."""

from __future__ import annotations

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


def test_each_question_is_worked_out_once_for_each_object() -> None:
    asked.clear()
    two = Times(by=2)
    three = replace(two, by=3)
    assert [one.times(n) for one in (two, three) for n in (4, 5, 4)] == [8, 10, 8, 12, 15, 12]
    assert asked == [(2, 4), (2, 5), (3, 4), (3, 5)]


def test_what_it_says_of_itself_is_that_of_the_method() -> None:
    assert Times.times.__doc__ == "The product."
