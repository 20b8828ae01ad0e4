"""A garden file to begin with."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.in_process import run

from leafturn.almanac import open_almanac


def test_a_new_garden_opens_without_a_fault(tmp_path: Path) -> None:
    folder = tmp_path / "far" / "orchard"
    words = (
        "--name",
        'The "long" [strip]',
        "--lat",
        "46.9",
        "--lon",
        "-15.9",
        "--last-frost",
        "04-24",
        "--first-frost",
        "10-16",
    )
    done = run("new", str(folder), *words)
    assert (done.returncode, done.stderr) == (0, "")
    almanac = open_almanac(folder, dt.date(2027, 4, 19))
    assert almanac.faults == ()
    assert (almanac.garden.place.name, almanac.garden.place.lat) == ('The "long" [strip]', 46.9)
    assert run("round", str(folder), "--on", "2027-04-19").returncode == 0
    commented = (folder / "garden.toml").read_text().split("surer.\n#\n")[1]
    filled = "\n".join(line.removeprefix("# ").removeprefix("#") for line in commented.splitlines())
    (folder / "garden.toml").write_text((folder / "garden.toml").read_text() + filled)
    assert open_almanac(folder, dt.date(2027, 4, 19)).faults == (), "the lines shown as an example are right"


@pytest.mark.parametrize(("typed", "kept"), [("Never", "never"), ("1 year in 5", "1 year in 5")])
def test_frost_may_never_come_or_seldom(typed: str, kept: str, tmp_path: Path) -> None:
    words = ("--lat", "32.7", "--lon", "-117.2", "--last-frost", typed)
    assert run("new", str(tmp_path / "s"), *words).returncode == 0
    assert f'last_frost = "{kept}"' in (tmp_path / "s" / "garden.toml").read_text()
    almanac = open_almanac(tmp_path / "s", dt.date(2027, 4, 19))
    assert almanac.faults == ()
    assert almanac.season().frost.last_years <= 0.21


def test_in_the_south_with_a_latitude_alone(tmp_path: Path) -> None:
    assert run("new", str(tmp_path / "s"), "--lat", "-43.4").returncode == 0
    assert open_almanac(tmp_path / "s", dt.date(2027, 4, 19)).garden.place.southern


@pytest.mark.parametrize(
    ("place", "kept"),
    [
        (("46.9", "15.9"), "europe"),
        (("44", "-72"), "north america"),
        (("-33.9", "151"), "australia"),
        (("-41", "174"), "new zealand"),
        (("35", "139"), None),
        (("46.9", "15.9", "--region", "Bavaria, Germany"), "Bavaria, Germany"),
    ],
)
def test_the_region_is_that_of_the_place_or_as_typed(
    place: tuple[str, ...], kept: str | None, tmp_path: Path
) -> None:
    lat, lon, *region = place
    assert run("new", str(tmp_path / "s"), "--lat", lat, "--lon", lon, *region).returncode == 0
    almanac = open_almanac(tmp_path / "s", dt.date(2027, 4, 19))
    assert almanac.faults == ()
    assert almanac.garden.place.region == kept


def test_nothing_is_overwritten(tmp_path: Path) -> None:
    (tmp_path / "garden.toml").write_text("mine")
    done = run("new", str(tmp_path), "--lat", "46.9")
    assert done.returncode == 2
    assert "is there already; nothing was written." in done.stderr
    assert (tmp_path / "garden.toml").read_text() == "mine"


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ([], "A latitude is needed, such as --lat 46.9"),
        (["--lat", "460"], "'460' is no latitude; write degrees from -90 to 90"),
        (["--lat", "46.9", "--lon", "200"], "'200' is no longitude; write degrees from -180 to 180"),
        (["--lat", "46.9", "--region", "narnia"], "'narnia' is not known here. Write a country"),
        (["--lat", "nan"], "'nan' is no latitude"),
        (["--lat", "46,9", "--last-frost", "april"], "'april' is no day of the year. Write 24 April"),
        (["--lat", "46.9", "--last-frost", "02-30"], "'02-30' is no day of the year"),
    ],
)
def test_what_is_wrong_is_said_and_nothing_written(tmp_path: Path, words: list[str], said: str) -> None:
    done = run("new", str(tmp_path / "new"), *words)
    assert done.returncode == 2
    assert said in done.stderr
    assert not (tmp_path / "new").exists()


def test_a_folder_that_cannot_be_made_is_said(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    done = run("new", str(tmp_path / "file" / "garden"), "--lat", "46.9")
    assert done.returncode == 2
    assert "cannot be written" in done.stderr
