"""Daily weather of a point from NASA POWER, a worldwide reckoning on a grid, without a key.

Its minima and maxima are those of 2 m above the mean ground of a cell (half a degree of latitude by five
eighths of longitude), from 1981 on and to a few days before today.

References
----------
.. [1] NASA Langley Research Center, POWER Project: Daily API, https://power.larc.nasa.gov/docs/services/api/
"""

from __future__ import annotations

import datetime as dt
from urllib.parse import urlencode

from leafturn.weather.fetch.kept import Kept
from leafturn.weather.fetch.line import Wanted
from leafturn.weather.fetch.source import Fetched
from leafturn.weather.readers.nasa_power import QUANTITIES, read_nasa_power

ADDRESS = "https://power.larc.nasa.gov"
FIRST_DAY = dt.date(1981, 1, 1)
DECIMALS = 2  # of a degree: about a kilometre, far within a cell, and no more than the archive needs to know
MOST_BYTES = 32_000_000  # fifty years are about 1.5 MB


def fetch_power(kept: Kept, address: str, place: tuple[float, float], today: dt.date) -> Fetched:
    """Bring all days that the archive has of a place.

    Parameters
    ----------
    kept : Kept
    address : str
        Of the archive.
    place : (latitude, longitude) [deg]
    today : date

    Raises
    ------
    Unreadable
        If it cannot be had or understood.
    """
    latitude, longitude = (round(degrees, DECIMALS) for degrees in place)
    asked = {
        "parameters": ",".join(QUANTITIES),
        "community": "AG",
        "latitude": latitude,
        "longitude": longitude,
        "start": f"{FIRST_DAY:%Y%m%d}",
        "end": f"{today:%Y%m%d}",
        "format": "JSON",
        "time-standard": "LST",
    }
    wanted = Wanted(
        url=f"{address}/api/temporal/daily/point?{urlencode(asked)}",
        types=("application/json",),
        most_bytes=MOST_BYTES,
        what="the daily weather",
        kept_as=f"{address} {latitude} {longitude}",
    )

    def read(data: bytes) -> Fetched:
        reading, height = read_nasa_power(data.decode("utf-8", errors="replace"), wanted.host)
        if reading.record is None:
            wanted.refuse(reading.faults[0].message)
        where = f"the cell of its grid that holds {_degrees(latitude, 'NS')}, {_degrees(longitude, 'EW')}"
        return Fetched(
            record=reading.record, notes=reading.notes, archive="NASA POWER", where=where, height_m=height
        )

    return kept.get(wanted, read, fresh_days=0)


def _degrees(value: float, sides: str) -> str:
    return f"{abs(value):.{DECIMALS}f} {sides[value < 0]}"
