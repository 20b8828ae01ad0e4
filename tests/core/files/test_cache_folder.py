"""Where what can be made again is kept: XDG Base Directory Specification 0.8, and Apple's guide."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from leafturn.files.cache_folder import cache_folder


def test_the_cache_folder_is_where_the_specification_has_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "platform", "linux")
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "mine"))
    assert cache_folder() == tmp_path / "mine"
    for ignored in ("", "relative/folder"):
        monkeypatch.setenv("XDG_CACHE_HOME", ignored)
        assert cache_folder() == tmp_path / ".cache"
    monkeypatch.setattr(sys, "platform", "darwin")
    assert cache_folder() == tmp_path / "Library" / "Caches"
    monkeypatch.setenv(
        "HOME", "somewhere"
    )  # no place of its own: nothing is written into the folder one is in
    assert cache_folder() is None
