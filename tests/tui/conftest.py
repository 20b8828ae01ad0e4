"""The pseudo-terminal lives with the stories; tests here use it too."""

import sys
from pathlib import Path

import pytest

sys.path.append(str(Path(__file__).parents[1] / "stories"))


@pytest.fixture(autouse=True)
def without_colour(monkeypatch: pytest.MonkeyPatch) -> None:
    """Screens are compared as text; tests of the looks ask for theirs."""
    monkeypatch.setenv("LEAFTURN_LOOK", "none")
    monkeypatch.setenv("LEAFTURN_GLYPHS", "full")
