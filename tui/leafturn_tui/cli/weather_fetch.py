"""The command `leafturn weather fetch`: daily weather of the garden's place from open archives."""

from __future__ import annotations

import argparse
import datetime as dt
import ssl
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from leafturn import __version__
from leafturn.answers.fetched_weather import fetched_weather
from leafturn.base import quantities
from leafturn.base.faults import Fault, Unreadable
from leafturn.base.value import Value
from leafturn.files.cache_folder import cache_folder
from leafturn.weather.fetch import power, stations
from leafturn.weather.fetch.kept import Kept
from leafturn.weather.fetch.line import Line, Wanted
from leafturn.weather.fetch.own_file import file_text, may_write, write
from leafturn.weather.fetch.source import Fetched
from leafturn_tui.cli.arguments import parser_for
from leafturn_tui.cli.asking import yes
from leafturn_tui.cli.opening import open_garden
from leafturn_tui.cli.statuses import FINE, UNREADABLE
from leafturn_tui.render.parts.fetched_weather import fetched_json, lines, station_lines, stations_json
from leafturn_tui.render.parts.printed import printed
from leafturn_tui.render.parts.values import Answer, json_text, shell
from leafturn_tui.safe_text import safe_text

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

ABOUT = """\
Fetch daily weather for the garden's place from an open archive, without a key, and show it before it is used.
Without more words it comes from NASA POWER, which reckons it for every place of the world since 1981 on
a grid of some 50 km. --stations lists the stations of GHCN-Daily round the place, --station takes one.
"""
FILE = "weather.csv"
MOST_STATIONS = 12
MINUTES = 10.0
MB = 1_000_000


class Archives(Value, kw_only=False):
    """Where the archives are, whose certificates are believed, and how one waits for them."""

    power: str = power.ADDRESS
    ghcn: str = stations.ADDRESS
    tls: Callable[[], ssl.SSLContext] = ssl.create_default_context
    pause: Callable[[float], None] = time.sleep


ARCHIVES = Archives()


def fetch(words: list[str], today: dt.date) -> int:
    """`leafturn weather fetch [GARDEN]`."""
    given = _given(words)
    almanac = open_garden(given.garden, today)
    kept = _kept(given.within, today)
    if given.stations:
        near = _near(almanac, kept)
        if given.json:
            return _json(almanac, {"stations": stations_json(near, almanac.garden.place.height_m)})
        return _list_stations(almanac, near, given.garden)
    place = almanac.garden.place
    file = almanac.folder / (given.into or _usual_name(place.weather))
    may_write(file)
    if given.station:
        fetched = _of_station(almanac, kept, given.station)
    else:
        fetched = power.fetch_power(kept, ARCHIVES.power, (place.lat, place.lon), today)
    if given.json:
        return _used_as_json(almanac, fetched, file, today, sure=given.yes)
    return _used(almanac, fetched, file, today, sure=given.yes)


def _given(words: list[str]) -> argparse.Namespace:
    parser = parser_for("weather fetch", ABOUT, json=True)
    parser.add_argument("--stations", action="store_true", help="only list the stations round the place")
    parser.add_argument("--station", metavar="ID", help="take the weather of this station")
    parser.add_argument("--into", metavar="NAME", help=f"the file in the garden's folder (default: {FILE})")
    parser.add_argument("--yes", action="store_true", help="write the file without asking")
    help_text = f"minutes it may take in all (default: {MINUTES:.0f}); asked again, it goes on from there"
    parser.add_argument("--within", metavar="MINUTES", type=float, default=MINUTES, help=help_text)
    given = parser.parse_args(words)
    if given.on is not None:
        parser.error("an archive is asked for all days up to today; leave --on away")
    if not 0 < given.within <= 24 * 60:
        parser.error("--within wants minutes, more than 0 and at most a day of them")
    if given.into and (Path(given.into).name != given.into or not given.into.endswith(".csv")):
        parser.error("--into wants the name of a file in the garden's folder, such as weather-fetched.csv")
    return given


def _usual_name(named: str | None) -> str:
    """The file that the garden names as its weather, if it is one in its own folder."""
    return named if named and Path(named).name == named and named.endswith(".csv") else FILE


def _kept(minutes: float, today: dt.date) -> Kept:
    line = Line(
        tls=ARCHIVES.tls(),
        clock=time.monotonic,
        pause=ARCHIVES.pause,
        until=time.monotonic() + 60 * minutes,
        agent=f"leafturn/{__version__} (daily weather for one garden, asked by hand)",
        report=_progress() if sys.stderr.isatty() else lambda wanted, came, of: None,
    )
    folder = cache_folder() or Path(tempfile.mkdtemp())
    return Kept(folder / "leafturn" / "weather", line, today)


def _progress() -> Callable[[Wanted, int, int], None]:
    """Says on one line how much has come, at most five times a second."""
    last = 0.0

    def report(wanted: Wanted, came: int, of: int) -> None:
        nonlocal last
        now, whole = time.monotonic(), came == of
        if whole or now - last > 0.2:
            last = now
            share = f"{came / MB:.1f} of {of / MB:.1f} MB" if of else f"{came / MB:.1f} MB"
            print(f"\r{wanted.host}: {wanted.what}, {share}  ", end="\n" if whole else "", file=sys.stderr)

    return report


def _near(almanac: AlmanacFace, kept: Kept) -> tuple[stations.Station, ...]:
    place = almanac.garden.place
    return stations.near_stations(kept, ARCHIVES.ghcn, (place.lat, place.lon))


def _near_words() -> str:
    return quantities.kilometres(stations.NEAR_KM)


def _list_stations(almanac: AlmanacFace, near: tuple[stations.Station, ...], garden: str) -> int:
    if not near:
        print(f"No station of GHCN-Daily within {_near_words()} measures both temperatures.")
        return FINE
    sys.stdout.write(printed(station_lines(near, almanac.garden.place.height_m, MOST_STATIONS)))
    where = "" if garden == "." else f" {safe_text(garden)}"
    print(f"Take one with: leafturn weather fetch{where} --station ID")
    return FINE


def _of_station(almanac: AlmanacFace, kept: Kept, id: str) -> Fetched:
    station = next((one for one in _near(almanac, kept) if one.id == id.upper()), None)
    if station is None:
        message = f"no station of that name within {_near_words()} measures both temperatures."
        raise Unreadable(
            Fault(file=id, line=None, message=message, hint="leafturn weather fetch --stations lists them.")
        )
    return stations.fetch_station(kept, ARCHIVES.ghcn, station)


def _used(almanac: AlmanacFace, fetched: Fetched, file: Path, today: dt.date, *, sure: bool) -> int:
    """Show what came, ask, and write it."""
    place = almanac.garden.place
    sys.stdout.write(printed(lines(fetched_weather(fetched, almanac.weather(), place.height_m))))
    print()
    if not sure and not sys.stdin.isatty():
        print("Nothing was written: say --yes to have it written without being asked.", file=sys.stderr)
        return UNREADABLE
    if not sure and not yes(f"Write this to {file.name} in the garden's folder?"):
        print("Nothing was written.")
        return FINE
    write(file, file_text(fetched, today.isoformat()))
    print(f"Written to {safe_text(file.name)} in the garden's folder.")
    if place.weather != file.name:
        name = safe_text(file.name)
        print(f'To have it used, name it in {safe_text(almanac.file.name)} under [place]: weather = "{name}"')
    return FINE


def _used_as_json(almanac: AlmanacFace, fetched: Fetched, file: Path, today: dt.date, *, sure: bool) -> int:
    """Tell what came; with --yes write it, without being asked."""
    told = fetched_json(fetched_weather(fetched, almanac.weather(), almanac.garden.place.height_m))
    if sure:
        write(file, file_text(fetched, today.isoformat()))
    return _json(almanac, {"fetched": told, "written": file.name if sure else None})


def _json(almanac: AlmanacFace, answer: Answer) -> int:
    print(json_text(shell(almanac) | answer))
    return FINE
