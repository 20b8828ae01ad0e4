"""What archives sent is kept under its own hash, and believed only while it is whole."""

from __future__ import annotations

import datetime as dt
import os
import ssl
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from filelock import FileLock
from tests.samples.archive_server import Archive, archive, reply, resumable

from leafturn.base.faults import Fault, Unreadable
from leafturn.weather.fetch.kept import Kept
from leafturn.weather.fetch.line import Line, Wanted

DAY = dt.date(2026, 11, 28)


def kept(server: Archive, folder: Path, today: dt.date = DAY) -> Callable[..., bytes]:
    line = Line(
        tls=server.tls, clock=time.monotonic, pause=lambda seconds: None, until=time.monotonic() + 20,
        agent="tests/1", report=lambda wanted, came, of: None,
    )  # fmt: skip
    files = Kept(folder, line, today)

    def get(path: str = "/file", fresh_days: int = 0, kept_as: str = "") -> bytes:
        wanted = Wanted(
            url=server.address + path, types=("text/plain",), most_bytes=99_999, what="it", kept_as=kept_as
        )
        return files.get(wanted, understood, fresh_days)

    return get


def understood(data: bytes) -> bytes:
    if data.startswith(b"<"):
        raise Unreadable(Fault(file="archive", line=None, message="this is no list."))
    return data


def contents(folder: Path) -> list[Path]:
    return [file for file in folder.iterdir() if len(file.name) == 64]


def test_what_is_fresh_is_not_asked_for_again_and_what_is_not_is(tmp_path: Path) -> None:
    with archive({"/file": [reply(b"one", ETag='"1"'), reply(b"two", ETag='"2"')]}) as server:
        assert kept(server, tmp_path)() == b"one"
        assert kept(server, tmp_path)() == b"one"  # of the same day
        assert kept(server, tmp_path, DAY + dt.timedelta(days=9))(fresh_days=9) == b"one"
        assert len(server.asked) == 1
        assert kept(server, tmp_path, DAY + dt.timedelta(days=10))(fresh_days=9) == b"two"
        assert kept(server, tmp_path, DAY - dt.timedelta(days=1))() == b"two"  # kept on a day still to come
    assert [asked.headers.get("if-none-match") for asked in server.asked] == [None, '"1"', '"2"']
    assert [file.read_bytes() for file in contents(tmp_path)] == [b"two"]  # what nothing names is gone


def test_a_version_that_is_still_the_newest_is_fresh_again(tmp_path: Path) -> None:
    with archive({"/file": [reply(b"one", ETag='"1"'), reply(b"", status="304 Same")]}) as server:
        kept(server, tmp_path)()
        assert kept(server, tmp_path, DAY + dt.timedelta(days=5))() == b"one"
        assert kept(server, tmp_path, DAY + dt.timedelta(days=5))() == b"one"
    assert len(server.asked) == 2


@pytest.mark.parametrize("harm", ["changed", "gone", "no index", "index of something else"])
def test_what_is_not_whole_is_brought_anew(harm: str, tmp_path: Path) -> None:
    with archive({"/file": reply(b"one", ETag='"1"')}) as server:
        kept(server, tmp_path)()
        (file,) = contents(tmp_path)
        if harm == "changed":
            file.write_bytes(b"ono")
        elif harm == "gone":
            file.unlink()
        else:
            (tmp_path / "index.json").write_text("{" if harm == "no index" else '{"a": 3}')
        assert kept(server, tmp_path)() == b"one"
    assert len(server.asked) == 2
    assert "if-none-match" not in server.asked[1].headers


def test_what_is_not_understood_is_not_kept(tmp_path: Path) -> None:
    with archive({"/file": [reply(b"<html>", ETag='"1"'), reply(b"one")]}) as server:
        with pytest.raises(Unreadable, match="this is no list"):
            kept(server, tmp_path)()
        assert contents(tmp_path) == []
        assert kept(server, tmp_path)() == b"one"
    assert "range" not in server.asked[1].headers


def test_an_interrupted_run_goes_on_in_the_next(tmp_path: Path) -> None:
    body = b"0123456789" * 5_000
    gone = reply(b"", status="404 Gone")
    with archive({"/file": [resumable(body, cut_after=30_000), gone, resumable(body)]}) as server:
        with pytest.raises(Unreadable):
            kept(server, tmp_path)()
        assert kept(server, tmp_path)() == body
    assert server.asked[2].headers["range"] == "bytes=30000-"
    assert sorted(file.name for file in tmp_path.iterdir() if ".part" in file.name) == []


def test_files_long_not_asked_for_are_thrown_away(tmp_path: Path) -> None:
    with archive({"/old": reply(b"old"), "/file": reply(b"new")}) as server:
        kept(server, tmp_path)("/old")
        kept(server, tmp_path, DAY + dt.timedelta(days=181))()
    assert [file.read_bytes() for file in contents(tmp_path)] == [b"new"]


def test_what_is_kept_under_a_name_gives_way_to_what_its_next_address_brings(tmp_path: Path) -> None:
    with archive({"/1": reply(b"one", ETag='"1"'), "/2": reply(b"two")}) as server:
        assert kept(server, tmp_path)("/1", kept_as="here") == b"one"
        assert kept(server, tmp_path)("/2", kept_as="here") == b"two"
    assert "if-none-match" not in server.asked[1].headers  # the version of another address tells nothing
    assert [file.read_bytes() for file in contents(tmp_path)] == [b"two"]


def test_a_part_that_nobody_went_on_with_for_long_is_thrown_away(tmp_path: Path) -> None:
    for name in ("old.part", "old.part.mark", "new.part"):
        (tmp_path / name).write_text("x")
        age = dt.datetime.combine(DAY, dt.time(12)) - dt.timedelta(days=31 if "old" in name else 29)
        os.utime(tmp_path / name, (age.timestamp(), age.timestamp()))
    with archive({"/file": reply(b"one")}) as server:
        kept(server, tmp_path)()
    assert [file.name for file in tmp_path.glob("*.part*")] == ["new.part"]


def test_two_runs_do_not_ask_at_once(tmp_path: Path) -> None:
    server = Archive(answers={}, tls=ssl.create_default_context(), address="https://localhost:1")
    with FileLock(tmp_path / "lock"), pytest.raises(Unreadable, match="another run is asking"):
        kept(server, tmp_path)()


def test_a_folder_that_cannot_be_made_is_said(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    server = Archive(answers={}, tls=ssl.create_default_context(), address="https://localhost:1")
    with pytest.raises(Unreadable, match="cannot be kept here"):
        kept(server, tmp_path / "file")()
