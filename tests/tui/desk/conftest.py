"""What tests of the desk share."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.samples.garden_text import garden_text, plant


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    """An apple and a pear."""
    trees = (plant("boskoop", "apple", year=2012), plant("comice", "pear", year=2012))
    text = garden_text(*trees, last_frost="24 April", first_frost="16 October")
    (tmp_path / "garden.toml").write_text(text, encoding="utf-8")
    return tmp_path
