"""The list `also`, and the gardens that it names."""

from __future__ import annotations

import datetime as dt
import os
from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn.almanac import open_almanac
from leafturn.assembly.other_gardens import fault_named
from leafturn.base.faults import Fault
from leafturn.garden.reading.other_gardens import MOST
from leafturn.garden.reading.reader import read_garden


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for name in ("mill", "school"):
        almanac_of(tmp_path / name, garden_text(plant("pip", "apple", year=2012), name=name), "2027-04-19")
    (tmp_path / "link").symlink_to(tmp_path / "mill")
    (tmp_path / "ring").symlink_to(tmp_path / "ring")
    (tmp_path / "notes.txt").write_text("the secret word")
    (tmp_path / "here").mkdir()
    return tmp_path


def read(folder: Path, also: str) -> tuple[tuple[str, ...], list[str]]:
    (folder / "here" / "garden.toml").write_text(f"also = {also}\n{garden_text()}")
    reading = read_garden(folder / "here")
    return reading.garden.also, [fault.message for fault in reading.faults]


def test_gardens_are_named_by_the_way_from_this_one(folder: Path) -> None:
    assert read(folder, '["../mill", "../school/garden.toml"]') == (("../mill", "../school/garden.toml"), [])
    assert read(folder, '"../mill"') == (("../mill",), [])


@pytest.mark.parametrize(
    ("named", "said"),
    [('""', "no name of a garden"), ("7", "no name of a garden"), ('"~/mill"', "does not begin at"),
     ('"/mill"', "does not begin at"), ('"../none"', "no such folder"), ('"../notes.txt"', "no garden file"),
     ('"."', "this garden itself"), ('"../link"', "a link to another place"), ('"../ring"', "no such folder"),
     ('"../mill/"', "twice")],
)  # fmt: skip
def test_what_cannot_be_a_garden_beside_is_left_out_and_said(folder: Path, named: str, said: str) -> None:
    kept, faults = read(folder, f'["../mill", {named}]')
    assert kept == ("../mill",)
    (fault,) = faults
    assert said in fault


def test_no_list_and_too_long_a_list(folder: Path) -> None:
    assert read(folder, "3") == ((), ["also is no list of gardens; it is left out."])
    kept, faults = read(folder, str(["../mill"] * (MOST + 1)))
    assert kept == ("../mill",)
    assert faults[0] == f"also names {MOST + 1} gardens; only the first {MOST} are read."


def test_one_that_cannot_be_read_costs_the_others_nothing(folder: Path) -> None:
    (folder / "school" / "garden.toml").write_text("[place\n")
    read(folder, '["../school", "../mill"]')
    school, mill = open_almanac(folder / "here", dt.date(2027, 4, 19)).also()
    assert school.garden is None
    assert school.fault is not None
    assert school.fault.file == "../school/garden.toml"
    assert mill.garden is not None
    assert mill.garden.garden.place.name == "mill"


def test_a_fault_is_told_under_the_name_its_garden_was_given() -> None:
    fault = Fault(file="garden.toml", line=3, message="it is odd.")
    assert fault_named(fault, f"..{os.sep}mill{os.sep}").file == "../mill/garden.toml"
    assert fault_named(fault, "../garden.toml").file == "../garden.toml"
