"""A page is one file in the folder of pages; nothing else lists it."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

import leafturn_tui.pages
from leafturn_tui.pages import pages, which_pages

NEW = """
from leafturn_tui.pages.base import Page
from leafturn_tui.text.layout import row


class BaysPage(Page):
    digit = "6"
    name = "Bays"
    question = "Which bay is full?"

    def rows(self, almanac, width):
        return [row("bay-2", key="bay-2")]
"""


def test_the_pages_of_this_release() -> None:
    assert [(digit, page.name) for digit, page in pages().items()] == [
        ("1", "Round"),
        ("2", "Season"),
        ("3", "Partners"),
        ("4", "Canopy"),
        ("5", "Climbers"),
        ("6", "Heaps"),
        ("7", "Larder"),
        ("8", "Care"),
        ("9", "Book"),
        ("0", "Plants"),
    ]


def test_a_new_file_is_a_new_page(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "heaps_of_a_test.py").write_text(NEW, encoding="utf-8")
    monkeypatch.setattr(leafturn_tui.pages, "__path__", [*leafturn_tui.pages.__path__, str(tmp_path)])
    pages.cache_clear()
    try:
        assert pages()["6"].name == "Bays"
        assert "6 Bays" in which_pages()
    finally:
        sys.modules.pop("leafturn_tui.pages.heaps_of_a_test", None)
        pages.cache_clear()
