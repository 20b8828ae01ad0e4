"""What is painted, and how often: counts of Textual's own layouts and paints, and of lines drawn anew."""

from __future__ import annotations

import asyncio
from collections import Counter
from typing import Any

import pytest
from fake_almanac import FakeAlmanac
from screens import send_keys, settled
from textual._compositor import Compositor

from leafturn_tui.app import LeafturnApp
from leafturn_tui.desk.widgets import whole_window
from leafturn_tui.pages import pages


@pytest.fixture
def counted(monkeypatch: pytest.MonkeyPatch) -> Counter[str]:
    """How often a window was laid out, painted, and a line of it drawn from its stretches."""
    counts: Counter[str] = Counter()

    def count(owner: Any, name: str, what: str) -> None:
        plain = getattr(owner, name)

        def counting(*given: Any, **named: Any) -> Any:
            counts[what] += 1
            return plain(*given, **named)

        monkeypatch.setattr(owner, name, counting)

    count(Compositor, "reflow", "layouts")
    count(Compositor, "render_update", "paints")
    count(whole_window, "strip_of", "stretches")
    return counts


def after(counted: Counter[str], keys: list[str], size: tuple[int, int] = (120, 40)) -> list[Counter[str]]:
    """What each key cost."""

    async def run() -> list[Counter[str]]:
        app = LeafturnApp(FakeAlmanac(log=[]))
        each = []
        async with app.run_test(size=size) as pilot:
            await settled(pilot)
            for key in keys:
                counted.clear()
                await send_keys(app, [key])
                await settled(pilot)
                each.append(counted.copy())
        return each

    return asyncio.run(run())


@pytest.mark.parametrize("size", [(120, 40), (80, 24)])
def test_a_page_is_opened_without_a_layout_and_painted_once(
    counted: Counter[str], size: tuple[int, int]
) -> None:
    first, *others = pages()
    keys = [*others, first]
    for key, cost in zip(keys, after(counted, keys, size), strict=True):
        assert (cost["layouts"], cost["paints"]) == (0, 1), key


def test_the_bar_draws_the_lines_it_leaves_and_comes_to_and_what_is_told_of_them(
    counted: Counter[str],
) -> None:
    opened, moved = after(counted, ["0", "down"], (80, 24))
    assert opened["stretches"] > 15
    assert moved["stretches"] <= 6  # two lines of two rows at most, and the story below
    assert (moved["layouts"], moved["paints"]) == (0, 1)


def test_a_key_that_changes_nothing_paints_nothing(counted: Counter[str]) -> None:
    (cost,) = after(counted, ["home"])
    assert (cost["stretches"], cost["paints"]) == (0, 0)
