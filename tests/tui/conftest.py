"""The pseudo-terminal lives with the stories; tests here use it too."""

import sys
from pathlib import Path

import pytest
from textual.app import App

sys.path.append(str(Path(__file__).parents[1] / "stories"))


@pytest.fixture(autouse=True)
def without_colour(monkeypatch: pytest.MonkeyPatch) -> None:
    """Screens are compared as text; tests of the looks ask for theirs."""
    monkeypatch.setenv("LEAFTURN_LOOK", "none")
    monkeypatch.setenv("LEAFTURN_GLYPHS", "full")


@pytest.fixture(autouse=True)
def what_fails_is_not_drawn(monkeypatch: pytest.MonkeyPatch) -> None:
    """Pages that fail end as they do, but for Textual's picture of every value on the way there: 2 s each."""
    monkeypatch.setattr(App, "_fatal_error", App._close_messages_no_wait)
