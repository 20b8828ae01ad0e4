"""Every page as a whole screen, at the sizes people have; see screens.py for how to renew them."""

from __future__ import annotations

import asyncio
import datetime as dt
from collections.abc import Callable, Sequence

import pytest
from every_screen import ALL, DIALOGS, SCREENS
from fake_almanac import FakeAlmanac
from fake_garden import ON
from rich.cells import cell_len
from screens import (
    FOLDER,
    lines_as_stored,
    screen_lines,
    send_keys,
    settled,
    shown_after,
    unreadable,
    words_by_colour,
)

from leafturn.base.faults import Fault
from leafturn_tui.app import LeafturnApp

SIZES = {"80x24": (80, 24), "120x40": (120, 40), "200x50": (200, 50), "60x20": (60, 20), "45x16": (45, 16)}


def clock() -> dt.datetime:
    return dt.datetime(2027, 4, 19, 14, 5)


def after(
    almanac: FakeAlmanac,
    size: tuple[int, int],
    read: Callable[[LeafturnApp], list[str]],
    *keys: Sequence[str],
) -> list[list[str]]:
    """What is read off the screen after these keys, and after those that follow."""

    async def run() -> list[list[str]]:
        app, found = LeafturnApp(almanac, clock=clock), []
        async with app.run_test(size=size) as pilot:
            await settled(pilot)
            for some in keys:
                for key in some:
                    await send_keys(app, [key])
                    await settled(pilot)
                found.append(read(app))
        return found

    return asyncio.run(run())


def show(almanac: FakeAlmanac, size: tuple[int, int], keys: list[str], name: str) -> list[str]:
    (lines,) = after(almanac, size, screen_lines, keys)
    if name:
        lines_as_stored(lines, name)
    return lines


@pytest.mark.sweep(each=5)
@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", SCREENS)
def test_screen(name: str, size: str) -> None:
    if size == "45x16" and name not in ("round", "season-strip", "partners", "bloom"):
        pytest.skip("the narrowest size is kept for the pages that change most in it")
    lines = show(FakeAlmanac(), SIZES[size], SCREENS[name], f"{name}-{size}")
    assert len(lines) == SIZES[size][1]


@pytest.mark.sweep(each=3)
@pytest.mark.parametrize("size", ["80x24", "120x40", "200x50"])
@pytest.mark.parametrize("name", DIALOGS)
def test_dialog(name: str, size: str) -> None:
    """Stored at one size; in wider windows it asks the same over the page, and nothing is too wide."""
    keys = DIALOGS[name]
    opening = 1 if keys[0].isdigit() else 0
    page, lines = after(FakeAlmanac(), SIZES[size], screen_lines, keys[:opening], keys[opening:])
    if size == "80x24":
        lines_as_stored(lines, f"{name}-{size}")
    width, height = SIZES[size]
    assert len(lines) == height
    assert all(cell_len(line) <= width for line in lines)
    asked = [n for n, (one, other) in enumerate(zip(lines, page, strict=True)) if one != other]
    assert asked, "something is asked or said"
    if name != "ask-find-line":  # which moves the bar
        assert asked[0] >= height // 2 - 2, "the upper half of the page stays in sight"


PLAIN = ("round", "season-strip", "partners", "canopy", "canopy-plan", "canopy-side", "larder", "heaps-one")


@pytest.mark.sweep(each=8)
@pytest.mark.parametrize("name", ALL)
def test_colours_say_the_same_in_both_looks_and_can_be_read(
    name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What is told in a colour is stored once for both looks, as `harm: tonight -3`; no word is too faint."""
    monkeypatch.setenv("COLORTERM", "truecolor")
    monkeypatch.setenv("TERM", "xterm-256color")
    said = {}
    for look in ("dark", "light"):
        monkeypatch.setenv("LEAFTURN_LOOK", look)

        def of_look(app: LeafturnApp, look: str = look) -> list[str]:
            assert not unreadable(app, look)
            return words_by_colour(app, look)

        (said[look],) = after(FakeAlmanac(), SIZES["120x40"], of_look, ALL[name])
    assert said["dark"] == said["light"]
    lines_as_stored(said["dark"], f"colours/{name}")


@pytest.mark.sweep(each=16)
@pytest.mark.parametrize("size", ["80x24", "120x40"])
@pytest.mark.parametrize("name", ALL)
def test_every_screen_is_plain_ascii_where_that_is_asked_for(
    name: str, size: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("LEAFTURN_GLYPHS", "plain")
    monkeypatch.setenv("LEAFTURN_LOOK", "dark")
    stored = f"{name}-plain-{size}" if name in PLAIN and size == "80x24" else ""
    lines = show(FakeAlmanac(), SIZES[size], ALL[name], stored)
    assert all(line.isascii() and len(line) <= SIZES[size][0] for line in lines)


@pytest.mark.parametrize("size", ["80x24", "60x20"])
def test_a_long_list_opened_from_a_short_one_shows_its_bar(size: str) -> None:
    lines = show(FakeAlmanac(), SIZES[size], ["7"], "")
    assert sum(line.startswith("> ") for line in lines) == 1


def test_faults_stand_on_top_and_no_more_than_three() -> None:
    faults = tuple(
        Fault(file="garden.toml", line=n, message=f"no plant 'tol-ash{n}'.", hint="Did you mean toll-ash?")
        for n in range(41, 46)
    )
    lines = show(FakeAlmanac(faults=faults), (80, 24), [], "round-faults-80x24")
    assert sum("Did you mean toll-ash?" in line for line in lines) == 3
    assert any("and 2 more: R lists them" in line for line in lines)


@pytest.mark.parametrize("size", [(29, 10), (80, 9), (1, 1)])
def test_too_small_a_window_gets_one_sentence(size: tuple[int, int]) -> None:
    said = " ".join(show(FakeAlmanac(), size, ["w", "b", "2", "space"], ""))
    if size[0] > 20:
        assert "Make the window larger" in said
    assert "hands" not in said


@pytest.mark.parametrize("page", ["1", "2", "3", "9", "0"])
def test_the_foot_holds_the_pages_keys_and_where_all_are_told(page: str) -> None:
    foot = show(FakeAlmanac(), (80, 24), [page], "")[-1]
    assert foot.endswith("? all keys")
    assert "w why" in foot
    told = " ".join(show(FakeAlmanac(), (120, 80), [page, "question_mark"], ""))
    for key in ("b: ", "h: ", "n: ", "u: ", "p: ", "e: ", "o: ", "t: ", "Enter: ", "q: leave"):
        assert key in told


def test_the_why_of_the_job_under_the_bar_is_always_shown() -> None:
    assert any(
        "58 C on 10 Apr and 44 C today" in line for line in show(FakeAlmanac(), (80, 24), ["down"], "")
    )


def test_the_words_to_avoid_are_nowhere() -> None:
    stored = list(FOLDER.glob("*-120x40.txt"))
    assert len(stored) >= len(SCREENS)
    for screen in stored:
        said = screen.read_text(encoding="utf-8").lower()
        for word in ("snooze", "overdue", "mark complete", "backlog", "dashboard", "[x]", "[ ]"):
            assert word not in said, screen.name


def test_the_quiet_of_winter_is_told() -> None:
    quiet = "Nothing is due before 20 Feb: prune the quince."
    lines = show(FakeAlmanac(season_jobs=(), waiting=(), quiet=quiet, on=ON), (80, 24), [], "")
    assert any(quiet in line for line in lines)


@pytest.mark.parametrize("keys", [("9", "v"), ("9", "v", "v"), ("9", "v", "v", "v")])
def test_heads_within_a_list_stand_over_what_they_head(keys: tuple[str, ...]) -> None:
    lines = shown_after(FakeAlmanac(), (120, 40), *keys)
    under = next(n for n, line in enumerate(lines) if line.startswith(("▌", ">")))
    head, line = lines[under - 1], lines[under]
    assert head[:2] == "  "
    assert head[2] != " "
    second = head.index("  ", 2)
    second += len(head[second:]) - len(head[second:].lstrip())
    assert line[second - 2 : second] == "  ", "a second column begins under its head"
