"""Tables that come with the program."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any

import msgspec
import pytest

from leafturn.garden.regions import Region
from leafturn.toml import kept_tables
from leafturn.toml.packaged import packaged, row_named


def test_a_file_is_read_as_its_shape_and_refused_as_another() -> None:
    rows = packaged("leafturn.garden", "regions.toml", dict[str, Region])()
    assert all(isinstance(row, Region) for row in rows.values())
    with pytest.raises(msgspec.ValidationError):
        packaged("leafturn.garden", "regions.toml", dict[str, int])()


def test_a_file_is_parsed_once_and_kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    monkeypatch.setattr(sys, "dont_write_bytecode", True)  # else it would lie beside the bytecode
    monkeypatch.setattr(kept_tables, "as_installed", lambda source: tmp_path / "nothing")
    first = packaged("leafturn.garden", "regions.toml", dict[str, Region])()
    assert [file.name for file in tmp_path.rglob("*.toml")] == ["leafturn.garden.regions.toml"]

    def parsed(text: str) -> dict[str, Any]:
        raise AssertionError("it was parsed again")

    monkeypatch.setattr(kept_tables.tomllib, "loads", parsed)
    assert packaged("leafturn.garden", "regions.toml", dict[str, Region])() == first


def test_a_row_is_found_by_any_of_its_names() -> None:
    rows = {"bavaria": Region(source="x", also=("free state",)), "ohio": Region(source="y")}
    assert row_named(rows, " Free  STATE ") is rows["bavaria"]
    assert row_named(rows, "Ohio") is rows["ohio"]
    assert row_named(rows, "kansas") is None
    assert row_named(rows, None) is None
