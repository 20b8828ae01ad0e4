"""`/` finds a line of the page: the bar goes along as letters are typed, Down goes on, Enter stays there."""

from __future__ import annotations

import pytest
from fake_almanac import FakeAlmanac
from screens import shown_after

SIZE = (80, 24)


def under_bar(lines: list[str]) -> str:
    return next(line for line in lines if line.startswith(">"))


def test_the_bar_goes_to_the_first_line_that_holds_what_is_typed() -> None:
    first = shown_after(FakeAlmanac(), SIZE, "slash", "q", "u")
    assert "quince" in under_bar(first)
    assert any("Which line? 1 of" in line for line in first)
    none = shown_after(FakeAlmanac(), SIZE, "slash", "q", "u", "x")
    assert "quince" in under_bar(none)
    assert any("Which line? none" in line for line in none)


def test_the_arrows_go_round_the_lines_that_hold_it() -> None:
    typed = ["3", "slash", *"comice"]
    first, second, again = (shown_after(FakeAlmanac(), SIZE, *typed, *["down"] * n) for n in (0, 1, 2))
    assert "comice-1" in under_bar(first)
    assert "comice-2" in under_bar(second)
    assert any("2 of 2" in line for line in second)
    assert under_bar(again) == under_bar(first)
    for back, same in ((["up"], second), (["up", "up"], first), (["down", "up"], first)):
        assert under_bar(shown_after(FakeAlmanac(), SIZE, *typed, *back)) == under_bar(same)


@pytest.mark.parametrize("leave", ["enter", "escape"])
def test_it_stays_there_and_the_keys_are_those_of_the_page_again(leave: str) -> None:
    lines = shown_after(FakeAlmanac(), SIZE, "3", "slash", *"comice-2", leave)
    assert "comice-2" in under_bar(lines)
    assert lines[-1].endswith("? all keys")
    moved = next(
        n for n in range(9) if "comice-2" in under_bar(shown_after(FakeAlmanac(), SIZE, "3", *["down"] * n))
    )
    assert lines[-4:] == shown_after(FakeAlmanac(), SIZE, "3", *["down"] * moved)[-4:], "its story is told"


def test_what_stands_below_a_line_is_found_too_and_case_does_not_matter() -> None:
    assert "turn bay-2" in under_bar(shown_after(FakeAlmanac(), SIZE, "slash", *"BENCH"))


@pytest.mark.parametrize("page", ["1", "3", "6", "8", "9", "0"])
def test_every_list_has_it_in_its_foot(page: str) -> None:
    assert "/ find" in shown_after(FakeAlmanac(), SIZE, page)[-1]


def test_a_line_far_below_comes_into_sight_above_the_question() -> None:
    lines = shown_after(FakeAlmanac(), (80, 14), "8", "slash", *"inspector", "down")
    at = next(n for n, line in enumerate(lines) if line.startswith(">"))
    question = next(n for n, line in enumerate(lines) if "Which line?" in line)
    assert at < question


def test_a_picture_has_no_lines_to_find() -> None:
    said = shown_after(FakeAlmanac(), SIZE, "0", "v", "slash")
    assert any("There is no list here" in line for line in said)
