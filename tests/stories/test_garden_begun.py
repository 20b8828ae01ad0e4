"""A garden begun from nothing by keys alone, up to its first Round; and the same in plain lines."""

from __future__ import annotations

import datetime as dt
import json
import os
from pathlib import Path

import pytest
from terminal import Terminal
from tests.in_process import run

from leafturn.almanac import open_almanac
from leafturn.kinds.library import load_library
from leafturn.kinds.search import KindSearch

PLANTS = (
    # letters, kind, cultivar, year as typed (nothing: that of the plant before), place as typed
    ("comi", "pear", "Comice", "2012", "10n"),
    ("bartl", "pear", "Bartlett", "", "5e"),
    ("heartn", "heartnut", "", "", "12n"),
    ("marig", "sweet chestnut", "Marigoule", "", "20e"),
    ("quince", "quince", "", "", "8s"),
    ("medl", "medlar", "", "", "6w"),
    ("regent", "", "", "", "4s"),
    ("hazel", "hazel", "", "", "5e"),
    ("cosf", "hazel", "Cosford", "", "5e"),
    ("elderb", "elderberry", "", "", "7n"),
    ("black curr", "blackcurrant", "", "", "3s"),
    ("comfr", "comfrey", "", "", "1s"),
    ("sea buck", "sea buckthorn", "", "", "9w"),
    ("rhub", "rhubarb", "", "", "2n"),
    ("hardy kiwi", "hardy kiwi", "", "", "6e"),
)
MOST_KEYS = 12  # a plant, beside the letters of its name


class Counted:
    """Types into a terminal and counts what is no letter of a name."""

    def __init__(self, terminal: Terminal) -> None:
        self.terminal = terminal
        self.keys = 0

    def keyed(self, keys: str) -> None:
        """Keys that count."""
        self.keys += len(keys)
        self.terminal.type(keys)

    def plant(self, letters: str, year: str, place: str, skipped: int) -> None:
        """One plant; `skipped` questions are left with Enter."""
        self.terminal.type(letters)
        self.keyed("\r" + "\r" * skipped + year + "\r" + place + "\r")


def questions_skipped(kind: str, cultivar: str) -> int:
    """How many questions between kind and year are asked: of the cultivar, of the rootstock."""
    library = load_library()[0]
    found = library.kinds[kind]
    asked = not cultivar and bool(found.cultivars or found.also_grown)
    return asked + any(kind in stock.kinds for stock in library.rootstocks)


@pytest.mark.long
def test_fifteen_plants_from_nothing_by_keys_alone(tmp_path: Path) -> None:
    folder = tmp_path / "weir"
    search = KindSearch(load_library()[0])
    with Terminal(["new", str(folder)], size=(100, 32)) as terminal:
        terminal.wait_for("What is the garden called?")
        terminal.type("Weir Meadow\r95N\r")
        terminal.wait_for("'95N' is no latitude")
        terminal.type("\x1546°54' N 15.9E\rnarnia\r")
        terminal.wait_for("'narnia' is not known here")
        terminal.type("\x15austria\r360\r30 October\x15")
        terminal.type("24 April\r30 October\rAna 3 light kneel\r\r")
        terminal.wait_for("0 plants so far")
        assert not folder.exists()
        counted = Counted(terminal)
        for n, (letters, kind, cultivar, year, place) in enumerate(PLANTS, 1):
            found = search.find(letters)[0]
            assert not kind or (found.kind, found.cultivar) == (kind, cultivar)
            counted.plant(letters, year, place, questions_skipped(found.kind, found.cultivar))
            terminal.wait_for(f"{n} plant{'s' if n > 1 else ''} so far")
        terminal.type("\r")
        terminal.wait_for("What now?")
        assert not folder.exists(), "nothing is written before it is said"
        terminal.type("1")
        terminal.wait_for("What needs hands this week?")
        assert terminal.leave() == 0
    print(f"{counted.keys / len(PLANTS):.1f} keys a plant beside the letters of names")
    assert counted.keys / len(PLANTS) < MOST_KEYS
    assert os.listdir(folder) == ["garden.toml"]
    almanac = open_almanac(folder, dt.date(2027, 4, 19))
    assert almanac.faults == ()
    assert almanac.garden.place.region == "austria"
    assert len(almanac.garden.plants) == len(PLANTS)
    assert all(p.point is not None and p.year == 2012 for p in almanac.garden.plants)
    assert almanac.garden.plants[1].at == "5 paces east of comice"
    told = json.loads(run("round", str(folder), "--on", "2027-03-01", "--json").stdout)
    assert told["jobs"], "a garden of fifteen plants has work in spring"


@pytest.mark.long
def test_leaving_writes_nothing_and_says_so(tmp_path: Path) -> None:
    for leaving in ("\x03", "\x1b0"):
        with Terminal(["new", str(tmp_path / "weir")], size=(80, 24)) as terminal:
            terminal.wait_for("What is the garden called?")
            terminal.type("Weir\r46.9N 15.9E\r")
            terminal.wait_for("In which country or state?")
            terminal.wait_for("europe, by its place")
            for key in leaving:
                terminal.press("escape", "escape", "escape") if key == "\x1b" else terminal.type(key)
            terminal.wait_for("Nothing was written.")
        assert not (tmp_path / "weir").exists()


@pytest.mark.parametrize("words", [["new", "weir"], ["."]])
def test_the_day_that_was_asked_for_is_shown_once_the_garden_is_begun(
    words: list[str], tmp_path: Path
) -> None:
    with Terminal([*words, "--on", "2027-04-19"], cwd=tmp_path, size=(80, 24)) as terminal:
        terminal.wait_for("What is the garden called?")
        terminal.type("\r46.9N 15.9E\r\r\r\r\r\r")
        terminal.wait_for("What now?")
        terminal.type("1")
        terminal.wait_for("19 Apr")


def test_a_folder_without_a_garden_offers_one(tmp_path: Path) -> None:
    with Terminal([], cwd=tmp_path, size=(80, 24)) as terminal:
        terminal.wait_for("What is the garden called?")
        terminal.press("escape")
        terminal.wait_for("What now?")
        terminal.press("0")
        terminal.wait_for("Nothing was written.")
    assert os.listdir(tmp_path) == []
    told = run(str(tmp_path))
    assert told.returncode == 2
    assert f"leafturn new {tmp_path}" in told.stderr


def test_in_plain_lines(tmp_path: Path) -> None:
    (tmp_path / "wx.csv").write_text("date,tmin_c,tmax_c,rain_mm\n2026-01-01,-3,4,0\n2026-01-02,-2,5,1\n")
    with Terminal(["new", str(tmp_path / "weir"), "--no-pages"], cwd=tmp_path, size=(160, 60)) as terminal:
        terminal.wait_for("What is the garden called?")
        terminal.type("\r42 bananas\r42 S\r171.2 E\r\r\rrare\rwx.csv\r\r")
        terminal.wait_for("'42 bananas' is not")
        terminal.wait_for("How rare?")
        terminal.wait_for("Plant 1")
        terminal.type("comice\r1\r\r2015\rby the shed\rgate\rxyzzy\rn\r\r")
        terminal.wait_for("Write this to")
        terminal.wait_for("the shed")  # it is said what is not understood
        terminal.type("y\r")
        terminal.wait_for("A garden file is now in")
    almanac = open_almanac(tmp_path / "weir", dt.date(2027, 4, 19))
    assert [f for f in almanac.faults if f.file == "garden.toml"] == []
    assert almanac.garden.place.southern
    assert almanac.garden.place.region == "new zealand", "by its place, since nothing was answered"
    assert almanac.garden.place.weather == "wx.csv"
    assert (tmp_path / "weir" / "wx.csv").exists()
    assert [(p.kind, p.cultivar, p.year, p.at) for p in almanac.garden.plants] == [
        ("pear", "Comice", 2015, "gate")
    ]


def test_plain_lines_that_end_leave_nothing(tmp_path: Path) -> None:
    for ending in ("\x03", "\x04"):
        with Terminal(["new", str(tmp_path / "weir"), "--no-pages"], size=(80, 24)) as terminal:
            terminal.wait_for("What is the garden called?")
            terminal.type("Weir\r46.9N 15.9E\r")
            terminal.wait_for("country or state?")
            terminal.type(ending)  # once it waits: what interrupts also throws away what was typed ahead
            terminal.wait_for("Nothing was written.")
        assert not (tmp_path / "weir").exists()
