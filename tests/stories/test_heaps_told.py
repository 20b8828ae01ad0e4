"""What the heaps command says: one advice, which makes a mix right; and turn or ripe, never both."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from tests.in_process import run
from tests.samples.garden_text import garden_text, heap

ON = "2027-04-19"
BAY = (1.2, 1.2, 1.1)


def garden(folder: Path, *mix: tuple[str, float], stage: str = "working") -> Path:
    lies = [{"what": what, "kg": kg} for what, kg in mix]
    bay = heap("bay", stage=stage, at=[2, 1], bay_m=list(BAY), mix=lies)
    (folder / "garden.toml").write_text(garden_text(bay), encoding="utf-8")
    return folder


def told(folder: Path, on: str = ON) -> dict[str, object]:
    (one,) = json.loads(run("heaps", str(folder), "--on", on, "--json").stdout)["heaps"]
    return one


def note(folder: Path, what: str, on: str) -> None:
    done = run("note", str(folder), *what.split(), "--on", on)
    assert done.returncode == 0, done.stderr


@pytest.mark.parametrize(
    "mix",
    [
        (("leaves", 30),),
        (("grass clippings", 10),),
        (("straw", 12),),
        (("wood chips", 40),),
        (("kitchen scraps", 20), ("leaves", 2)),
        (("horse manure", 60), ("straw", 5)),
    ],
)
def test_one_advice_that_makes_the_mix_right(tmp_path: Path, mix: tuple[tuple[str, float], ...]) -> None:
    """C:N 20 to 40 and water 40 to 65 % do (NRAES-54, recalled): after the advice nothing more is wanted."""
    found = told(garden(tmp_path, *mix))
    mends = found["mends"]
    if not mends:
        assert 20 <= found["c_to_n"] <= 40
        assert 40 <= found["water_percent"] <= 65
        return
    (advice,) = mends
    assert not ("too wet" in advice and "too dry" in advice)
    assert not ("too rich" in advice and "too lean" in advice)
    added = re.findall(r"(\d+) (kg|litres of) ([a-z ]+?)(?:, about| and|$| \()", advice.partition("add ")[2])
    assert added, advice
    water = sum(float(kg) for kg, unit, _ in added if unit != "kg")
    more = [(what, float(kg)) for kg, unit, what in added if unit == "kg"]
    if water:  # a litre is a kilogram; what is only wet has nothing else in it
        assert f"{water:.0f} litres of water" in advice
        assert re.search(r"then C:N (2[5-9]|3\d|40), water (5\d|60) %", advice)
        return
    assert told(garden(tmp_path, *mix, *more))["mends"] == []


def test_cooled_from_58_to_44_wants_turning(tmp_path: Path) -> None:
    """A core that was over 55 C and falls below 45 C is turned (NRAES-54, recalled)."""
    folder = garden(tmp_path, ("leaves", 10), ("grass clippings", 20))
    note(folder, "reading bay 58", "2027-04-10")
    assert told(folder, "2027-04-10")["to_do"] != "turn now"
    note(folder, "bay 44", ON)  # the heap's name and a number are a reading too
    found = told(folder)
    assert (found["to_do"], found["due"], found["mature"]) == ("turn now", True, False)
    round_now = json.loads(run("round", str(folder), "--on", ON, "--json").stdout)
    assert [job["id"] for job in round_now["jobs"] if job["verb"] == "turn"] == ["bay:turn:2027"]
    assert run("done", str(folder), "bay:turn", "--on", ON).returncode == 0
    assert told(folder)["to_do"] != "turn now"


def test_ripe_by_its_warmth_is_not_turned(tmp_path: Path) -> None:
    """Hot, turned, then less than 10 C above the air on two looks: mature, and no turning beside it."""
    folder = garden(tmp_path, ("leaves", 10), ("grass clippings", 20))
    for degrees, on in ((60, "2027-03-20"), (42, "2027-04-20")):
        note(folder, f"heap bay {degrees} C", on)
    assert run("done", str(folder), "bay:turn", "--on", "2027-04-21").returncode == 0
    for degrees, on in ((17, "2027-06-10"), (18, "2027-06-20")):
        note(folder, f"heap bay {degrees} C", on)
    found = told(folder, "2027-06-20")
    assert found["mature"] is True
    assert "turn" not in found["to_do"]
    jobs = json.loads(run("round", str(folder), "--on", "2027-06-20", "--json").stdout)["jobs"]
    assert "turn" not in {job["verb"] for job in jobs}


def test_without_a_thermometer_a_heap_is_turned_by_the_month_once_it_has_worked(tmp_path: Path) -> None:
    """Every two weeks or every month (Miami University, composting tour, read)."""
    folder = garden(tmp_path, ("leaves", 10), ("grass clippings", 20))

    def due(on: str) -> bool:
        jobs = json.loads(run("round", str(folder), "--on", on, "--json").stdout)["jobs"]
        return any(job["verb"] == "turn" and job["state"] in ("due", "late") for job in jobs)

    for on in ("2027-05-20", "2027-06-03", "2027-06-17", "2027-07-01"):
        assert due(on), on
        assert run("done", str(folder), "bay:turn", "--on", on).returncode == 0
    assert not due("2027-07-14")
    assert due("2027-08-01")
    assert "Cool, dark and crumbly it is done" in run("heaps", str(folder), "--on", "2027-08-01").stdout
    assert due("2028-04-20")
    assert "crumbly" not in run("heaps", str(folder), "--on", "2028-04-20").stdout


def test_too_hot_is_said_on_top(tmp_path: Path) -> None:
    folder = garden(tmp_path, ("leaves", 10), ("grass clippings", 20))
    note(folder, "reading bay 78", ON)
    assert str(told(folder)["to_do"]).startswith("too hot: turn now")
    assert "78 C" in run("heaps", str(folder), "--on", ON).stdout


def test_a_heap_is_noted_by_words_too(tmp_path: Path) -> None:
    folder = garden(tmp_path, ("leaves", 10))
    note(folder, "bay smells of eggs", ON)
    assert told(folder)["course"] == []
