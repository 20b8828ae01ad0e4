"""The words of the pages: each page's own, short, and the same in docs/words.md."""

from __future__ import annotations

import importlib.util
import re
from pathlib import Path
from types import ModuleType

import pytest

from leafturn_tui.pages import pages
from leafturn_tui.text import states
from leafturn_tui.text.glossary import glossary, words_of

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
    named = {page for word in glossary().word for page in word.pages}
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
        "closing",
        "past best",
        "coming",
        "held",
        "gone by",
        "let go",
        "can wait",
    } <= told
    assert {one.word for one in states.OTHERS.values()} - told == {"done", "later"}  # plain as they are
    closing = next(word for word in words_of("Round") if word.word == "closing")
    assert states.CLOSING_DAYS == 3
    assert "Three days" in closing.means


def test_no_sentence_has_more_than_thirty_words() -> None:
    for word in glossary().word:
        for sentence in re.split(r"(?<=[.;])\s", word.means):
            assert len(sentence.split()) <= 30, word.word
