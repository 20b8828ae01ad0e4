"""A question is one file among the answers and one among the pages; nothing else lists it."""

from __future__ import annotations

import asyncio
import datetime as dt
import json
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from fake_almanac import FakeAlmanac
from screens import screen_text
from tests.samples.places import ROOT

import leafturn_tui.pages
import leafturn_tui.render
from leafturn_tui.app import LeafturnApp
from leafturn_tui.command_line import main
from leafturn_tui.pages import KeyTaken, first_page, pages, which_pages

ANSWER = '''
from leafturn_tui.render.parts.question import Question

QUESTION = Question(asked="Which bay is full?", place=91)


def lines(almanac):
    """Every bay, fullest first."""
    yield f"bay-2 of {len(almanac.heaps())}"
'''
JSON = """

def as_json(almanac):
    return {"bays": ["bay-2"]}
"""
PAGE = """
from leafturn_tui.pages.base import Page
from leafturn_tui.render.bays import QUESTION
from leafturn_tui.text.layout import row


class BaysPage(Page, key="KEY", question=QUESTION):
    def rows(self, almanac, width):
        return [row("bay-2 is full", key="bay-2")]
"""

Drop = Callable[[str, str, str], None]


@pytest.fixture
def drop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Drop]:
    """Puts a file into a room as if it lay in the package's folder."""
    for room in (leafturn_tui.pages, leafturn_tui.render):
        (tmp_path / room.__name__).mkdir()
        monkeypatch.setattr(room, "__path__", [*room.__path__, str(tmp_path / room.__name__)])
    known = set(sys.modules)

    def put(room: str, name: str, text: str) -> None:
        (tmp_path / f"leafturn_tui.{room}" / f"{name}.py").write_text(text, encoding="utf-8")
        pages.cache_clear()

    yield put
    for module in set(sys.modules) - known:
        if module.rpartition(".")[2] in ("bays", "more_bays"):
            del sys.modules[module]
            room, _, name = module.rpartition(".")
            vars(sys.modules[room]).pop(name, None)
    pages.cache_clear()


def test_the_first_page_is_had_without_the_others() -> None:
    assert first_page() is next(iter(pages().values()))


def test_the_pages_of_this_release() -> None:
    assert [(key, page.name, page.command) for key, page in pages().items()] == [
        ("1", "Round", "round"),
        ("2", "Season", "season"),
        ("3", "Partners", "partners"),
        ("4", "Canopy", "canopy"),
        ("5", "Climbers", "climbers"),
        ("6", "Heaps", "heaps"),
        ("7", "Larder", "larder"),
        ("8", "Heed", "heed"),
        ("9", "Book", "book"),
        ("0", "Plants", "plants"),
    ]


def test_a_new_question_is_a_command_and_a_page(drop: Drop, capsys: pytest.CaptureFixture[str]) -> None:
    drop("render", "bays", ANSWER + JSON)
    drop("pages", "bays", PAGE.replace("KEY", "Z"))
    garden = str(ROOT / "demo_garden")

    assert main(["--help"]) == 0
    listed = capsys.readouterr().out.splitlines()
    at = next(n for n, line in enumerate(listed) if "leafturn bays [GARDEN]" in line)
    assert listed[at].endswith(" Which bay is full?")
    assert "leafturn heaps" in listed[at - 1]
    assert "leafturn larder" in listed[at + 1]
    assert main(["bays", "--help"]) == 0
    assert "Every bay, fullest first." in capsys.readouterr().out
    main(["bays", garden, "--on", "2027-04-19"])
    told = capsys.readouterr().out
    assert told.startswith("Which bay is full?")
    assert "bay-2 of" in told
    main(["bays", garden, "--on", "2027-04-19", "--json"])
    answer = json.loads(capsys.readouterr().out)
    assert answer["bays"] == ["bay-2"]
    assert answer["on"] == "2027-04-19"

    assert ", Z Bays" in which_pages()
    shown = asyncio.run(_after("Z"))
    assert "Which bay is full?" in shown
    assert "bay-2 is full" in shown
    assert "Z Bays" in asyncio.run(_after("question_mark", "end"))
    assert "Z  Bays: Which bay is full?" in asyncio.run(_after("g", "end"))


async def _after(*keys: str) -> str:
    app = LeafturnApp(FakeAlmanac(), clock=lambda: dt.datetime(2027, 4, 19, 14, 5))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press(*keys)
        return screen_text(app)


def test_a_question_without_json_takes_no_json(drop: Drop, capsys: pytest.CaptureFixture[str]) -> None:
    drop("render", "bays", ANSWER)
    assert main(["bays", str(ROOT / "demo_garden"), "--json"]) == 2
    assert "--json" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("key", "says"),
    [
        ("6", r"pages/heaps\.py and pages/bays\.py both ask for the key 6"),
        ("w", r"pages/bays\.py asks for the key w, which desk/keys\.py uses already"),
        ("x", r"pages/bays\.py asks for the key x, which pages/(canopy|larder|partners|plants)\.py uses"),
        ("c", r"pages/bays\.py asks for the key c, which pages/partners\.py uses"),
    ],
)
def test_a_key_taken_twice_fails_aloud(drop: Drop, key: str, says: str) -> None:
    drop("render", "bays", ANSWER)
    drop("pages", "bays", PAGE.replace("KEY", key))
    with pytest.raises(KeyTaken, match=says):
        asyncio.run(_after("q"))


@pytest.mark.parametrize(
    ("file", "key", "says"),
    [
        ("bays", "F1", r"pages/bays\.py: the key 'F1' is neither a digit nor a letter"),
        ("more_bays", "H", r"pages/more_bays\.py: no module render/more_bays\.py answers its question"),
    ],
)
def test_a_page_that_cannot_be_reached_fails_aloud(drop: Drop, file: str, key: str, says: str) -> None:
    drop("render", "bays", ANSWER)
    drop("pages", file, PAGE.replace("KEY", key))
    with pytest.raises(ValueError, match=says):
        pages()


def test_a_question_named_like_a_command_fails_aloud(drop: Drop) -> None:
    drop("render", "note", ANSWER)
    with pytest.raises(ValueError, match=r"render/note\.py asks for the command note.*commands\.py"):
        main(["round"])


def test_a_file_that_answers_nothing_fails_aloud(drop: Drop) -> None:
    drop("render", "bays", "")
    with pytest.raises(TypeError, match=r"render/bays\.py: .* needs QUESTION"):
        main(["bays"])
