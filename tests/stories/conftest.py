"""What several stories share."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from tests.samples.garden_text import garden_text, plant
from tests.samples.places import DEMO


@pytest.fixture(scope="session")
def asked(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of the demo that nothing is noted in: what was reckoned for one question serves the next."""
    folder = tmp_path_factory.mktemp("asked") / "meadow"
    return Path(shutil.copytree(DEMO, folder, ignore=shutil.ignore_patterns("*.py")))


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    """A pear and a plum."""
    folder = tmp_path / "garden"
    folder.mkdir()
    (folder / "garden.toml").write_text(garden_text(plant("comice", "pear"), plant("plum", "european plum")))
    return folder
