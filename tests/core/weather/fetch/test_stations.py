"""Stations near a place, from the archive's two lists."""

from __future__ import annotations

import time
from pathlib import Path

import pytest
from tests.core.weather.fetch.test_kept import DAY
from tests.samples.archive_files import inventory, station_file, stations
from tests.samples.archive_server import Answer, Archive, archive, reply

from leafturn.base.faults import Unreadable
from leafturn.weather.fetch.kept import Kept
from leafturn.weather.fetch.line import Line
from leafturn.weather.fetch.stations import Station, fetch_station, near_stations

PLACE = (46.93, 15.87)
LISTS: dict[str, Answer] = {
    "/ghcnd-inventory.txt": reply(inventory()),
    "/ghcnd-stations.txt": reply(stations()),
}


def kept(server: Archive, folder: Path) -> Kept:
    line = Line(
        tls=server.tls, clock=time.monotonic, pause=lambda seconds: None, until=time.monotonic() + 20,
        agent="tests/1", report=lambda wanted, came, of: None,
    )  # fmt: skip
    return Kept(folder, line, DAY)


def test_stations_with_both_temperatures_nearest_first(tmp_path: Path) -> None:
    with archive(LISTS) as server:
        mill, airfield = near_stations(kept(server, tmp_path), server.address, PLACE)
    assert mill == Station(
        id="AUZ00000002", name="HOHE MUEHLE", km=mill.km, height_m=None, first=1953, last=2010, rain=False
    )
    assert (airfield.height_m, airfield.first, airfield.last, airfield.rain) == (377.0, 1894, 2026, True)
    # a minute of latitude is 1.852 km by the nautical mile; longitude shrinks by the cosine of the latitude
    assert mill.km == pytest.approx(15.7, abs=0.2)
    assert airfield.km == pytest.approx(32.3, abs=0.4)


def test_over_the_date_line_it_is_not_far(tmp_path: Path) -> None:
    line = "FJZ00000001 -17.7500  179.9000 {} 1950 2020\n"
    listed = reply("".join(line.format(element) for element in ("TMAX", "TMIN")).encode())
    with archive(LISTS | {"/ghcnd-inventory.txt": listed}) as server:
        (near,) = near_stations(kept(server, tmp_path), server.address, (-17.75, -179.9))
    assert near.km == pytest.approx(21.2, abs=0.2)
    assert near.height_m is None  # the other list does not have it


def test_a_station_file_is_read_and_what_the_archive_doubts_is_a_gap(tmp_path: Path) -> None:
    with archive(LISTS | {"/all/AUZ00000001.dly": reply(station_file(), "")}) as server:
        archive_files = kept(server, tmp_path)
        _, airfield = near_stations(archive_files, server.address, PLACE)
        fetched = fetch_station(archive_files, server.address, airfield)
    assert server.paths() == ["/ghcnd-inventory.txt", "/ghcnd-stations.txt", "/all/AUZ00000001.dly"]
    assert server.most_at_once == 1
    assert fetched.where == "station AUZ00000001, WEIRSTADT FLUGPLATZ, 32 km off"
    (note,) = fetched.notes
    assert note.startswith("1 value of AUZ00000001 failed the archive's own checks and counts as a gap: ")
    assert note.endswith("the maximum of 2020-07-04 (26.5 C, internal consistency check).")


@pytest.mark.parametrize(
    ("path", "body"),
    [
        ("/ghcnd-inventory.txt", b"<html>no such file</html>\n"),
        ("/ghcnd-inventory.txt", b""),
        ("/ghcnd-inventory.txt", inventory().replace(b" 46.9800", b" 46,9800")),
        ("/ghcnd-stations.txt", b"<html>no such file</html>\n"),
        ("/ghcnd-stations.txt", stations().replace(b" 377.0", b"  here")),
    ],
)
def test_a_list_of_another_form_costs_one_sentence_and_is_not_kept(
    path: str, body: bytes, tmp_path: Path
) -> None:
    with archive(LISTS | {path: reply(body)}) as server:
        with pytest.raises(Unreadable, match="is not in the form that its guide tells"):
            near_stations(kept(server, tmp_path), server.address, PLACE)
        server.answers |= {path: [LISTS[path]]}
        assert len(near_stations(kept(server, tmp_path), server.address, PLACE)) == 2


@pytest.mark.parametrize(
    "body", [b"<html>", b"", station_file()[:270] + b"what is this\n" + station_file()[270:]]
)
def test_a_station_file_of_another_form_costs_one_sentence(body: bytes, tmp_path: Path) -> None:
    with archive(LISTS | {"/all/AUZ00000001.dly": reply(body)}) as server:
        archive_files = kept(server, tmp_path)
        _, airfield = near_stations(archive_files, server.address, PLACE)
        with pytest.raises(Unreadable, match=r"no station file|cannot be read"):
            fetch_station(archive_files, server.address, airfield)
