"""Which trees are at home where a garden lies, and what kills trees of a kind there."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from msgspec import Struct

from leafturn.base.closed_words import FloraName, WorldPart
from leafturn.garden.model import Place
from leafturn.garden.regions import world_part
from leafturn.kinds.fact import Fact
from leafturn.kinds.model import Kind
from leafturn.kinds.packaged import packaged

# Where one flora gives way to the next [deg]; coarse, a guess.
SOUTHERN_EUROPE_LAT = 44.0
SOUTHERN_AMERICA_LAT = 37.0
WESTERN_AMERICA_LON = -100.0
EASTERN_ASIA = ((20.0, 55.0), (95.0, 150.0))


class Flora(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Trees that grow wild in a part of the world, or have long been at home there."""

    kinds: tuple[str, ...]
    source: str


class Threat(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A disease or an insect that kills trees of some kinds in some parts of the world."""

    kinds: tuple[str, ...]
    parts: tuple[WorldPart, ...]
    says: Fact[str]


@cache
def floras() -> dict[FloraName, Flora]:
    """Every flora by name."""
    return packaged("floras", dict[FloraName, Flora])


@cache
def threats() -> dict[str, Threat]:
    """Every threat by name."""
    return packaged("threats", dict[str, Threat])


def flora_of(place: Place) -> FloraName | None:
    """The flora a place lies in, by latitude and longitude alone; None where none is known."""
    part, lat, lon = world_part(place.lat, place.lon), place.lat, place.lon
    if part == "europe":
        return "southern Europe" if lat < SOUTHERN_EUROPE_LAT else "cool Europe"
    if part == "north america":
        if lon < WESTERN_AMERICA_LON:
            return "western America"
        return "south-eastern America" if lat < SOUTHERN_AMERICA_LAT else "north-eastern America"
    (south, north), (west, east) = EASTERN_ASIA
    return "eastern Asia" if south < lat < north and west < lon < east else None


def grows_wild(kind: Kind, place: Place) -> bool:
    """Whether a kind is known to grow wild here, or to have long been at home."""
    flora = flora_of(place)
    return flora is not None and kind.name in floras()[flora].kinds


def is_at_home(kind: Kind, place: Place) -> bool:
    """Whether a tree grows wild here or has long been at home; true also where no flora is known."""
    return flora_of(place) is None or grows_wild(kind, place)


def threats_to(kind: Kind, place: Place) -> Iterator[str]:
    """What kills trees of a kind here, a sentence each."""
    part = world_part(place.lat, place.lon)
    return (t.says.value for t in threats().values() if kind.name in t.kinds and part in t.parts)
