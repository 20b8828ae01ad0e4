"""The screen on which a garden begins."""

from __future__ import annotations

import asyncio
from pathlib import Path

import pytest
from every_screen import BEGINNING, PLACE, PLANT, typed
from screens import lines_as_stored, screen_lines, send, send_keys, settled
from textual import events

from leafturn.garden.reading.reader import read_garden
from leafturn_tui.app import BeginningApp

FOLDER = Path("weir-meadow")


def after(
    *given: str, size: tuple[int, int] = (80, 24), stored: str = "", paste: str = "", folder: Path = FOLDER
) -> str:
    """The screen after keys, a paste, and one key more if something was pasted."""

    async def run() -> str:
        app = BeginningApp(folder)
        async with app.run_test(size=size) as pilot:
            await send_keys(app, typed(given))
            await settled(pilot)
            if paste:
                await send(app, events.Paste(paste))
                await send_keys(app, ["enter"])
                await settled(pilot)
            if stored:
                lines_as_stored(screen_lines(app), stored)
            return "\n".join(screen_lines(app))

    return asyncio.run(run())


@pytest.mark.sweep(each=4)
@pytest.mark.parametrize("size", [(200, 50), (120, 40), (80, 24), (60, 20)])
def test_the_screen_as_it_is(size: tuple[int, int]) -> None:
    for name, given in BEGINNING.items():
        after(*given, size=size, stored=f"{name}-{size[0]}x{size[1]}")


def test_a_step_back_finds_what_was_typed() -> None:
    back = after("Weir", "enter", "46.9N", "enter", "15.9E", "escape")
    assert "Where does it lie?" in back
    assert "46.9N" in back
    again = after("Weir", "enter", "46.9N", "enter", "escape", "ctrl+u", "42 S 71 W", "enter")
    assert "lat = -42.0" in again
    assert "lon = -71.0" in again


def test_the_region_of_the_place_is_shown_and_may_be_changed() -> None:
    """What Enter alone takes is said beforehand; the file tells what it was taken from."""
    place = ("Weir", "enter", "46.9N 15.9E", "enter")
    asked = after(*place)
    assert "In which country or state?" in asked
    assert "nothing: europe, by its place" in asked
    taken = " ".join(after(*place, "enter").split())
    assert 'region = "europe" # by latitude and longitude; a country or state tells more' in taken
    changed = " ".join(after(*place, "enter", "escape", "Tyrol, Austria", "enter").split())
    assert 'region = "Tyrol, Austria" # decides when birds nest' in changed
    assert "'narnia' is not known here" in " ".join(after(*place, "narnia", "enter").split())
    assert "nothing: none is written" in after("Weir", "enter", "15S 28E", "enter")


def test_a_plant_may_be_taken_away_again() -> None:
    told = after(
        *PLACE, "enter", *PLANT, "haz", "enter", "enter", "enter", "enter", "3e", "enter", "enter", "3"
    )
    assert "hazel" not in told
    assert 'id = "comice"' in told


@pytest.mark.parametrize("size", [(29, 9), (30, 10), (1, 1)])
def test_a_window_too_small_is_said_and_fails_nothing(size: tuple[int, int]) -> None:
    told = after(*PLACE, "enter", *PLANT, size=size)
    assert ("Make the window larger" in " ".join(told.split())) == (size == (29, 9))


def test_what_is_pasted_does_no_harm(tmp_path: Path) -> None:
    hostile = 'Ev\x1b[31mil "[/]\\ \u202e\x00 #'
    told = after(paste=hostile, folder=tmp_path / "w")
    assert "Where does it lie?" in told
    assert "\x1b" not in told
    told = after(*PLACE, "enter", paste=hostile, folder=tmp_path / "w")
    assert "planted?" in told
    assert "\x1b" not in told
    assert not (tmp_path / "w").exists()


def test_the_file_that_is_written_is_read_without_a_fault(tmp_path: Path) -> None:
    after(*PLACE, "Ana 3 light", "enter", "enter", *PLANT, "enter", "1", folder=tmp_path / "w")
    reading = read_garden(tmp_path / "w")
    assert reading.faults == ()
    assert [p.at for p in reading.garden.plants] == ["5 paces north of gate"]
    assert [h.can for h in reading.garden.helpers] == [("light",)]


@pytest.mark.parametrize(
    ("place", "frosts"), [("42 N 20 E", ("April", "October")), ("42 S 20 E", ("October", "April"))]
)
def test_frosts_are_asked_by_days_that_fit_the_hemisphere(place: str, frosts: tuple[str, str]) -> None:
    to_frost = ("enter", place, "enter", "enter", "enter")
    assert f"24 {frosts[0]}; or frost is rare" in after(*to_frost)
    assert f"30 {frosts[1]}; or nothing" in after(*to_frost, f"1 {frosts[0]}", "enter")
