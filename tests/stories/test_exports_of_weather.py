"""Weather files as programs and archives export them: read right, or asked about in one sentence.

Tenths of a degree are the unit of TMAX and TMIN in the archive's own tables (GHCN-Daily, readme.txt, section
III). The weather is made up: a sine through the year, which every form below holds alike.
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Callable
from pathlib import Path

import pytest
from tests.in_process import run

DAY = ("--on", "2027-04-19")
GARDEN = '[place]\nlat = 42.3\nlon = -76.5\nweather = "weather.csv"\n\n[[plant]]\nkind = "pear"\n'
DAYS = [dt.date(2025, 1, 1) + dt.timedelta(days) for days in range(838)]


def extremes(day: dt.date) -> tuple[float, float]:
    middle = 9 - 12 * math.cos(2 * math.pi * (day.timetuple().tm_yday - 20) / 365)
    return middle - 5, middle + 5


def with_weather(folder: Path, head: str, row: Callable[[dt.date, float, float], str]) -> str:
    (folder / "garden.toml").write_text(GARDEN, encoding="utf-8")
    rows = "".join(f"{row(day, *extremes(day))}\n" for day in DAYS)
    (folder / "weather.csv").write_text(f"{head}\n{rows}", encoding="utf-8")
    return str(folder)


def tenths(day: dt.date, low: float, high: float) -> str:
    return f"{day},{low * 10:.0f},{high * 10:.0f}"


def kelvin(day: dt.date, low: float, high: float) -> str:
    return f"{day},{low + 273.15:.1f},{high + 273.15:.1f}"


@pytest.mark.parametrize(
    ("head", "row", "asked"),
    [
        ("DATE,TMIN,TMAX", tenths, "tenths of a degree?"),
        ("date,tmin_c,tmax_c", tenths, "tenths of a degree?"),
        ("date,tmin,tmax", kelvin, "kelvin?"),
    ],
    ids=["tenths", "tenths under Celsius", "kelvin"],
)  # fmt: skip
def test_temperatures_of_neither_unit_are_asked_about_and_none_is_used(
    head: str, row: Callable[[dt.date, float, float], str], asked: str, tmp_path: Path
) -> None:
    """Read as Fahrenheit, the pear opened a fortnight early, and nothing was said to be wrong."""
    garden = with_weather(tmp_path, head, row)
    done = run("check", garden, *DAY)
    assert done.returncode == 1
    assert asked in done.stderr + done.stdout
    assert "No temperature of the file is used" in done.stderr + done.stdout
    told = run("season", garden, *DAY).stdout
    (tmp_path / "garden.toml").write_text(GARDEN.replace('weather = "weather.csv"\n', ""), encoding="utf-8")
    assert told == run("season", garden, *DAY).stdout


def test_a_minus_sign_of_print_is_a_minus(tmp_path: Path) -> None:
    """U+2212, as spreadsheets in several languages and web pages write it; such days were gaps."""
    plain, printed = tmp_path / "plain", tmp_path / "printed"
    for folder, minus in ((plain, "-"), (printed, "\N{MINUS SIGN}")):
        folder.mkdir()
        with_weather(
            folder,
            "date,tmin_c,tmax_c",
            lambda day, low, high, minus=minus: f"{day},{low:.1f},{high:.1f}".replace(",-", f",{minus}"),
        )
    told = [run("season", str(folder), *DAY) for folder in (plain, printed)]
    assert [done.returncode for done in told] == [0, 0]
    assert told[0].stdout == told[1].stdout


def test_cells_that_name_their_unit_are_read_and_no_unit_is_asked(tmp_path: Path) -> None:
    told = []
    for name, head, unit in (("plain", "date,tmin_c,tmax_c", ""), ("named", "date,tmin,tmax", "°C")):
        (tmp_path / name).mkdir()
        garden = with_weather(
            tmp_path / name,
            head,
            lambda day, low, high, unit=unit: f"{day},{low:.1f}{unit},{high:.1f}{unit}",
        )
        done = run("check", garden, *DAY)
        assert done.stdout.startswith("No faults: ")
        assert "numbers do not tell" not in done.stdout + done.stderr
        told.append(run("season", garden, *DAY).stdout)
    assert told[0] == told[1]


def test_maxima_without_a_minimum_are_told_in_sentences_alone(tmp_path: Path) -> None:
    """No warning of a library, which an empty column would call forth."""
    garden = with_weather(tmp_path, "DATE,TMIN,TMAX", lambda day, low, high: f"{day},,{high * 10:.0f}")
    done = run("check", garden, *DAY)
    assert done.returncode in (0, 1)
    assert "Warning" not in done.stderr
