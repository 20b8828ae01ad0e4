"""The one way in which files are opened."""

from __future__ import annotations

import os
import socket
from collections.abc import Callable
from pathlib import Path

import pytest

from leafturn.files.reading import file_bytes
from leafturn.files.reasons import reason


def a_socket(path: Path) -> None:
    with socket.socket(socket.AF_UNIX) as one:
        one.bind(str(path))


def linked(target: str) -> Callable[[Path], None]:
    return lambda path: path.symlink_to(target)


def refusal(path: Path) -> str:
    """Why a file is not read."""
    try:
        file_bytes(path, 100, path.parent)
    except OSError as error:
        return reason(error)
    return "read"


@pytest.mark.parametrize(
    ("make", "why"),
    [
        (Path.mkdir, "a folder"),
        (os.mkfifo, "a pipe"),
        (a_socket, "a socket"),
        (linked("/dev/zero"), "outside the garden's folder"),
        (linked("/dev/null"), "outside the garden's folder"),
        (linked("file"), "in a ring"),
        (linked("nowhere"), "missing"),
        (linked("../outside"), "outside the garden's folder"),
        (lambda path: path.write_bytes(b"x" * 101), "holds 101 bytes; 100 is the most"),
        (lambda path: None, "missing"),
    ],
)
def test_what_is_not_read(tmp_path: Path, make: Callable[[Path], None], why: str) -> None:
    (tmp_path / "outside").write_text("secret")
    (tmp_path / "in").mkdir()
    path = tmp_path / "in" / "file"
    make(path)
    said = refusal(path)
    assert why in said
    assert "secret" not in said


@pytest.mark.parametrize("device", ["/dev/zero", "/dev/null", "/dev/tty"])
def test_a_device_that_was_named_is_not_read(device: str) -> None:
    with pytest.raises(OSError, match="a device"):
        file_bytes(Path(device), 100)


def test_a_file_that_tells_no_size_is_read_up_to_the_most() -> None:
    """As the files of /proc do."""
    status = Path("/proc/self/status")
    if not status.exists():
        pytest.skip("there is no /proc here")
    assert status.stat().st_size == 0
    assert file_bytes(status, 100_000)
    with pytest.raises(OSError, match="50 is the most"):
        file_bytes(status, 50)


def test_links_within_the_folder_are_followed(tmp_path: Path) -> None:
    (tmp_path / "real").write_bytes(b"kept")
    (tmp_path / "link").symlink_to("real")
    assert file_bytes(tmp_path / "link", 4, tmp_path) == b"kept"


def test_a_name_no_file_can_have_is_said() -> None:
    with pytest.raises(ValueError, match="null") as raised:
        file_bytes(Path("a\0b"), 10)
    assert reason(raised.value) == "no file can have this name"
