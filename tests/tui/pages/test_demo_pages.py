"""The pages on the real demo garden: they show what the almanac answers, whole and in its order.

What the demo says may change with every better figure, so these screens are compared with the answers
and not with stored text; the stored screens of test_screens.py stand on a hand-made almanac.
"""

from __future__ import annotations

import asyncio
import datetime as dt
import re
import shutil

import pytest
from rich.cells import cell_len
from screens import screen_lines, send_keys, settled
from tests.samples.places import ROOT

from leafturn.almanac import Almanac, open_almanac
from leafturn.base.prose import of_ten
from leafturn_tui.app import LeafturnApp
from leafturn_tui.desk.screen import Desk
from leafturn_tui.pages import pages
from leafturn_tui.pages.one_job import job_sections
from leafturn_tui.text import phrases, states

ON = dt.date(2027, 4, 19)
SIZES = [(80, 24), (120, 40), (60, 20)]


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Almanac:
    folder = tmp_path_factory.mktemp("demo") / "weir-meadow"
    shutil.copytree(ROOT / "demo_garden", folder)
    return open_almanac(folder, ON)


def whole_list(
    almanac: Almanac, digit: str, size: tuple[int, int], *keys: str
) -> tuple[list[str], list[str]]:
    """The first screen, and every line of the list, scrolled through to its end."""

    async def run() -> tuple[list[str], list[str]]:
        app = LeafturnApp(almanac, clock=lambda: dt.datetime(2027, 4, 19, 14, 5))
        async with app.run_test(size=size) as pilot:
            desk = app.screen
            assert isinstance(desk, Desk)
            for key in (digit, *keys):
                await send_keys(app, [key])
                while desk._work.waited_for(desk.page, desk.almanac):
                    await pilot.pause(0.05)
            await settled(pilot)
            first = screen_lines(app)
            rows = [row.text.rstrip() for row in desk._list.rows]
            return first, rows

    return asyncio.run(run())


@pytest.mark.sweep(each=3)
@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("digit", list(pages()))
def test_every_page_fits_and_answers_its_question(demo: Almanac, digit: str, size: tuple[int, int]) -> None:
    first, rows = whole_list(demo, digit, size)
    assert any(line.startswith(f" {pages()[digit].question.asked}") for line in first[2:4])
    assert f"{digit}{pages()[digit].name}" in first[0].replace(" ", "")
    assert phrases.day(ON) in first[1]
    assert re.search(r"\d d(ays)? early", first[1])
    assert any(line.startswith("> ") for line in first)
    assert all(cell_len(row) <= size[0] - 2 for row in rows)


@pytest.mark.parametrize("size", SIZES)
def test_the_round_tells_every_job_in_its_lines(demo: Almanac, size: tuple[int, int]) -> None:
    first, rows = whole_list(demo, "1", size)
    week = demo.round()
    assert sorted(j.id for line in week.lines for j in line.jobs) == sorted(
        j.id for j in (*week.jobs, *week.waiting)
    )
    for line in week.lines:
        row = next(row for row in rows if line.title[:18] in row)
        assert states.shown(line, ON).word in row
    assert phrases.hours(week.hours_needed) in " ".join(first)


def test_partners_stand_under_their_standing(demo: Almanac) -> None:
    _, rows = whole_list(demo, "3", (120, 40))
    heads = {"lacks": "lack one", "thin": "thin", "served": "well served", "needs none": "needs none"}
    at = {
        standing: next((n for n, row in enumerate(rows) if row.startswith(head)), None)
        for standing, head in heads.items()
    }
    order = sorted(n for n in at.values() if n is not None)
    for review in demo.partners():
        if review.standing == "needs none":
            continue
        head = at[review.standing]
        assert head is not None
        line = next(n for n, row in enumerate(rows) if row.split(" ")[0] == review.plant)
        after = [n for n in order if n > head]
        assert head < line < (after[0] if after else len(rows) + 1)
        assert of_ten(review.adequacy) in rows[line]


def test_the_season_holds_every_event_by_date(demo: Almanac) -> None:
    _, rows = whole_list(demo, "2", (120, 40), "i")
    season = demo.season()
    dated = rows[: rows.index("frost and chill")]
    told = [row for row in dated if any(event.event in row for event in season.events)]
    assert len(told) == len(season.events)
    _, year = whole_list(demo, "2", (120, 40), "y")
    shown = {row[:13].strip() for row in year}  # longer names are cut
    opening = [e for e in season.events if e.event == "first open"]
    coming = {e.plant for e in opening if e.when.likely and e.when.likely > ON}
    unlikely = {p.plant for p in demo.season_days().plants if max(p.in_bloom.max(), p.picking.max()) < 0.1}
    assert shown >= {plant[:13] for plant in coming - unlikely}
    leaves = next(row for row in year if row.startswith("comfrey-pear"))
    assert "▇" in leaves  # its picking stands in the weeks too, though leaves have no BBCH 87


def test_the_book_is_newest_first(demo: Almanac) -> None:
    _, rows = whole_list(demo, "9", (120, 40))
    lines = demo.book()
    rows = [row for row in rows if not row.startswith(" ")]  # what goes on below is of the note above
    assert len(rows) == len(lines)
    assert lines[0].words[:30] in rows[0]
    taken = next(n for n, line in enumerate(lines) if line.taken_back)
    assert "(taken back)" in rows[taken]


@pytest.mark.long
def test_every_plant_has_its_page(demo: Almanac) -> None:
    _, rows = whole_list(demo, "0", (80, 24))
    first = [row for row in rows if not row.startswith(" ")]
    assert [row.split(" ")[0] for row in first] == [p.id for p in demo.garden.plants]

    async def run() -> None:
        app = LeafturnApp(demo, clock=lambda: dt.datetime(2027, 4, 19, 14, 5))
        async with app.run_test(size=(80, 24)) as pilot:
            desk = app.screen
            await send_keys(app, ["0"])
            for plant in demo.garden.plants:
                await send_keys(app, ["enter"])
                assert screen_lines(app) is not None
                assert desk.page.plant_id == plant.id  # type: ignore[attr-defined]
                facts = [row.why for row in desk._list.rows if "; from " in row.why]  # type: ignore[attr-defined]
                assert facts, plant.id
                await send_keys(app, ["w"])
                assert desk.panel.paragraphs  # type: ignore[attr-defined]
                await send_keys(app, ["escape", "escape", "down"])
            await settled(pilot)

    asyncio.run(run())


def test_a_jobs_own_page_names_who_the_round_gives_it_to(demo: Almanac) -> None:
    week = demo.round()
    given = [job for job in week.jobs if job.who and job.state in ("late", "due", "soon")]
    assert given
    for job in given:
        own = demo.job(job.id)
        assert own is not None
        hands = next(lines[0] for title, lines in job_sections(demo, own) if title == "where and who")
        assert hands.endswith(f", {job.who}")


@pytest.mark.parametrize("size", SIZES)
def test_the_list_of_dates_cuts_no_word(demo: Almanac, size: tuple[int, int]) -> None:
    """What has no room for a column is left to the line's own story."""
    _, rows = whole_list(demo, "2", size, "i")
    assert len(rows) > 100
    assert not [row for row in rows if "…" in row]
