"""What is too wide for a column goes on below it: no note, plant or week of the demo garden is cut."""

from __future__ import annotations

import datetime as dt
from itertools import pairwise
from pathlib import Path

import pytest
from tests.at_the_desk import AtTheDesk

from leafturn_tui.safe_text import ELLIPSIS

ON = dt.date(2027, 4, 19)


@pytest.mark.long
@pytest.mark.parametrize("size", [(80, 24), (120, 40)], ids=["80x24", "120x40"])
@pytest.mark.parametrize("keys", ["9", "0", "7v"])
def test_no_line_of_a_list_is_cut(keys: str, size: tuple[int, int], asked: Path) -> None:
    with AtTheDesk(asked, ON, size=size) as desk:
        desk.press(*keys)
        for _ in range(3):
            listed = [line.partition("│")[0] for line in desk.lines[5:-4]]
            assert not [line for line in listed if ELLIPSIS in line]
            desk.press("pagedown")


def test_the_weeks_in_words_have_heads_and_open_on_this_week(asked: Path) -> None:
    with AtTheDesk(asked, ON) as desk:
        desk.press("7", "v")
        assert desk.lines[4].split("  ")[1].strip() == "week from"
        assert "open for bees" in desk.lines[4]
        (under,) = [line for line in desk.lines if line.startswith(">")]
        assert under.startswith("> 19 Apr")
        assert "v the year" in desk.lines[-1]
        assert "x fill gaps" in desk.lines[-1]


def test_a_note_that_goes_on_below_is_under_the_bar_as_one(asked: Path) -> None:
    with AtTheDesk(asked, ON) as desk:
        desk.press("9")
        under = next(n for n, line in enumerate(desk.lines) if line.startswith(">"))
        assert "said the evening" in desk.lines[under]
        assert "forecast, by steward" in desk.lines[under + 1]
        desk.press("down")
        (under,) = [line for line in desk.lines if line.startswith(">")]
        assert "bay-2: 44 C inside" in under


def test_the_weakest_link_goes_on_below_in_a_tall_window(asked: Path) -> None:
    with AtTheDesk(asked, ON, size=(200, 50)) as desk:
        desk.press("3")
        listed = [line.partition("│ ")[0] for line in desk.lines[6:30]]
        assert not [line for line in listed if ELLIPSIS in line]
        assert any("likely from about" in one and "2035" in two for one, two in pairwise(listed))


def test_what_opens_today_is_told_to_open_any_day_now(asked: Path) -> None:
    with AtTheDesk(asked, ON) as desk:
        desk.press("2")
        assert "about today" not in desk.text
        assert "any day now" in desk.lines[3]
