"""The words of the pages: each page's own, short, and the same in docs/words.md."""

from __future__ import annotations

import importlib.util
import re
from pathlib import Path
from types import ModuleType

import pytest

from leafturn.base import quantities
from leafturn_tui.pages import pages
from leafturn_tui.text import states
from leafturn_tui.text.glossary import words, words_of, written

DOCS = Path(__file__).parents[3] / "docs"
NAMES = [page.name for page in pages().values()]


def maker() -> ModuleType:
    spec = importlib.util.spec_from_file_location("make_words", DOCS / "make_words.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_the_document_is_the_glossary() -> None:
    assert (DOCS / "words.md").read_text("utf-8") == maker().written(), "run docs/make_words.py"


def test_every_page_has_words_of_its_own_and_no_other_is_named() -> None:
    named = {page for word in words() for page in word.pages}
    assert named == set(NAMES)


@pytest.mark.parametrize("page", NAMES)
def test_a_page_tells_its_own_words_first(page: str) -> None:
    words = words_of(page)
    assert page in words[0].pages
    assert {word.word for word in words} >= {"guess", "heat", "of 10 springs"}


def test_every_state_of_a_job_is_told() -> None:
    told = {word.word for word in words_of("Round")}
    assert {
        "tonight",
        "now",
        "3 d left",
        "past best",
        "coming",
        "held",
        "gone by",
        "let go",
        "can wait",
    } <= told
    assert {one.word for one in states.OTHERS.values()} - told == {"done", "later"}  # plain as they are


def test_a_figure_is_that_of_the_rule_that_goes_by_it() -> None:
    """No figure is typed into the file but that of the example "3 of 10 springs is about one in three"."""
    typed = " ".join(re.sub(r"\{\w+\}|NRAES-54", "", word.means) for word in written().word)
    assert re.findall(r"\d+", typed) == ["3", "10"]


def test_the_figures_are_told_in_the_units_of_the_garden() -> None:
    with quantities.speaking("us"):
        told = {word.word: word.means for word in words()}
    assert "above 41 F is one degree-day" in told["heat"]
    assert "131 F and more" in told["hot"]
    assert "at or below 45 F" in told["chill"]


def test_figures_as_published() -> None:
    """BBCH: Meier 2018; carbon to nitrogen: LSU AgCenter publication 3838-D, after NRAES-54; both read."""
    told = {word.word: word.means for word in words()}
    assert told["first open, full, petal fall"].endswith("(BBCH 61, 65 and 69).")
    assert "25 to 30 composts best, 20 to 40 does" in told["C:N"]


def test_no_sentence_has_more_than_thirty_words() -> None:
    for word in words():
        for sentence in re.split(r"(?<=[.;])\s", word.means):
            assert len(sentence.split()) <= 30, word.word
