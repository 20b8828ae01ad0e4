"""The Partners page on the demo garden: fixes, answers, years ahead, and the strip of days."""

from __future__ import annotations

import asyncio
import datetime as dt
import shutil
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from screens import screen_lines, send_keys, settled
from tests.in_process import opened
from tests.samples.garden_text import garden_text, plant
from tests.samples.journal import toml_entries
from tests.samples.places import DEMO

from leafturn.almanac import open_almanac
from leafturn.partners.bloom_overlap.partner_days import DayRow, PartnerDays
from leafturn_tui.app import LeafturnApp
from leafturn_tui.charts.heights import BLOCKS
from leafturn_tui.charts.tree_days import day_rows
from leafturn_tui.charts.years_ahead import step, tenths

ON = dt.date(2027, 4, 19)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A copy of the demo to note in."""
    return Path(shutil.copytree(DEMO, tmp_path / "garden"))


@pytest.fixture(scope="module")
def looked_at(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of the demo that nothing is noted in."""
    return Path(shutil.copytree(DEMO, tmp_path_factory.mktemp("looked-at") / "garden"))


def after(folder: Path, *keys: str, size: tuple[int, int] = (80, 40)) -> list[str]:
    """The screen after some keys."""

    async def run() -> list[str]:
        app = LeafturnApp(opened(folder, ON), clock=lambda: dt.datetime(2027, 4, 19, 14, 5))
        async with app.run_test(size=size) as pilot:
            await settled(pilot)
            for key in keys:
                await send_keys(app, [key])
                await settled(pilot)
            return screen_lines(app)

    return asyncio.run(run())


def last_entry(folder: Path) -> dict[str, object]:
    entries: list[dict[str, object]] = toml_entries(folder / "journal" / "2027.toml")
    return entries[-1]


@cache
def read_in_order() -> tuple[str, ...]:
    """The demo's trees as page 3 lists them."""
    place = {"lacks": 0, "thin": 1, "served": 2}
    reviews = [r for r in opened(DEMO, ON).partners() if r.standing in place]
    return tuple(r.plant for r in sorted(reviews, key=lambda r: place[r.standing]))


def to(plant: str) -> list[str]:
    """The keys that bring the bar to a tree's line on page 3."""
    return ["3", *["down"] * read_in_order().index(plant)]


def test_a_chosen_graft_is_noted_said_and_becomes_jobs_with_dates(folder: Path) -> None:
    offered = after(folder, *to("kiwi-f1"), "x")
    line = next(n for n, text in enumerate(offered) if "graft a male branch onto kiwi-f1" in text)
    assert offered[line].lstrip(" >").endswith("works from 2029, in 7 of 10 springs")
    said = after(folder, *to("kiwi-f1"), "x", "2")
    assert any("fix chosen: graft" in text for text in said)
    assert "first job: cut scions for kiwi-f1, from 1 Dec" in " ".join(" ".join(said).split())
    assert any("you have decided for 1 of them" in text for text in said)
    entry = last_entry(folder)
    assert (entry["what"], entry["plant"], entry["answer"]) == ("answered", "kiwi-f1", "fix: graft")
    assert entry["until"] == dt.date(2030, 1, 1)


@pytest.mark.long
def test_content_without_is_an_answer_and_is_not_noted_twice(folder: Path) -> None:
    keys = to("akebia")
    said = after(folder, *keys, "c")
    assert any("content without" in text and "akebia" in text for text in said)
    assert last_entry(folder)["answer"] == "content without"
    before = (folder / "journal" / "2027.toml").read_bytes()
    assert any("already content without" in text for text in after(folder, *keys, "c"))
    assert (folder / "journal" / "2027.toml").read_bytes() == before


@pytest.mark.long
def test_waiting_stands_until_its_year(folder: Path) -> None:
    offered = after(folder, *to("comice-1"), "x")
    number = next(text.lstrip(" >")[0] for text in offered if "wait until" in text)
    after(folder, *to("comice-1"), "x", number)
    entry = last_entry(folder)
    assert str(entry["answer"]).startswith("waiting until 20")
    year = int(str(entry["answer"]).split()[-1])
    garden = open_almanac(folder, ON)
    assert garden.answers()["comice-1"].way == "wait"
    assert "comice-1" not in garden.at(dt.date(year, 1, 1)).answers()


def test_escape_from_the_fixes_notes_nothing(looked_at: Path) -> None:
    before = (looked_at / "journal" / "2027.toml").read_bytes()
    after(looked_at, "3", "x", "escape")
    assert (looked_at / "journal" / "2027.toml").read_bytes() == before


def test_the_years_ahead_show_the_pair_cured_by_itself(looked_at: Path) -> None:
    shown = after(looked_at, *to("comice-1"), "v")
    years = next(text.split() for text in shown if text.split()[:2] == ["27", "28"])
    figures = next(text.split()[-16:] for text in shown if "comice-1 " in text and text.split()[-1].isdigit())
    assert years == [f"{n}" for n in range(27, 43)]
    assert figures[0] in ("-", "1"), "tenths of a chance of about 1 in 20"
    assert int(figures[-1]) >= 4
    assert any("5 of 10 from about 203" in text for text in shown)
    back = after(looked_at, *to("comice-1"), "v", "v")
    assert any("is the same clone" in text for text in back)


def test_the_strip_reads_at_eighty_columns_in_one_colour(looked_at: Path) -> None:
    shown = after(looked_at, *to("boskoop"), "enter")
    assert all(len(text) <= 80 for text in shown)
    lines = {" ".join(t.split()[:1]): t for t in shown if t.split()[1:2] in (["takes"], ["gives"])}
    recipient, donor = lines["boskoop"], lines["small-apple"]
    both = next(text for text in shown if text.split()[:1] == ["both"])
    assert {"▁", "▄"} <= set(recipient[22:]) <= set(BLOCKS)
    heights = [[BLOCKS.index(c) for c in text.ljust(79)[23:79]] for text in (both, recipient, donor)]
    assert all(b <= min(t, g) for b, t, g in zip(*heights, strict=True)), "never likelier than either"
    assert any("Apr" in text and "May" in text for text in shown)


@pytest.mark.parametrize("width", [30, 45, 60, 77, 117])
@pytest.mark.parametrize("count", [1, 9, 40, 120])
def test_a_strip_keeps_to_its_width(width: int, count: int) -> None:
    shares = np.linspace(0, 1, count)
    tree = DayRow(plant="a-plant-with-a-long-name", does="takes", shares=shares)
    days = PartnerDays(
        first=dt.date(2027, 12, 20),
        tree=tree,
        partners=(tree,),
        meet=DayRow(plant="", does="both", shares=shares),
    )
    for row in day_rows(days, dt.date(2027, 12, 21), width):
        assert len(row.text) <= width


def test_a_chance_that_has_no_range_is_said_once(looked_at: Path) -> None:
    shown = " ".join(after(looked_at, *to("lone-pawpaw"), "enter"))
    assert "enough pollen: hardly ever; needs a pawpaw" in shown


def test_tenths() -> None:
    assert [tenths(c) for c in (0, 0.04, 0.06, 0.34, 0.96, 1)] == ["-", "-", "1", "3", "10", "10"]
    assert step(16, 63) == 1
    assert step(16, 16) == 4


def test_of_several_males_that_nobody_would_miss_one_is_to_be_kept(tmp_path: Path) -> None:
    vines = [plant(f"m{n}", "hardy kiwi", sex="male", year=2005, at=[n, 1]) for n in range(1, 4)]
    female = plant("f", "hardy kiwi", sex="female", year=2005, at=[0, 0])
    (tmp_path / "garden.toml").write_text(garden_text(female, *vines), encoding="utf-8")
    shown = " ".join(text.strip() for text in after(tmp_path, "3"))
    assert "not for all together: keep one" in " ".join(shown.split())
