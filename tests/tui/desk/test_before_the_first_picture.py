"""What nobody reads yet is not waited for before the first job stands on the screen."""

from __future__ import annotations

import asyncio
import datetime as dt
import subprocess
import sys

import pytest
from fake_almanac import FakeAlmanac
from screens import screen_text, settled
from tests.samples.places import DEMO
from textual.geometry import Region
from textual.strip import Strip

from leafturn.almanac import open_almanac
from leafturn_tui.almanac_face import AlmanacFace
from leafturn_tui.app import LeafturnApp
from leafturn_tui.desk.kept_picture import Window
from leafturn_tui.desk.page_bar import Tab
from leafturn_tui.desk.stack import PageStack
from leafturn_tui.desk.whole_picture import week_pictures
from leafturn_tui.desk.widgets.whole_window import WholeWindow
from leafturn_tui.pages.round import RoundPage


def test_the_first_job_is_painted_before_the_other_pages_are_asked(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is drawn on a widget is painted when its lines are asked for, not when it is shown them."""
    painted: list[str] = []
    tabs, render_lines = PageStack.tabs, WholeWindow.render_lines
    app = LeafturnApp(FakeAlmanac(), clock=lambda: dt.datetime(2027, 4, 19, 14, 5))

    def asked(stack: PageStack, almanac: AlmanacFace) -> tuple[Tab, ...]:
        painted.append("pages are asked")
        return tabs(stack, almanac)

    def drawn(window: WholeWindow, crop: Region) -> list[Strip]:
        lines = render_lines(window, crop)
        painted.append("\n".join(line.text for line in lines))
        return lines

    monkeypatch.setattr(PageStack, "tabs", asked)
    monkeypatch.setattr(WholeWindow, "render_lines", drawn)

    async def open_pages() -> str:
        async with app.run_test(size=(120, 40)) as pilot:
            await settled(pilot)
            return screen_text(app)

    after = asyncio.run(open_pages())
    first = painted[: painted.index("pages are asked")]
    assert any("!tonight" in picture for picture in first)
    assert not any("•" in picture.split("\n", 1)[0] for picture in first)
    assert "•" in after.split("\n", 1)[0]


def test_the_list_of_the_week_asks_nothing_of_the_season_after() -> None:
    """When a job that is over comes again is told of the line under the bar, for which it is reckoned."""
    almanac, page = open_almanac(DEMO, dt.date(2027, 4, 19)), RoundPage()
    rows = page.rows(almanac, 100)
    assert "after" not in vars(almanac._seasons)
    assert any("The window closed" in row.sentence for row in rows)
    assert "after" in vars(almanac._seasons)


@pytest.mark.long
def test_a_list_stands_before_other_pages_and_keys_are_looked_up() -> None:
    """What draws them and what waits for keys is loaded only when the first job is on the screen."""
    told = subprocess.run(
        [sys.executable, "-c", LIST_FIRST, str(DEMO)], capture_output=True, text=True, check=True
    )
    assert told.stdout.splitlines() == ["False False False", "True True False"]


@pytest.mark.parametrize("window", [(30, 10), (80, 24), (120, 40), (200, 50)])
def test_a_list_that_stands_alone_stays_where_it_is(window: tuple[int, int]) -> None:
    alone, whole = week_pictures(FakeAlmanac(), Window(*window, True))
    assert len(alone.lines) == len(whole.lines) == window[1]
    first, later = (
        ["".join(part.row.text.ljust(part.width) for part in line) for line in picture.lines]
        for picture in (alone, whole)
    )
    upper = [y for y in range(window[1] * 2 // 3) if first[y].strip(" │")]
    assert len(upper) >= 3
    assert [y for y in upper if not later[y].startswith(first[y].rstrip(" │"))] == []


def test_nothing_is_drawn_where_there_is_no_room() -> None:
    assert list(week_pictures(FakeAlmanac(), Window(20, 5, True))) == []


LIST_FIRST = """
import datetime as dt, sys
from leafturn.almanac import open_almanac
from leafturn_tui.desk.kept_picture import Window
from leafturn_tui.desk.whole_picture import week_pictures
almanac = open_almanac(sys.argv[1], dt.date(2027, 4, 19))
for _ in week_pictures(almanac, Window(120, 40, True)):
    looked_up = ("leafturn_tui.pages.larder", "leafturn_tui.desk.keys", "asyncio")
    print(*(name in sys.modules for name in looked_up))
"""
