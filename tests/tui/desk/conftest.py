"""What tests of the desk share."""

from __future__ import annotations

import threading
from pathlib import Path

import pytest
from tests.samples.garden_text import garden_text, plant

from leafturn_tui.desk import writing


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    """An apple and a pear."""
    trees = (plant("boskoop", "apple", year=2012), plant("comice", "pear", year=2012))
    text = garden_text(*trees, last_frost="24 April", first_frost="16 October")
    (tmp_path / "garden.toml").write_text(text, encoding="utf-8")
    return tmp_path


@pytest.fixture
def renewed(monkeypatch: pytest.MonkeyPatch) -> threading.Event:
    """What is reckoned anew behind the screen waits until this is set."""
    go, reckoned = threading.Event(), writing.whole_picture

    def waits(*what: object) -> object:
        assert go.wait(20)
        return reckoned(*what)  # type: ignore[arg-type]

    monkeypatch.setattr(writing, "whole_picture", waits)
    return go
