"""What is kept so that it need not be made again: few, little, and harmless whatever lies in its place."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from leafturn.files import sealed
from leafturn.files.sealed import keep_sealed, unsealed

MADE_OF = (b"version 1", b"a journal")


def filled(folder: Path, count: int, size: int = 10) -> list[str]:
    """Keep so many, one a second older than the next; the names of what is left."""
    for number in range(count):
        keep_sealed(folder / f"{number}", MADE_OF, b"x" * size)
        os.utime(folder / f"{number}", (1_000 + number,) * 2)
    return sorted((path.name for path in folder.iterdir()), key=int)


def test_of_many_the_oldest_go(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sealed, "MOST_FILES", 4)
    assert filled(tmp_path, 9) == ["5", "6", "7", "8"]


def test_of_much_the_oldest_go(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sealed, "MOST_TOGETHER", 1_000)
    assert filled(tmp_path, 9, size=300 - sealed.SEAL_BYTES) == ["6", "7", "8"]


def test_what_the_user_put_beside_in_folders_and_links_stays(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sealed, "MOST_FILES", 1)
    (tmp_path / "100").mkdir()
    (tmp_path / "101").symlink_to(tmp_path)
    assert filled(tmp_path, 3) == ["2", "100", "101"]


@pytest.mark.parametrize("way", ["folder", "pipe", "link", "link to nothing", "device"])
def test_whatever_lies_in_its_place_nothing_is_kept_and_nothing_harmed(tmp_path: Path, way: str) -> None:
    kept, victim = tmp_path / "kept", tmp_path / "victim"
    victim.write_text("mine")
    targets = {"link": victim, "link to nothing": tmp_path / "nowhere", "device": Path("/dev/zero")}
    if way == "folder":
        kept.mkdir()
    elif way == "pipe":
        os.mkfifo(kept)
    else:
        kept.symlink_to(targets[way])
    keep_sealed(kept, MADE_OF, b"found")
    assert unsealed(kept, MADE_OF) is None
    assert victim.read_text() == "mine"
    assert not (tmp_path / "nowhere").exists()


def test_what_another_version_kept_is_not_believed(tmp_path: Path) -> None:
    keep_sealed(tmp_path / "kept", MADE_OF, b"found")
    assert unsealed(tmp_path / "kept", MADE_OF) == b"found"
    assert unsealed(tmp_path / "kept", (b"version 2", b"a journal")) is None
