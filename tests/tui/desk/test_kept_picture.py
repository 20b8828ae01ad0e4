"""The picture of the week kept for the next start: the same as the screen, and never of other files."""

from __future__ import annotations

import asyncio
import datetime as dt
import subprocess
import sys
import threading
from dataclasses import replace
from pathlib import Path

import pytest
from fake_almanac import FakeAlmanac
from screens import screen_lines, send_keys

from leafturn_tui.app import LeafturnApp, StillOpening
from leafturn_tui.desk.kept_picture import FOLDER, KeptPicture, Stretch, Window, keep, kept
from leafturn_tui.desk.screen import Desk
from leafturn_tui.text.layout import Piece

WINDOW = Window(80, 24, colours=True)
ON = dt.date(2027, 4, 19)
PICTURE = KeptPicture(ON, "spring", ((Stretch((Piece("a job", "*ink"),), "ink on ground", 80),),) * 24)


@pytest.fixture(autouse=True)
def own_cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    return tmp_path / "cache" / FOLDER


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    folder = tmp_path / "garden"
    (folder / "journal").mkdir(parents=True)
    (folder / "garden.toml").write_text("[place]\n", "utf-8")
    keep(PICTURE, WINDOW, folder, [folder, folder / "garden.toml", folder / "journal", folder / "kinds.toml"])
    return folder


def test_what_was_kept_comes_back(garden: Path) -> None:
    assert kept(garden, WINDOW) == PICTURE


def test_a_window_of_another_size_or_without_colour_gets_nothing(garden: Path) -> None:
    for other in (WINDOW._replace(width=81), WINDOW._replace(height=23), WINDOW._replace(colours=False)):
        assert kept(garden, other) is None


@pytest.mark.parametrize("name", ["garden.toml", "kinds.toml", "journal/2027.toml", "second.toml"])
def test_a_file_that_changed_or_came_takes_the_picture_away(garden: Path, name: str) -> None:
    (garden / name).write_text("[place]\nlat = 47\n", "utf-8")
    assert kept(garden, WINDOW) is None


def test_a_spoilt_picture_is_no_picture(garden: Path, own_cache: Path) -> None:
    (file,) = own_cache.iterdir()
    whole = file.read_bytes()
    for end in range(0, len(whole), 97):
        file.write_bytes(whole[:end])
        assert kept(garden, WINDOW) is None
    for data in (b"[]", b'{"version": 1}', b"[" * 100_000, whole.replace(b"a job", b"\x1b[2J.")):
        file.write_bytes(data)
        assert kept(garden, WINDOW) is None


def test_no_byte_of_a_kept_picture_may_be_another(garden: Path, own_cache: Path) -> None:
    """What is kept is painted as it is: text that came in otherwise would reach the terminal raw."""
    (file,) = own_cache.iterdir()
    whole = file.read_bytes()
    for at in range(0, len(whole), 41):
        file.write_bytes(whole[:at] + bytes([whole[at] ^ 1]) + whole[at + 1 :])
        assert kept(garden, WINDOW) is None


def test_where_nothing_can_be_kept_nothing_is_said(garden: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", "/dev/null/cache")
    keep(PICTURE, WINDOW, garden, [garden])
    assert kept(garden, WINDOW) is None


def shown_and_kept(size: tuple[int, int], named: Path, *keys: str) -> tuple[list[str], KeptPicture]:
    """The screen on opening, and what is kept of it on leaving after some keys."""

    async def run() -> list[str]:
        app = LeafturnApp(FakeAlmanac(log=[]), clock=lambda: dt.datetime(2027, 4, 19, 14, 5), named=named)
        async with app.run_test(size=size) as pilot:
            await pilot.pause()
            lines = screen_lines(app)
            await send_keys(app, [*keys, "q"])
            await pilot.pause()
            return lines

    lines = asyncio.run(run())
    picture = kept(named, Window(*size, colours=True)) or kept(named, Window(*size, colours=False))
    assert picture is not None
    return lines, picture


@pytest.mark.parametrize("size", [(80, 24), (120, 40), (200, 50), (45, 16), (60, 14)])
@pytest.mark.parametrize("keys", [(), ("down", "3", "down")])
def test_the_picture_is_what_the_screen_showed(
    size: tuple[int, int], keys: tuple[str, ...], garden: Path
) -> None:
    lines, picture = shown_and_kept(size, garden, *keys)
    drawn = ["".join(part.row.text.ljust(part.width) for part in line).rstrip() for line in picture.lines]
    assert drawn == [line.rstrip() for line in lines]


def opening(on: dt.date, *keys: str) -> tuple[list[str], str, object]:
    """The screen while the garden is read, the page after keys typed meanwhile, and the screen in the end."""

    async def run() -> tuple[list[str], str, object]:
        hold = asyncio.Event()
        loop = asyncio.get_running_loop()

        def read() -> FakeAlmanac:
            asyncio.run_coroutine_threadsafe(hold.wait(), loop).result()
            return replace(FakeAlmanac(log=[]), on=on)

        app = LeafturnApp(StillOpening(PICTURE, on, read))
        async with app.run_test(size=(80, 24)) as pilot:
            await pilot.pause()
            early = screen_lines(app)
            await send_keys(app, keys)
            hold.set()
            while app.is_running and not isinstance(app.screen, Desk):
                await pilot.pause()
            await pilot.pause()
            page = app.screen.page.name if isinstance(app.screen, Desk) else ""
            return early, page, app.return_code

    return asyncio.run(run())


def test_keys_typed_before_the_garden_is_read_are_answered_after() -> None:
    early, page, _ = opening(ON, "3")
    assert early[0].startswith("a job")
    assert page == "Partners"


def test_a_picture_of_another_day_says_so_and_takes_no_keys() -> None:
    early, page, _ = opening(ON + dt.timedelta(1), "3")
    assert "As it stood on 19 Apr; today is being reckoned." in early[-2]
    assert page == "Round"


def test_leaving_does_not_wait_for_the_garden_to_be_read() -> None:
    begun, may_end, ended = threading.Event(), threading.Event(), threading.Event()

    def read() -> FakeAlmanac:
        begun.set()
        may_end.wait(30)
        ended.set()
        return FakeAlmanac(log=[])

    async def run() -> None:
        app = LeafturnApp(StillOpening(PICTURE, ON, read))
        async with app.run_test() as pilot:
            while not begun.is_set():
                await pilot.pause()
            await pilot.press("q")

    asyncio.run(run())
    assert not ended.is_set()
    may_end.set()


def test_a_garden_that_cannot_be_read_after_all_ends_the_pages() -> None:
    async def run() -> Exception | None:
        def read() -> FakeAlmanac:
            raise OSError("gone")

        app = LeafturnApp(StillOpening(PICTURE, ON, read))
        async with app.run_test() as pilot:
            while app.is_running:
                await pilot.pause()
        return app.failed

    assert isinstance(asyncio.run(run()), OSError)


def test_the_first_picture_needs_neither_numpy_nor_the_library() -> None:
    ask = "import leafturn_tui.app, leafturn_tui.commands, sys; print(*sys.modules)"
    loaded = subprocess.run(
        [sys.executable, "-c", ask], capture_output=True, text=True, check=True
    ).stdout.split()
    assert "textual.app" in loaded
    assert not {"numpy", "leafturn.almanac", "leafturn_tui.pages"}.intersection(loaded)
