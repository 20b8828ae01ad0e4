"""Surveyed points as places of a garden."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from pathlib import PurePath

from leafturn.base.bounds import FARTHEST_M
from leafturn.base.faults import Fault, Unreadable, clipped
from leafturn.garden.model import Garden
from leafturn.garden.points.degrees_to_metres import to_metres
from leafturn.garden.points.geojson import read_geojson
from leafturn.garden.points.gpx import read_gpx
from leafturn.garden.points.model import Marked, Placed, Surveyed
from leafturn.garden.points.table import read_table
from leafturn.garden.reading.names import plain_id

READERS = {
    ".geojson": read_geojson, ".json": read_geojson, ".gpx": read_gpx, ".csv": read_table, ".tsv": read_table,
    ".txt": read_table,
}  # fmt: skip


def read_points(data: bytes, file: str) -> Surveyed:
    """The points of a file, by the ending of its name.

    Raises
    ------
    Unreadable
        If the ending is not known, or the file is not what it says.
    """
    ending = PurePath(file).suffix.lower()
    if ending not in READERS:
        told = f"{clipped(ending)} is no kind of file with points that is read."
        said = told if ending else "its name has no ending, which would tell what kind of file it is."
        raise Unreadable(
            Fault(file=file, line=None, message=said, hint="Give a .geojson, .gpx or .csv file.")
        )
    return READERS[ending](data, file)


def placed(surveyed: Surveyed, garden: Garden, file: str) -> tuple[Placed, ...]:
    """The points in metres from the garden's datum, each with an id of its own.

    Raises
    ------
    Unreadable
        If a point is no place on Earth, or lies farther from the datum than a place of a garden may.
    """
    return tuple(_placed(surveyed, garden, file))


def _placed(surveyed: Surveyed, garden: Garden, file: str) -> Iterator[Placed]:
    taken, numbers = {plant.id for plant in garden.plants}, Counter[str]()
    for number, marked in enumerate(surveyed.points, 1):
        called = f"point {number}{f' ({clipped(marked.name)})' if marked.name else ''}"
        if not (abs(marked.latitude) <= 90 and abs(marked.longitude) <= 180):
            place = f"latitude {marked.latitude:.10g} and longitude {marked.longitude:.10g}"
            said = f"{called} has {place}, which is no place on Earth."
            hint = "Degrees of WGS 84 are wanted, the longitude first in GeoJSON."
            raise Unreadable(Fault(file=file, line=None, message=said, hint=hint))
        point = to_metres(marked.latitude, marked.longitude, garden.place)
        if max(abs(point.east), abs(point.north)) > FARTHEST_M:
            said = f"{called} lies more than {FARTHEST_M / 1000:g} km from the datum, {garden.place.datum}."
            hint = "See that lat and lon under [place] are those of the datum, and that neither is exchanged."
            raise Unreadable(Fault(file=file, line=None, message=said, hint=hint))
        yield Placed(id=_own_id(marked, taken, numbers), kind=" ".join(marked.kind.split()), point=point)


def _own_id(marked: Marked, taken: set[str], numbers: Counter[str]) -> str:
    """An id that is not taken; `numbers` tells how many of each stem there were."""
    stem = plain_id(marked.name)[:60] or "plant"
    found = stem
    while found in taken:
        numbers[stem] += 1
        found = f"{stem}-{numbers[stem] + 1}"
    taken.add(found)
    return found
