"""The stations of GHCN-Daily near a place, and the daily weather of one, without a key.

The archive lists its stations in two files: one tells which years each has of each element, the other its
height and name. The weather of a station is one file.

References
----------
.. [1] Menne, M. J., I. Durre, R. S. Vose, B. E. Gleason and T. G. Houston (2012). An overview of the Global
   Historical Climatology Network-Daily database. J. Atmos. Oceanic Technol. 29: 897-910.
.. [2] The archive's `readme.txt`, sections II (files), IV (`ghcnd-stations.txt`) and VII
   (`ghcnd-inventory.txt`), for addresses and columns.
"""

from __future__ import annotations

import math

from leafturn.base.patterns import pattern
from leafturn.base.value import Value
from leafturn.weather.fetch.kept import Kept
from leafturn.weather.fetch.line import Wanted
from leafturn.weather.fetch.source import Fetched
from leafturn.weather.readers.ghcn_daily import is_ghcn_daily, read_ghcn_daily

ADDRESS = "https://www.ncei.noaa.gov/pub/data/ghcn/daily"
EARTH_RADIUS_KM = 6371.0
NEAR_KM = 150.0  # how far off a station is still listed; guess, beyond it weather has little in common
LIST_FRESH_DAYS = 60  # stations are opened and closed by the year
PLAIN_TEXT = ("text/plain", "application/octet-stream", "")
MOST_LIST_BYTES = 128_000_000  # the longer list has some 40 MB
MOST_STATION_BYTES = 32_000_000  # two centuries of all elements are under 10 MB
NO_HEIGHT = -999.0  # and below: the height is not known

_ID = pattern(r"[A-Z]{2}[A-Z0-9_-]{9}")


class Station(Value):
    """A station that measures both temperatures.

    Parameters
    ----------
    id, name : str
        In the archive.
    km : float [km]
        From the place.
    height_m : float or None
        Above the sea.
    first, last : int
        Years between which it has both temperatures; there may be gaps.
    rain : bool
        Whether it measures rain too.
    """

    id: str
    name: str
    km: float
    height_m: float | None
    first: int
    last: int
    rain: bool


def is_station_id(word: str) -> bool:
    """Whether a word is written as the archive writes its stations."""
    return _ID.fullmatch(word) is not None


def near_stations(kept: Kept, address: str, place: tuple[float, float]) -> tuple[Station, ...]:
    """Stations round a place that measure both temperatures, nearest first.

    Parameters
    ----------
    kept : Kept
    address : str
        Of the archive.
    place : (latitude, longitude) [deg]

    Raises
    ------
    Unreadable
        If the lists cannot be had or understood.
    """
    inventory = _list(address, "ghcnd-inventory.txt", "the list of years")
    years = kept.get(inventory, lambda data: _years(data, inventory, place), LIST_FRESH_DAYS)
    described = _list(address, "ghcnd-stations.txt", "the list of stations")
    names = kept.get(described, lambda data: _names(data, described, years), LIST_FRESH_DAYS)
    found = [
        Station(
            id=id,
            name=names.get(id, ("", None))[0],
            km=held.km,
            height_m=names.get(id, ("", None))[1],
            first=max(held.first["TMIN"], held.first["TMAX"]),
            last=min(held.last["TMIN"], held.last["TMAX"]),
            rain="PRCP" in held.first,
        )
        for id, held in years.items()
        if {"TMIN", "TMAX"} <= held.first.keys()
    ]
    return tuple(sorted(found, key=lambda station: (station.km, station.id)))


def fetch_station(kept: Kept, address: str, station: Station) -> Fetched:
    """Bring all days of a station.

    Raises
    ------
    Unreadable
        If they cannot be had or understood.
    """
    wanted = Wanted(
        url=f"{address}/all/{station.id}.dly",
        types=PLAIN_TEXT,
        most_bytes=MOST_STATION_BYTES,
        what="the daily weather",
    )

    def read(data: bytes) -> Fetched:
        text = data.decode("ascii", errors="replace")
        reading = read_ghcn_daily(text, station.id) if is_ghcn_daily(text) else None
        if reading is None or reading.record is None:
            wanted.refuse("what it sent is no station file of GHCN-Daily.")
        if reading.faults:
            wanted.refuse(f"a line of what it sent cannot be read: {reading.faults[0].sentence()}")
        where = f"station {station.id}" + (f", {station.name}" if station.name else "")
        return Fetched(
            record=reading.record,
            notes=reading.notes,
            archive="GHCN-Daily",
            where=f"{where}, {station.km:.0f} km off",
            height_m=station.height_m,
        )

    return kept.get(wanted, read, fresh_days=0)


class _Held(Value):
    """How far a station is, and the years of each element it has."""

    km: float
    first: dict[str, int]
    last: dict[str, int]


def _list(address: str, file: str, what: str) -> Wanted:
    return Wanted(url=f"{address}/{file}", types=PLAIN_TEXT, most_bytes=MOST_LIST_BYTES, what=what)


def _years(data: bytes, wanted: Wanted, place: tuple[float, float]) -> dict[str, _Held]:
    """What stations near the place have: columns of the inventory, in bytes since there are many lines."""
    found: dict[str, _Held] = {}
    lines = data.splitlines()
    degrees = math.degrees(NEAR_KM / EARTH_RADIUS_KM)
    south, north = place[0] - degrees, place[0] + degrees
    try:
        for line in lines:
            if line[31:35] not in (b"TMIN", b"TMAX", b"PRCP") or not south <= float(line[12:20]) <= north:
                continue
            km = _km(place, (float(line[12:20]), float(line[21:30])))
            if km <= NEAR_KM:
                held = found.setdefault(line[:11].decode(), _Held(km=km, first={}, last={}))
                element = line[31:35].decode()
                held.first[element], held.last[element] = int(line[36:40]), int(line[41:45])
    except ValueError:
        wanted.refuse(f"{wanted.what} is not in the form that its guide tells.")
    if not any(line[31:35] == b"TMIN" for line in lines):
        wanted.refuse(f"{wanted.what} is not in the form that its guide tells.")
    return found


def _names(data: bytes, wanted: Wanted, among: dict[str, _Held]) -> dict[str, tuple[str, float | None]]:
    """Names and heights [m] of some stations."""
    found: dict[str, tuple[str, float | None]] = {}
    lines = data.splitlines()
    try:
        for line in lines:
            if (id := line[:11].decode("ascii", errors="replace")) in among:
                height = float(line[31:37])
                name = "".join(
                    letter for letter in line[41:71].decode("ascii", "replace") if letter.isprintable()
                )
                found[id] = name.strip(), height if height > NO_HEIGHT else None
    except ValueError:
        wanted.refuse(f"{wanted.what} is not in the form that its guide tells.")
    if not lines or not is_station_id(lines[0][:11].decode("ascii", errors="replace")):
        wanted.refuse(f"{wanted.what} is not in the form that its guide tells.")
    return found


def _km(a: tuple[float, float], b: tuple[float, float]) -> float:
    """Great-circle distance by the haversine formula."""
    (north, east), (other_north, other_east) = (tuple(map(math.radians, p)) for p in (a, b))
    h = math.sin((other_north - north) / 2) ** 2
    h += math.cos(north) * math.cos(other_north) * math.sin((other_east - east) / 2) ** 2
    return 2 * EARTH_RADIUS_KM * math.asin(min(1.0, math.sqrt(h)))
