"""Where fetched records are kept for the checks against them."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from tests.skill.fetch import FOLDER_VARIABLE


@pytest.fixture(scope="session")
def data_folder(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder named in the environment, else pytest's own cache, so that records are fetched once."""
    if named := os.environ.get(FOLDER_VARIABLE):
        return Path(named)
    cache = getattr(request.config, "cache", None)
    return Path(cache.mkdir("skill")) if cache is not None else tmp_path_factory.mktemp("skill")
