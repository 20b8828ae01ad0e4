"""Changes of a garden file are kept so that they can be taken back, as far as the disk allows."""

from __future__ import annotations

from pathlib import Path

import pytest

from leafturn.files import sealed
from leafturn.garden.editing import kept_edits
from leafturn.garden.editing.kept_edits import KeptEdit, KeptEdits


@pytest.fixture
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    return tmp_path / "cache"


def change(number: int, size: int = 10) -> KeptEdit:
    return KeptEdit(before=b"a" * size, after=b"b" * size, about=f"pear-{number}", note="n", newest="n")


def test_the_last_change_is_there_for_whoever_asks_next_until_it_is_taken_back(
    tmp_path: Path, cache: Path
) -> None:
    file = tmp_path / "garden.toml"
    assert KeptEdits(file).last() is None
    for number in (1, 2):
        KeptEdits(file).remember(change(number))
    assert KeptEdits(file).last() == change(2)
    assert KeptEdits(tmp_path / "other.toml").last() is None
    KeptEdits(file).forget_last()
    assert KeptEdits(file).last() == change(1)
    assert change(1).edit(file).after == b"b" * 10
    (kept,) = (cache / kept_edits.FOLDER).iterdir()
    assert kept.stat().st_mode & 0o077 == 0, "a garden file is nobody else's to read"


def test_only_so_many_and_so_much_is_kept(
    tmp_path: Path, cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    edits = KeptEdits(tmp_path / "garden.toml")

    def standing() -> int:
        count = 0
        while edits.last() is not None:
            edits.forget_last()
            count += 1
        return count

    for number in range(kept_edits.MOST + 3):
        edits.remember(change(number))
    assert standing() == kept_edits.MOST
    monkeypatch.setattr(kept_edits, "MOST_BYTES", 1000)
    for number in range(4):
        edits.remember(change(number, size=200))
    assert standing() == 2


@pytest.mark.parametrize("spoilt", [b"", b"[{", b'{"before": 3}', b'[{"more": ' + b"[" * 100_000])
def test_what_cannot_be_read_of_the_cache_counts_as_nothing(
    tmp_path: Path, cache: Path, spoilt: bytes
) -> None:
    file = tmp_path / "garden.toml"
    KeptEdits(file).remember(change(1))
    (kept,) = (cache / kept_edits.FOLDER).iterdir()
    kept.write_bytes(spoilt)
    assert KeptEdits(file).last() is None
    KeptEdits(file).remember(change(2))
    assert KeptEdits(file).last() == change(2)


def test_changes_of_gardens_that_are_gone_do_not_pile_up(
    tmp_path: Path, cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sealed, "MOST_FILES", 3)
    for number in range(6):
        assert KeptEdits(tmp_path / f"garden-{number}.toml").remember(change(number))
    assert len(list((cache / kept_edits.FOLDER).iterdir())) == 3
    assert KeptEdits(tmp_path / "garden-5.toml").last() == change(5)


def test_a_cache_that_takes_nothing_costs_no_more_than_the_memory_of_it(tmp_path: Path, cache: Path) -> None:
    cache.write_bytes(b"a file where a folder belongs")
    edits = KeptEdits(tmp_path / "garden.toml")
    edits.remember(change(1))
    assert edits.last() == change(1)
    assert KeptEdits(tmp_path / "garden.toml").last() is None


def test_without_a_place_for_caches_a_change_lasts_as_long_as_the_program(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", "")
    monkeypatch.setenv("HOME", "nowhere")
    edits = KeptEdits(tmp_path / "garden.toml")
    edits.remember(change(1))
    edits.remember(change(2))
    assert edits.last() == change(2)
    edits.forget_last()
    assert edits.last() == change(1)
