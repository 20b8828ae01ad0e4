"""Gardens with the usual weather of a place, and the windows of the jobs in them."""

from __future__ import annotations

import datetime as dt
import tempfile
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any, NamedTuple

from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn.almanac import Almanac

YEAR = 2027
PLANTED = 2012


class Span(NamedTuple):
    """A job's window: the likely days it opens, is best done by, and closes."""

    verb: str
    open: dt.date
    best: dt.date
    close: dt.date


def garden_on(place: Mapping[str, Any], plants: Iterable[str], on: dt.date) -> Almanac:
    """A garden at a place, given by latitude, longitude and monthly normals."""
    climate = {key: value for key, value in place.items() if key.startswith(("tm", "rain"))}
    text = garden_text(*plants, climate=climate, lat=place["lat"], lon=place["lon"])
    with tempfile.TemporaryDirectory() as folder:
        return almanac_of(Path(folder), text, on)


def id_of(kind: str, cultivar: str = "") -> str:
    """The id of a plant: its kind and cultivar."""
    return f"{kind} {cultivar}".strip().replace(" ", "-")


def planted(kind: str, cultivar: str = "") -> str:
    """A plant that has stood for some years, as it is written in a garden file."""
    named = {"cultivar": cultivar} if cultivar else {}
    return plant(id_of(kind, cultivar), kind, year=PLANTED, **named)


def days_of(place: Mapping[str, Any]) -> tuple[dt.date, dt.date]:
    """A day of the rest and one of high summer of the same season: each shows the windows still to come."""
    if place["lat"] < 0:
        return dt.date(YEAR, 7, 2), dt.date(YEAR + 1, 1, 2)
    return dt.date(YEAR, 1, 2), dt.date(YEAR, 7, 2)


def spans(almanac: Almanac) -> dict[str, set[Span]]:
    """The windows of the season's jobs by plant; those not yet foreseen are left out."""
    found: dict[str, set[Span]] = {}
    for job in almanac.jobs():
        days = (job.open.likely, job.best.likely, job.close.likely)
        if None not in days and f":{almanac.axis.year}" in job.id:
            for name in job.plants:
                found.setdefault(name, set()).add(Span(job.verb, *days))  # type: ignore[arg-type]
    return found
