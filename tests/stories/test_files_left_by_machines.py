"""Files as a failing disk, a phone, another system's editor or a program that copies folders leaves them.

Line ends, control characters and zero bytes: TOML 1.0, "Spec", allows neither a carriage return alone nor any
control character. Byte order marks: the Unicode Standard, section 23.8. What copying programs and editors do
to names is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from tests.in_process import run

DAY = ("--on", "2027-04-19")
GARDEN = '[place]\nlat = 46.9\nlon = 15.9\n\n[[plant]]\nid = "old"\nkind = "pear"\nyear = 2010\n'
AFTER_POWER_LOSS = b"\0" * 512

LEFT: dict[str, tuple[Callable[[bytes], bytes], str]] = {
    "zero bytes at the end": (lambda text: text + AFTER_POWER_LOSS, "All such are passed over."),
    "the end mark of an old system": (lambda text: text + b"\x1a", "All such are passed over."),
    "a page break": (lambda text: text.replace(b"[[", b"\f[["), "All such are passed over."),
    "carriage returns alone": (lambda text: text.replace(b"\n", b"\r"), "read as the end of a line"),
    "line ends made twice": (lambda text: text.replace(b"\n", b"\r\r\n"), "read as the end of a line"),
}


@pytest.mark.parametrize("name", LEFT)
def test_a_garden_file_so_left_is_read_and_it_is_said(name: str, tmp_path: Path) -> None:
    """It was refused whole, for one byte that says nothing."""
    left, said = LEFT[name]
    data = left(GARDEN.encode())
    (tmp_path / "garden.toml").write_bytes(data)
    checked = run("check", str(tmp_path), *DAY)
    assert checked.returncode == 1
    assert said in checked.stdout + checked.stderr
    assert "old" in run("plants", str(tmp_path), *DAY).stdout
    assert (tmp_path / "garden.toml").read_bytes() == data


def test_a_garden_file_of_zero_bytes_alone_is_called_lost(tmp_path: Path) -> None:
    (tmp_path / "garden.toml").write_bytes(AFTER_POWER_LOSS)
    done = run("round", str(tmp_path), *DAY)
    assert done.returncode == 2
    assert "nothing but zero bytes, as disks leave it where the power failed. Put a copy" in done.stderr


@pytest.mark.parametrize("name", ["garden.toml.txt", ".garden.toml.icloud", "Garden.toml~"])
def test_a_file_that_may_be_the_garden_is_named_and_no_other_is_begun(name: str, tmp_path: Path) -> None:
    (tmp_path / name).write_text(GARDEN, encoding="utf-8")
    done = run("check", str(tmp_path), *DAY)
    assert done.returncode == 2
    assert f"This folder holds no garden.toml, but {name}. If that is the garden, name it garden.toml" in (
        done.stderr
    )
    assert "leafturn new" not in done.stderr


def test_a_name_in_capitals_is_the_garden(tmp_path: Path) -> None:
    """Cards of cameras and sticks keep short names in capitals."""
    (tmp_path / "GARDEN.TOML").write_text(GARDEN, encoding="utf-8")
    assert run("check", str(tmp_path), *DAY).returncode == 0


@pytest.mark.parametrize(
    "left",
    [lambda text: text.encode("utf-16"), lambda text: text.encode() + AFTER_POWER_LOSS],
    ids=["UTF-16 with its mark", "zero bytes at the end"],
)
def test_a_weather_file_so_left_is_read(left: Callable[[str], bytes], tmp_path: Path) -> None:
    (tmp_path / "w.csv").write_bytes(left("date\ttmin_c\ttmax_c\n2027-04-01\t1.5\t9\n2027-04-02\t2\t11\n"))
    told = run("weather", "read", str(tmp_path / "w.csv")).stdout
    assert "2 days" in told


@pytest.mark.parametrize("name", ["2027.TOML", ".2027.toml.icloud", "2027.toml.txt", "2026-2.toml.part"])
def test_notes_under_another_name_are_missed_aloud(name: str, tmp_path: Path) -> None:
    """They were passed over without a word, and new notes went into a second file of the year."""
    (tmp_path / "garden.toml").write_text(GARDEN, encoding="utf-8")
    (tmp_path / "journal").mkdir()
    (tmp_path / "journal" / name).write_text('[[entry]]\non = 2027-04-01\nwhat = "note"\n', encoding="utf-8")
    run("note", str(tmp_path), "a toad", *DAY)
    checked = run("check", str(tmp_path), *DAY)
    assert checked.returncode == 1
    own = name.removeprefix(".").partition(".")[0]
    said = f"journal/{name}: The notes in here are not read, since its name is no year."
    assert said in checked.stdout + checked.stderr
    assert f"else name it journal/{own}.toml" in checked.stdout + checked.stderr


@pytest.mark.parametrize("name", [".2027.toml.swp", "2027.toml~", "2027.toml.orig", "2027.toml.torn"])
def test_what_editors_leave_is_no_fault(name: str, tmp_path: Path) -> None:
    (tmp_path / "garden.toml").write_text(GARDEN, encoding="utf-8")
    (tmp_path / "journal").mkdir()
    (tmp_path / "journal" / name).write_text("", encoding="utf-8")
    assert run("check", str(tmp_path), *DAY).returncode == 0
