"""Kept tables: believed only where they are whole and of just these files, and missed nowhere."""

from __future__ import annotations

import os
import subprocess
import sys
import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

import msgspec
import pytest

from leafturn.base.faults import Unreadable
from leafturn.kinds.packaged import DATA
from leafturn.toml import kept_tables
from leafturn.toml.kept_tables import read_tables

FILES = {"a.toml": b'[pear]\nheat = [215.0, "x", "fair"]\n', "b.toml": b"[quince]\nheat = 1\n"}
WHOLE = {"a.toml": {"pear": {"heat": [215.0, "x", "fair"]}}, "b.toml": {"quince": {"heat": 1}}}


def read(files: dict[str, bytes], *kept: Path) -> dict[str, Any]:
    return {name: msgspec.msgpack.decode(packed) for name, packed in read_tables(files, kept).items()}


@pytest.fixture
def kept(tmp_path: Path) -> Path:
    return tmp_path / "cache" / "leafturn" / "library"


@pytest.fixture
def parsed(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The texts parsed since."""
    texts: list[str] = []
    parse: Callable[[str], dict[str, Any]] = tomllib.loads

    def noting(text: str) -> dict[str, Any]:
        texts.append(text)
        return parse(text)

    monkeypatch.setattr(kept_tables.tomllib, "loads", noting)
    return texts


def test_files_are_parsed_once(kept: Path, parsed: list[str]) -> None:
    assert read(FILES, kept) == WHOLE
    assert len(parsed) == 2
    assert read(FILES, kept) == WHOLE
    assert len(parsed) == 2


def test_a_changed_file_is_seen_whatever_its_length_and_time(kept: Path, parsed: list[str]) -> None:
    read(FILES, kept)
    changed = FILES | {"b.toml": FILES["b.toml"].replace(b"1", b"2")}
    assert read(changed, kept)["b.toml"] == {"quince": {"heat": 2}}
    assert read(FILES, kept) == WHOLE  # and back again
    assert len(parsed) == 6


@pytest.mark.parametrize(
    "changed",
    [
        {"a.toml": FILES["a.toml"]},
        FILES | {"c.toml": b""},
        {"a.toml": FILES["a.toml"], "c.toml": FILES["b.toml"]},
        {"a.toml": FILES["b.toml"], "b.toml": FILES["a.toml"]},
        {"a.toml": FILES["a.toml"] + FILES["b.toml"], "b.toml": b""},
    ],
    ids=["taken away", "added", "renamed", "exchanged", "joined"],
)
def test_files_taken_away_added_or_renamed_are_seen(kept: Path, changed: dict[str, bytes]) -> None:
    read(FILES, kept)
    assert read(changed, kept) == {name: tomllib.loads(data.decode()) for name, data in changed.items()}


def test_a_kept_file_cut_short_anywhere_is_made_anew(kept: Path) -> None:
    read(FILES, kept)
    whole = kept.read_bytes()
    for length in range(len(whole)):
        kept.write_bytes(whole[:length])
        assert read(FILES, kept) == WHOLE
        assert kept.read_bytes() == whole


def test_a_kept_file_with_any_byte_wrong_is_made_anew(kept: Path) -> None:
    read(FILES, kept)
    whole = kept.read_bytes()
    for place in range(len(whole)):
        kept.write_bytes(whole[:place] + bytes([whole[place] ^ 1]) + whole[place + 1 :])
        assert read(FILES, kept) == WHOLE
    kept.write_bytes(whole + b"\x00")
    assert read(FILES, kept) == WHOLE


def test_what_another_version_kept_is_not_believed(kept: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with monkeypatch.context() as other:
        other.setattr(kept_tables, "_LAYOUT", b"another layout")
        read(FILES, kept)
    before = kept.read_bytes()
    assert read(FILES, kept) == WHOLE
    assert kept.read_bytes() != before


def test_two_kept_files_written_into_one_another_are_made_anew(kept: Path) -> None:
    read(FILES, kept)
    mine = kept.read_bytes()
    read(FILES | {"b.toml": b"[quince]\nheat = 2\n"}, kept)
    theirs = kept.read_bytes()
    for cut in (1, 16, 32, 33, len(mine) - 1):
        kept.write_bytes(theirs[:cut] + mine[cut:])
        assert read(FILES, kept) == WHOLE


def test_nothing_need_be_kept(tmp_path: Path, parsed: list[str]) -> None:
    assert read(FILES) == read(FILES) == WHOLE
    assert len(parsed) == 4
    assert not list(tmp_path.iterdir())


def test_where_one_place_may_not_be_written_the_next_is(kept: Path, parsed: list[str]) -> None:
    """As where who runs the program may not write where it was put in."""
    in_the_way = kept.parents[2] / "in_the_way"
    in_the_way.write_text("")
    for _ in range(2):
        assert read(FILES, in_the_way / "library", kept) == WHOLE
    assert len(parsed) == 2


@pytest.mark.parametrize("hindrance", ["a file where a folder belongs", "a folder where the file belongs"])
def test_where_nothing_can_be_written_all_is_parsed(tmp_path: Path, hindrance: str) -> None:
    kept = tmp_path / "cache" / "library"
    if hindrance.startswith("a file"):
        kept.parent.write_text("in the way")
    else:
        kept.mkdir(parents=True)
    assert read(FILES, kept) == read(FILES, kept) == WHOLE


def test_where_the_folder_may_not_be_written_all_is_parsed(
    kept: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(path: Path, data: bytes) -> int:
        raise PermissionError(13, "Permission denied")  # to root no folder refuses itself

    monkeypatch.setattr(Path, "write_bytes", refuse)
    assert read(FILES, kept) == read(FILES, kept) == WHOLE


def test_a_full_disk_leaves_nothing_that_is_believed(kept: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write = Path.write_bytes

    def half(path: Path, data: bytes) -> int:
        write(path, data[: len(data) // 2])
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as full:
        full.setattr(Path, "write_bytes", half)
        assert read(FILES, kept) == WHOLE
    assert kept.exists()
    assert read(FILES, kept) == WHOLE


def test_what_is_no_toml_is_told_with_file_and_line_and_not_kept(kept: Path) -> None:
    with pytest.raises(Unreadable) as raised:
        read(FILES | {"b.toml": b"[quince]\nheat = 1,5\n"}, kept)
    assert raised.value.fault.sentence().startswith("b.toml, line 2: heat = 1,5 has a decimal comma.")
    with pytest.raises(Unreadable, match=r"b\.toml, line 1: .* not UTF-8"):
        read(FILES | {"b.toml": b"x = '\xff'\n"}, kept)
    assert not kept.exists()


# As where the library was changed since it was installed.
ASK = """
from pathlib import Path
from leafturn.toml import kept_tables
kept_tables.as_installed = lambda source: Path("/dev/null/nothing")
from leafturn.kinds.library import load_library
library, faults = load_library()
print(len(library.kinds), library.match("pears").kind, faults)
"""


NO_BYTECODE = {"PYTHONDONTWRITEBYTECODE": "1"}


def ask(**environment: str) -> subprocess.Popen[str]:
    """A process of its own that loads the library."""
    paths = os.pathsep.join(path for path in sys.path if path)
    return subprocess.Popen(
        [sys.executable, "-c", ASK],
        env={"PYTHONPATH": paths, **environment},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )


@pytest.mark.long
def test_two_processes_at_once_answer_alike_and_leave_a_whole_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked = [ask(XDG_CACHE_HOME=str(tmp_path), **NO_BYTECODE) for _ in range(3)]
    answers = [process.communicate(timeout=60) for process in asked]
    assert len(set(answers)) == 1
    assert answers[0][1] == ""
    (kept,) = (path for path in tmp_path.rglob("*") if path.is_file())
    files = {file.relative_to(DATA).as_posix(): file.read_bytes() for file in sorted(DATA.rglob("*.toml"))}
    monkeypatch.setattr(kept_tables, "_parsed", lambda *_: pytest.fail("it was parsed again"))
    assert read(files, kept)


@pytest.mark.long
def test_without_a_home_and_without_a_cache_folder_the_library_loads(tmp_path: Path) -> None:
    before = sorted(DATA.rglob("*"))
    answers = [
        ask(HOME="/dev/null", **NO_BYTECODE).communicate(timeout=60),
        ask(XDG_CACHE_HOME="/dev/null/cache", **NO_BYTECODE).communicate(timeout=60),
        ask(XDG_CACHE_HOME=str(tmp_path), **NO_BYTECODE).communicate(timeout=60),
    ]
    assert len(set(answers)) == 1
    assert answers[0][1] == ""
    assert sorted(DATA.rglob("*")) == before  # an install is not written to where Python may not either


def test_kept_with_the_bytecode_it_outlives_the_cache_folder(tmp_path: Path) -> None:
    written: list[tuple[int, int]] = []
    for turn in range(2):
        asked = ask(
            XDG_CACHE_HOME=str(tmp_path / f"cache_{turn}"), PYTHONPYCACHEPREFIX=str(tmp_path / "bytecode")
        )
        assert asked.communicate(timeout=60)[1] == ""
        (kept,) = (tmp_path / "bytecode").rglob("data.*.kept")
        written.append((kept.stat().st_ino, kept.stat().st_mtime_ns))
    assert written[0] == written[1]
    assert not list(tmp_path.glob("cache_*"))
