"""In a garden of many plants a change of its file is made and read behind the screen; what is typed waits."""

from __future__ import annotations

import asyncio
import threading
from pathlib import Path

import pytest
from screens import screen_text, send_keys
from test_no_key_waits import DAY, app_of, run, shown
from textual.pilot import Pilot

from leafturn.almanac import open_almanac
from leafturn.assembly import sources
from leafturn.garden.editing.garden_text import GardenText
from leafturn_tui.app import LeafturnApp
from leafturn_tui.desk import open_garden
from leafturn_tui.pages import plant_keys
from leafturn_tui.panels.base import Waiting


@pytest.fixture(autouse=True)
def many_plants(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(open_garden, "AT_ONCE", 0)


@pytest.fixture
def made_behind(monkeypatch: pytest.MonkeyPatch) -> tuple[threading.Event, list[bool]]:
    """Lets changes of the garden file be made; for each whether a key waited for it."""
    go, on_main, read = threading.Event(), [], plant_keys.garden_text

    def reading(path: Path) -> GardenText:
        on_main.append(threading.current_thread() is threading.main_thread())
        assert on_main[-1] or go.wait(20)
        return read(path)

    monkeypatch.setattr(plant_keys, "garden_text", reading)
    return go, on_main


async def year_changed(app: LeafturnApp, year: str) -> None:
    """Type another year of boskoop; the change is being made."""
    await send_keys(app, ["0"])
    await shown(app, "boskoop")
    await send_keys(app, ["e", *"year", "enter", "ctrl+u", *year, "enter"])
    await shown(app, Waiting.title)


@pytest.mark.parametrize(("year", "told"), [("2013", "year = 2013"), ("2012", "Nothing changes")])
def test_a_change_of_the_garden_file_is_made_behind(
    year: str, told: str, garden: Path, made_behind: tuple[threading.Event, list[bool]]
) -> None:
    go, on_main = made_behind

    async def script(app: LeafturnApp, pilot: Pilot[None]) -> None:
        await year_changed(app, year)
        go.set()
        await shown(app, told)
        await send_keys(app, ["escape"])
        assert "of boskoop?" in screen_text(app), "the question before"

    run(script, app_of(garden))
    assert on_main == [False]


def test_keys_typed_while_a_change_is_made_wait_and_act_in_their_order(
    garden: Path, made_behind: tuple[threading.Event, list[bool]]
) -> None:
    go, _ = made_behind

    async def script(app: LeafturnApp, pilot: Pilot[None]) -> None:
        await year_changed(app, "2013")
        await send_keys(app, ["enter", "n", *"owl", "enter"])
        await asyncio.sleep(0.1)
        assert Waiting.title in " ".join(screen_text(app).split())
        go.set()
        await shown(app, "noted: owl")
        assert "year = 2013" in (garden / "garden.toml").read_text(encoding="utf-8")

    run(script, app_of(garden))


def test_esc_lets_a_change_go_that_is_still_made(
    garden: Path, made_behind: tuple[threading.Event, list[bool]]
) -> None:
    go, _ = made_behind

    async def script(app: LeafturnApp, pilot: Pilot[None]) -> None:
        await year_changed(app, "2013")
        await send_keys(app, ["escape"])
        await shown(app, "of boskoop?")
        go.set()

    run(script, app_of(garden))


@pytest.mark.parametrize("keys", [("x", *"hail", "enter", "enter"), ("m", *"3e of gate", "enter")])
def test_a_note_with_a_change_of_the_garden_file_is_written_at_once_and_the_file_read_behind(
    garden: Path, renewed: threading.Event, monkeypatch: pytest.MonkeyPatch, keys: tuple[str, ...]
) -> None:
    on_main: list[bool] = []
    reading = sources.reading_of

    def reading_of(data: bytes, file: Path) -> object:
        on_main.append(threading.current_thread() is threading.main_thread())
        return reading(data, file)

    async def script(app: LeafturnApp, pilot: Pilot[None]) -> None:
        await send_keys(app, ["0"])
        await shown(app, "boskoop")
        monkeypatch.setattr(sources, "reading_of", reading_of)
        await send_keys(app, [*keys, "enter"])
        await shown(app, "written into garden.toml: boskoop")
        assert len(open_almanac(garden, DAY).entries) == 1
        on_main.clear()  # of this reading too
        renewed.set()
        await shown(app, "The week is reckoned anew.")

    run(script, app_of(garden))
    assert not any(on_main)
