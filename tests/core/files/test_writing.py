"""Files are written whole or not at all, and never through a link that leads out."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest

from leafturn.files.reading import Refused
from leafturn.files.writing import sync_folder, write_new, write_whole


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def failing(monkeypatch: pytest.MonkeyPatch, number: int) -> None:
    """From now on no data reaches the disk."""

    def refuse(descriptor: int) -> None:
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr(os, "fsync", refuse)


def test_a_disk_that_refuses_leaves_the_earlier_file_and_nothing_beside_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write_whole(tmp_path, "week.txt", b"earlier")
    failing(monkeypatch, errno.ENOSPC)
    with pytest.raises(OSError, match="No space left"):
        write_whole(tmp_path, "week.txt", b"later")
    with pytest.raises(OSError, match="No space left"):
        write_new(tmp_path / "new.txt", b"new")
    assert names(tmp_path) == ["week.txt"]
    assert (tmp_path / "week.txt").read_bytes() == b"earlier"


def test_who_may_read_a_file_stays_as_it_was(tmp_path: Path) -> None:
    write_whole(tmp_path, "week.txt", b"earlier").chmod(0o640)
    write_whole(tmp_path, "week.txt", b"later")
    assert (tmp_path / "week.txt").stat().st_mode & 0o777 == 0o640


def test_a_link_is_written_through_within_the_folder_and_refused_out_of_it(tmp_path: Path) -> None:
    garden, elsewhere = tmp_path / "garden", tmp_path / "elsewhere"
    garden.mkdir()
    elsewhere.mkdir()
    (garden / "inner.txt").write_bytes(b"earlier")
    (garden / "in.txt").symlink_to("inner.txt")
    (garden / "out.txt").symlink_to("../elsewhere/out.txt")
    write_whole(garden, "in.txt", b"later")
    assert (garden / "inner.txt").read_bytes() == b"later"
    with pytest.raises(Refused):
        write_whole(garden, "out.txt", b"later")
    assert names(elsewhere) == []


def test_a_folder_of_the_name_is_refused(tmp_path: Path) -> None:
    (tmp_path / "week.txt").mkdir()
    with pytest.raises(Refused, match="no ordinary file"):
        write_whole(tmp_path, "week.txt", b"x")


def test_file_systems_that_cannot_sync_a_folder_are_let_be_and_no_others(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as patch:
        failing(patch, errno.EINVAL)
        sync_folder(tmp_path)
    failing(monkeypatch, errno.EIO)
    with pytest.raises(OSError, match="Input/output"):
        sync_folder(tmp_path)


def test_what_a_killed_process_left_is_swept_when_it_is_old(tmp_path: Path) -> None:
    """A process killed between writing beside a file and taking its place leaves a hidden whole copy."""
    left, new, other = (tmp_path / f".week.txt.{end}" for end in ("31007", "31008", "torn"))
    for file in (left, new, other):
        file.write_bytes(b"whole")
    now = new.stat().st_mtime
    for file in (left, other):
        os.utime(file, (now - 7200, now - 7200))
    write_whole(tmp_path, "week.txt", b"later")
    assert names(tmp_path) == [".week.txt.31008", ".week.txt.torn", "week.txt"]
