"""Weather without typing: fetched, shown beside what is counted with, and only then written."""

from __future__ import annotations

import datetime as dt
import json
import ssl
from collections.abc import Callable
from pathlib import Path

import pytest
from tests.in_process import refused, run
from tests.samples.archive_files import inventory, power_answer, station_file, stations
from tests.samples.archive_server import Answer, Archive, archive, reply
from tests.samples.garden_text import garden_text, plant

from leafturn.almanac import open_almanac
from leafturn_tui.cli import weather_fetch

POINT = "/api/temporal/daily/point"
MEDIA = "application/json"
WHOLE: dict[str, Answer] = {
    POINT: reply(power_answer(), MEDIA),
    "/ghcnd-inventory.txt": reply(inventory()),
    "/ghcnd-stations.txt": reply(stations()),
    "/all/AUZ00000001.dly": reply(station_file()),
}

Pointed = Callable[[Archive], None]


@pytest.fixture
def at(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Pointed:
    """Let the command ask a local archive, without waiting, with a cache of its own."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))

    def pointed(server: Archive) -> None:
        here = weather_fetch.Archives(
            power=server.address, ghcn=server.address, tls=lambda: server.tls, pause=lambda seconds: None
        )
        monkeypatch.setattr(weather_fetch, "ARCHIVES", here)

    return pointed


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    folder = tmp_path / "weir"
    folder.mkdir()
    text = garden_text(plant("pear", "pear"), name="Weir Meadow", height_m=360.0)
    (folder / "garden.toml").write_text(text, encoding="utf-8")
    return folder


def test_it_is_shown_beside_what_the_garden_counts_with_and_written_after_a_yes(
    garden: Path, at: Pointed
) -> None:
    with archive(WHOLE) as server:
        at(server)
        done = run("weather", "fetch", str(garden), "--yes")
    assert done.returncode == 0
    said = done.stdout.splitlines()
    assert said[0] == "From NASA POWER: the cell of its grid that holds 46.93 N, 15.87 E."
    assert said[1].startswith("That is 152 m above the garden, which is likely 1.0 C warmer")
    assert said[2].startswith("Recorded: Thu 1 Jan 2015 to Fri 20 Nov 2026, 4340 days of 4342")
    assert any(line.startswith("Not known: 4 Jul 2020 to 4 Jul 2020, 1 day") for line in said)
    assert any("2020-07-04 (77.0 C) was set aside as wrong" in line for line in said)
    (january,) = [line.split() for line in said if line.startswith("January")]
    assert january[3] == "-5.0"  # here now, as the garden file states it
    assert float(january[1]) == pytest.approx(-6.0, abs=1)  # as the archive's wave has it
    assert 'under [place]: weather = "weather.csv"' in said[-1]
    (asked,) = server.asked
    assert "latitude=46.93&longitude=15.87&start=19810101" in asked.path
    file = garden / "garden.toml"
    file.write_text(file.read_text().replace("[place]", '[place]\nweather = "weather.csv"'))
    almanac = open_almanac(garden, dt.date(2026, 11, 28))
    assert almanac.faults == ()
    recorded = almanac.weather().recorded
    assert recorded is not None
    assert (recorded.first, recorded.last, recorded.known) == (
        dt.date(2015, 1, 1),
        dt.date(2026, 11, 20),
        4340,
    )
    assert list(garden.glob(".*")) == []


def test_without_a_yes_nothing_is_written(garden: Path, at: Pointed) -> None:
    with archive(WHOLE) as server:
        at(server)
        done = run("weather", "fetch", str(garden))
    assert done.returncode == 2
    assert "Recorded: " in done.stdout
    assert done.stderr == "Nothing was written: say --yes to have it written without being asked.\n"
    assert not (garden / "weather.csv").exists()


def test_stations_are_listed_with_distance_height_and_years_and_one_is_taken(
    garden: Path, at: Pointed
) -> None:
    with archive(WHOLE) as server:
        at(server)
        listed = run("weather", "fetch", str(garden), "--stations").stdout.splitlines()
        done = run("weather", "fetch", str(garden), "--station", "auz00000001", "--yes")
    assert listed[1].split() == [
        "AUZ00000002",
        "16",
        "not",
        "known",
        "1953",
        "to",
        "2010",
        "no",
        "HOHE",
        "MUEHLE",
    ]
    assert listed[2].split()[:6] == ["AUZ00000001", "32", "+17", "m", "1894", "to"]
    assert "FAR AWAY" not in "".join(listed)
    assert done.stdout.startswith("From GHCN-Daily: station AUZ00000001, WEIRSTADT FLUGPLATZ, 32 km off.")
    assert "1 value of AUZ00000001 failed the archive's own checks and counts as a gap: " in done.stdout
    rows = (garden / "weather.csv").read_text().splitlines()
    assert server.paths().count("/ghcnd-inventory.txt") == 1  # kept from the first run
    assert [row.split(",")[2] for row in rows if row.startswith("2020-07-04,")] == [""]


def test_the_same_as_json_writes_only_with_a_yes(garden: Path, at: Pointed) -> None:
    with archive(WHOLE) as server:
        at(server)
        listed = json.loads(run("weather", "fetch", str(garden), "--stations", "--json").stdout)
        seen = json.loads(run("weather", "fetch", str(garden), "--json").stdout)
        assert not (garden / "weather.csv").exists()
        used = json.loads(run("weather", "fetch", str(garden), "--json", "--yes").stdout)
    assert [(one["id"], one["above_m"], one["rain"]) for one in listed["stations"]] == [
        ("AUZ00000002", None, False), ("AUZ00000001", 17, True),
    ]  # fmt: skip
    assert (seen["garden"], seen["written"], used["written"]) == ("Weir Meadow", None, "weather.csv")
    fetched = seen["fetched"]
    assert (fetched["archive"], fetched["above_m"], fetched["recorded"]["known"]) == (
        "NASA POWER",
        152.4,
        4340,
    )
    assert fetched["here"][0]["tmin_c"] == pytest.approx(-5.0, abs=0.1)
    assert (garden / "weather.csv").exists()


def test_a_file_that_no_fetch_wrote_is_never_overwritten(garden: Path, at: Pointed) -> None:
    own = garden / "weather.csv"
    own.write_text("date,tmin_c,tmax_c\n2026-01-01,-3,4\n")
    with archive(WHOLE) as server:
        at(server)
        said = refused("weather", "fetch", str(garden), "--yes")
        assert server.asked == []  # said before anything is fetched
        assert said.startswith("weather.csv: no fetch wrote this")
        assert own.read_text().startswith("date,")
        run("weather", "fetch", str(garden), "--yes", "--into", "fetched.csv")
        assert run("weather", "fetch", str(garden), "--yes", "--into", "fetched.csv").returncode == 0
        with (garden / "fetched.csv").open("a") as file:
            file.write("2026-11-21,1,2,0\n")
        assert "or it was changed since" in refused("weather", "fetch", str(garden), "--into", "fetched.csv")
        (garden / "link.csv").symlink_to(garden / "elsewhere.csv")
        assert "no fetch wrote this" in refused("weather", "fetch", str(garden), "--into", "link.csv")
    assert not (garden / "elsewhere.csv").exists()


@pytest.mark.parametrize(
    "words", [["--into", "../x.csv"], ["--into", "x.toml"], ["--within", "0"], ["--on", "2026-01-01"]]
)
def test_words_that_cannot_be_meant_are_said(words: list[str], garden: Path, at: Pointed) -> None:
    assert "More: leafturn weather fetch --help" in refused("weather", "fetch", str(garden), *words)


def test_offline_is_one_plain_sentence(garden: Path, at: Pointed) -> None:
    at(Archive(answers={}, tls=ssl.create_default_context(), address="https://no-such-archive.invalid"))
    said = refused("weather", "fetch", str(garden), "--yes")
    assert said == (
        "no-such-archive.invalid: it cannot be reached. Is this machine online? Nothing was changed.\n"
    )


@pytest.mark.parametrize(
    ("answer", "said"),
    [
        (reply(b"<html>sorry</html>", "text/html"), "it sent a web page in place of the daily weather."),
        (reply(b"<html>sorry</html>", MEDIA), "this is no daily weather of NASA POWER."),
        (reply(b'{"detail": "limit"}', MEDIA, "429 Too Many", Retry_After="7200"), "ask again in 120 min."),
        (reply(b'{"detail": "no"}', MEDIA, "422 Refused"), "it refuses the daily weather (status 422)."),
        (reply(b"", MEDIA, "302 Found", Location="http://localhost/"), "which was not followed."),
    ],
)  # fmt: skip
def test_whatever_an_archive_does_costs_one_sentence_and_no_file(
    answer: Answer, said: str, garden: Path, at: Pointed
) -> None:
    with archive({POINT: answer}) as server:
        at(server)
        assert said in refused("weather", "fetch", str(garden), "--yes")
    assert sorted(path.name for path in garden.iterdir()) == ["garden.toml"]


def test_a_station_that_is_not_there_is_said(garden: Path, at: Pointed) -> None:
    with archive(WHOLE) as server:
        at(server)
        assert "no station of that name within 150 km" in refused(
            "weather", "fetch", str(garden), "--station", "X1"
        )


def test_the_addresses_are_those_of_the_archives_and_of_https() -> None:
    here = weather_fetch.Archives()
    assert here.power == "https://power.larc.nasa.gov"
    assert here.ghcn == "https://www.ncei.noaa.gov/pub/data/ghcn/daily"
    assert here.tls().verify_mode == ssl.CERT_REQUIRED
