"""Answers on disk: whole parts, going on after a stop, and never twice."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest

from leafturn.base.faults import Unreadable
from leafturn.fleet.parts import PART_SECONDS, Parts, Settings
from leafturn.fleet.tables import Answered, without_answers

SETTINGS = Settings(on=dt.date(2027, 4, 19), questions=("partners",), form="csv")


def parts(folder: Path, settings: Settings = SETTINGS, seconds: list[float] | None = None) -> Parts:
    clock = seconds if seconds is not None else [0.0]
    return Parts(folder, settings, lambda: clock[0], lambda text: text.replace("\x1b", "?"))


def answered(name: str, trees: int = 1) -> Answered:
    row = (name, "styria", "t1", "pear", "", "lacks", 0.1, 0.0, 0.3, "no\x1b partner")
    ledger = (name, "styria", "answered", "", name, 46.9, 15.9, trees, 0)
    return Answered(
        garden=name, state="answered", said="", rows={"gardens": (ledger,), "partners": (row,) * trees}
    )


def test_a_part_is_written_after_some_seconds_and_on_closing(tmp_path: Path) -> None:
    seconds = [0.0]
    out = parts(tmp_path, seconds=seconds)
    out.add(answered("a"))
    assert list(out.rows("gardens")) == []
    seconds[0] = PART_SECONDS
    out.add(answered("b", trees=2))
    assert [row[0] for row in out.rows("gardens")] == ["a", "b"]
    assert [row[2] for row in out.rows("partners")] == ["t1"] * 3
    out.add(answered("c"))
    out.close()
    assert [row[0] for row in out.rows("gardens")] == ["a", "b", "c"]
    assert sorted(file.name for file in (tmp_path / "gardens").iterdir()) == [
        "part-00001.csv",
        "part-00002.csv",
    ]
    assert {row[-1] for row in out.rows("partners")} == {"no? partner"}


def test_what_was_written_is_done_and_what_was_not_is_asked_again(tmp_path: Path) -> None:
    first = parts(tmp_path)
    first.add(without_answers("bad", "cannot be read", "it is no garden."))
    first.write()
    first.add(answered("lost"))
    del first  # killed
    second = parts(tmp_path)
    done = second.done()
    assert {name: (one.state, one.said) for name, one in done.items()} == {
        "bad": ("cannot be read", "it is no garden.")
    }
    second.add(answered("lost"))
    second.close()
    assert sorted(done | parts(tmp_path).done()) == ["bad", "lost"]


def test_a_part_that_a_kill_left_without_its_gardens_is_thrown_away(tmp_path: Path) -> None:
    out = parts(tmp_path)
    out.add(answered("a"))
    out.close()
    out.add(answered("b"))
    out.write()
    (tmp_path / "gardens" / "part-00002.csv").unlink()  # as if killed between the two
    again = parts(tmp_path)
    assert [row[0] for row in again.rows("partners")] == ["a"]
    again.add(answered("b"))
    again.close()
    assert [row[0] for row in again.rows("partners")] == ["a", "b"]


def test_a_folder_of_other_answers_or_other_things_is_not_written_to(tmp_path: Path) -> None:
    parts(tmp_path / "out").close()
    for other in (
        Settings(on=dt.date(2027, 4, 20), questions=("partners",), form="csv"),
        Settings(on=SETTINGS.on, questions=("frost",), form="csv"),
        Settings(on=SETTINGS.on, questions=("partners",), form="csv", leafturn="0.0.9"),
    ):
        with pytest.raises(
            Unreadable, match=r"it holds answers for 2027-04-19 to partners as csv, by leafturn"
        ):
            parts(tmp_path / "out", other)
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "photo.jpg").write_text("")
    with pytest.raises(Unreadable, match="it holds other things"):
        parts(tmp_path / "mine")
    with pytest.raises(Unreadable, match="it cannot be written"):
        parts(tmp_path / "mine" / "photo.jpg")
    (tmp_path / "out" / "fleet.json").write_text("{")
    with pytest.raises(Unreadable, match="cannot be read"):
        parts(tmp_path / "out")


def test_two_runs_do_not_write_at_once(tmp_path: Path) -> None:
    first = parts(tmp_path)
    with pytest.raises(Unreadable, match="another run writes there just now"):
        parts(tmp_path)
    first.close()
    parts(tmp_path).close()
