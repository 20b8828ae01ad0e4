"""What nobody reads yet is not waited for before the first job stands on the screen."""

from __future__ import annotations

import asyncio
import datetime as dt

import pytest
from fake_almanac import FakeAlmanac
from screens import screen_text, settled
from tests.samples.places import DEMO

from leafturn.almanac import open_almanac
from leafturn_tui.almanac_face import AlmanacFace
from leafturn_tui.app import LeafturnApp
from leafturn_tui.desk.page_bar import Tab
from leafturn_tui.desk.stack import PageStack
from leafturn_tui.pages.round import RoundPage


def test_the_first_job_stands_before_the_other_pages_are_asked(monkeypatch: pytest.MonkeyPatch) -> None:
    pictures: list[str] = []
    tabs = PageStack.tabs
    app = LeafturnApp(FakeAlmanac(), clock=lambda: dt.datetime(2027, 4, 19, 14, 5))

    def seen(stack: PageStack, almanac: AlmanacFace) -> tuple[Tab, ...]:
        pictures.append(screen_text(app))
        return tabs(stack, almanac)

    monkeypatch.setattr(PageStack, "tabs", seen)

    async def open_pages() -> str:
        async with app.run_test(size=(120, 40)) as pilot:
            await settled(pilot)
            return screen_text(app)

    after = asyncio.run(open_pages())
    assert "!tonight" in pictures[0]
    assert "•" not in pictures[0].split("\n", 1)[0]
    assert "•" in after.split("\n", 1)[0]


def test_the_list_of_the_week_asks_nothing_of_the_season_after() -> None:
    """When a job that is over comes again is told of the line under the bar, for which it is reckoned."""
    almanac, page = open_almanac(DEMO, dt.date(2027, 4, 19)), RoundPage()
    rows = page.rows(almanac, 100)
    assert "after" not in vars(almanac._seasons)
    assert any("The window closed" in row.sentence for row in rows)
    assert "after" in vars(almanac._seasons)
