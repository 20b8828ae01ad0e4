"""A hostile list of names goes through every page, every panel and every command; the bytes are searched."""

from __future__ import annotations

import asyncio
import datetime as dt
import json

import msgspec
import pytest
from fake_almanac import FakeAlmanac
from fake_garden import ENTRIES, EVENTS, GARDEN, JOBS, REVIEWS, card
from hostile import HOSTILE, raw_controls, raw_in_bytes
from msgspec import structs
from msgspec.structs import replace
from screens import screen_text, send, send_keys, settled
from textual import events

from leafturn.answers.plant_card import PlantCard
from leafturn.base.faults import Fault
from leafturn.garden.model import Garden, Helper, Place, Plant
from leafturn.tasks.model import Reasons
from leafturn_tui.app import LeafturnApp
from leafturn_tui.pages import pages
from leafturn_tui.render import every_question, whole_json
from leafturn_tui.render.parts.cold_night import night_as_json, night_lines
from leafturn_tui.render.parts.printed import printed
from leafturn_tui.render.parts.values import json_text

LOOKS = ("w", "escape", "enter", "w", "escape", "escape", "down", "end", "v", "x", "escape")
PANELS = (
    "b", "2", "tab", "enter", "h", "1", "escape", "escape", "n", "x", "enter", "u", "u", "escape",
    "f", "down", "escape", "g", "escape", "s", "2", "s", "0", "l", "escape", "d", "escape", "a", "escape",
    "p", "escape", "e", "escape", "space", "down", "down", "end", "c", "question_mark", "escape",
)  # fmt: skip


class HostileAlmanac(FakeAlmanac):
    """Every string that could come from a file is the same hostile one."""

    def plants(self) -> tuple[PlantCard, ...]:
        bad = self.garden.place.name
        return tuple(
            replace(card(p), name=bad, where=bad, line=bad, cautions=(bad,), own_words=(bad,), botanical=bad)
            for p in self.garden.plants
        )


def hostile_almanac(bad: str) -> HostileAlmanac:
    plants = tuple(msgspec.structs.replace(p, id=f"{bad}{n}", name=bad) for n, p in enumerate(GARDEN.plants))
    garden = Garden(
        place=Place(lat=46.9, lon=15.9, name=bad),
        plants=(*plants, Plant(id=bad, kind=bad, cultivar=bad)),
        helpers=(Helper(name=bad), Helper(name=f"{bad} too")),
        heaps=GARDEN.heaps,
    )
    jobs = tuple(
        replace(
            j,
            title=bad,
            where=bad,
            helpers=(bad,),
            telling=lambda bad=bad: Reasons(why=(bad, bad)),
            cautions=(bad,),
            source=bad,
            basis=bad,
            id=f"{bad}:{n}",
            plant=f"{bad}0",
        )
        for n, j in enumerate(JOBS)
    )
    return HostileAlmanac(
        garden=garden,
        season_jobs=jobs,
        waiting=jobs[:1],
        events=tuple(replace(e, plant=bad) for e in EVENTS),
        reviews=tuple(
            structs.replace(r, plant=f"{bad}{n}", weakest=bad, cultivar=bad, reasons=(bad,))
            for n, r in enumerate(REVIEWS)
        ),
        entries=tuple(msgspec.structs.replace(e, text=bad, by=bad, plant=bad) for e in ENTRIES),
        faults=(Fault(file=bad, line=3, message=bad, hint=bad),),
        notes=(bad,),
        notice=(bad,),
        quiet=bad,
        filled=bad,
        log=[],
    )


@pytest.mark.sweep(each=14)
@pytest.mark.parametrize("bad", HOSTILE)
def test_pages_and_panels(bad: str) -> None:
    async def run() -> None:
        app = LeafturnApp(hostile_almanac(bad), clock=lambda: dt.datetime(2027, 4, 19, 14, 5))
        async with app.run_test(size=(80, 24)) as pilot:
            for digit in pages():
                for name in (digit, *LOOKS, *(PANELS if digit == "1" else ())):
                    await send_keys(app, [name])
                    assert not raw_controls(screen_text(app))
                await send_keys(app, ["escape", "escape"])
            await settled(pilot)
            assert all(strip.cell_length == 80 for strip in app.screen._compositor.render_strips(app.size))

    asyncio.run(run())


@pytest.mark.sweep(each=7)
@pytest.mark.parametrize("bad", HOSTILE)
def test_plain_answers_and_json(bad: str) -> None:
    almanac = hostile_almanac(bad)
    for one in every_question():
        assert not raw_controls(printed(one.lines(almanac))), one.command
        text = json_text(whole_json(one, almanac))
        assert not raw_controls(text), one.command
        assert json.loads(text)["garden"] == bad
    hit = almanac.tonight(-3.0).plants[0]
    night = replace(almanac.tonight(-3.0), plants=(replace(hit, plant=bad, kind=bad),), not_known=(bad,))
    assert not raw_controls(printed(night_lines(almanac, night)))
    assert not raw_controls(json_text(night_as_json(almanac, night, bad)))


def test_pasted_hostile_text_is_shown_safe_and_kept() -> None:
    almanac = FakeAlmanac(log=[])

    async def run() -> None:
        app = LeafturnApp(almanac, clock=lambda: dt.datetime(2027, 4, 19, 14, 5))
        async with app.run_test(size=(80, 24)) as pilot:
            for number, bad in enumerate(HOSTILE, 1):
                await send_keys(app, ["n"])
                await send(app, events.Paste(bad))
                await settled(pilot)
                assert not raw_controls(screen_text(app))
                await send_keys(app, ["enter"])
                await settled(pilot)
                assert not raw_controls(screen_text(app))
                assert len(almanac.log) == number
                assert almanac.log[-1].text

    asyncio.run(run())


@pytest.mark.parametrize(
    "bad", ["\x1b[31mred", "\x1b]0;owned\x07", "a\u202eb", "a\x9bb", "a\x07b", "a\x1b[2J\x1b[H"]
)
def test_the_search_of_bytes_finds_what_it_should(bad: str) -> None:
    with pytest.raises(AssertionError):
        assert not raw_in_bytes(f"\x1b[1mfine\x1b[0m\r\n{bad}".encode())
    assert not raw_in_bytes(b"\x1b[?1049h\x1b[1mfine\x1b[0m\r\n")
