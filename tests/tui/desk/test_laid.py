"""A page's list is laid once, and is always what the page would tell anew."""

from __future__ import annotations

import asyncio
import threading
from collections.abc import Iterator
from contextlib import contextmanager

import pytest
from fake_almanac import FakeAlmanac
from msgspec.structs import replace
from screens import send_keys, settled

from leafturn_tui.app import LeafturnApp
from leafturn_tui.desk.laid import Laid
from leafturn_tui.desk.screen import Desk
from leafturn_tui.pages import pages
from leafturn_tui.pages.plants import PlantsPage
from leafturn_tui.text.layout import Row


@contextmanager
def counted(monkeypatch: pytest.MonkeyPatch) -> Iterator[list[str]]:
    """The keys of pages that were asked for their list, as often as they were."""
    asked: list[str] = []
    for key, page in pages().items():

        def counting(self, almanac, width, key=key, plain=page.rows) -> list[Row]:  # type: ignore[no-untyped-def]
            asked.append(key)
            return plain(self, almanac, width)

        monkeypatch.setattr(page, "rows", counting)
    yield asked


def test_a_page_that_is_opened_again_lays_no_line(monkeypatch: pytest.MonkeyPatch) -> None:
    async def run() -> list[str]:
        with counted(monkeypatch) as asked:
            app = LeafturnApp(FakeAlmanac(log=[]))
            async with app.run_test(size=(120, 40)) as pilot:
                await send_keys(app, [*pages(), *pages()])
                asked.clear()
                await send_keys(app, [*pages(), "0", "w", "escape", "question_mark", "enter"])
                await settled(pilot)
                return asked

    assert asyncio.run(run()) == []


@pytest.mark.sweep(each=10)
@pytest.mark.parametrize("key", list(pages()))
def test_what_is_shown_is_what_the_page_tells(key: str) -> None:
    """After each of its own keys, and after what is chosen in the panel that the key may open."""

    async def run() -> None:
        app = LeafturnApp(FakeAlmanac(log=[]))
        async with app.run_test(size=(120, 40)) as pilot:
            await send_keys(app, [key])
            desk = app.screen
            assert isinstance(desk, Desk)
            for own in desk.page.every_key():  # type: ignore[attr-defined]
                for pressed in (own, "2", "escape", key, "down", own, key):
                    await send_keys(app, [pressed])
                    await settled(pilot)
                    if not desk.page.slow(desk.almanac):
                        frame = desk._frame
                        told = desk.page.rows(desk.almanac, frame.rows_width)
                        assert list(desk._list.rows) == told, (own, pressed)
                        assert desk._head[1:] == frame.over_list(), (own, pressed)
                        under = desk.current
                        assert desk._told(frame, under) == frame.told(under), (own, pressed)

    asyncio.run(run())


def test_who_asks_while_it_is_laid_waits_and_lays_no_second(monkeypatch: pytest.MonkeyPatch) -> None:
    begun, go_on, times = threading.Event(), threading.Event(), []

    def slowly(self: PlantsPage, almanac: object, width: int) -> list[Row]:
        times.append(width)
        begun.set()
        go_on.wait(30)
        return [Row(())]

    monkeypatch.setattr(PlantsPage, "rows", slowly)

    async def run() -> None:
        app = LeafturnApp(almanac := FakeAlmanac(log=[]))
        async with app.run_test(size=(80, 24)):
            desk = app.screen
            assert isinstance(desk, Desk)
            frame, laid = desk._frame, Laid(almanac, desk._stack.tabs, colours=True)
            frame = replace(frame, page=PlantsPage())
            got: list[object] = []
            both = [threading.Thread(target=lambda: got.append(laid.page(frame).wait())) for _ in range(2)]
            both[0].start()
            begun.wait(30)
            both[1].start()
            go_on.set()
            for one in both:
                one.join(30)
            assert got[0] is got[1]
            assert len(times) == 1

    asyncio.run(run())
