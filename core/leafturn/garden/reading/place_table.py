"""The table [place] of a garden file."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import msgspec

from leafturn.base.faults import Unreadable, did_you_mean
from leafturn.garden.model import Place
from leafturn.garden.reading.degrees import Which, degrees_in
from leafturn.garden.reading.natural_keys import hint_for_key
from leafturn.garden.reading.place_phrases import quoted
from leafturn.garden.reading.tables import Spot, read_table
from leafturn.garden.regions import proper_name, region_named, regions
from leafturn.toml.messages import as_written

# Used while `lat` is out of bounds, on the side of the equator that was written: a guess, so said.
MIDDLE_LATITUDE = 45.0

TWO_LINES = "Write two lines under [place]: lat = 46.9 and lon = 15.9 (degrees; south and west are negative)."


def read_place(table: Mapping[str, Any], spot: Spot, folder: Path) -> Place:
    """Where the garden is.

    Parameters
    ----------
    table : mapping
        What stands under [place], lists and climate taken away.
    spot : Spot
        Where it stands.
    folder : Path
        The garden's folder; files named in the table must lie in it.

    Raises
    ------
    Unreadable
        If no latitude can be made out: without one there is no season.
    """
    ready = {**table, "lat": _latitude(table, spot), "lon": _longitude(table, spot)}
    place = read_table(ready, Place, spot, "place")
    assert place is not None, "only lat and lon are needed, and both are numbers within bounds"
    for key in ("weather", "forecast"):
        named: str | None = getattr(place, key)
        if named is not None and not lies_inside(named, folder):
            spot.add_fault(
                f"{key} = {quoted(named)} leads out of the garden's folder; it is not read.",
                "Put the file beside the garden file and name it alone.",
                key,
            )
            place = msgspec.structs.replace(place, **{key: None})
    place = _with_namesake(place)
    fault = _wrong_region(place)
    if fault is not None:
        spot.add_fault(*fault, "region")
        place = msgspec.structs.replace(place, region=None)
    return place


def _with_namesake(place: Place) -> Place:
    """A place whose region bears the name of another country's, named as the other where it lies there."""
    region = region_named(place.region)
    if place.region is None or region is None or region.may_hold(place.lon):
        return place
    return msgspec.structs.replace(place, region=region.namesake(place.region) or place.region)


def _wrong_region(place: Place) -> tuple[str, str] | None:
    """What to say of a region that nobody knows or that lies elsewhere, and a hint; None of any other."""
    if place.region is None:
        return None
    stated, kept = f"region = {quoted(place.region)}", "the usual dates for nests are kept."
    region = region_named(place.region)
    if region is None:
        near = did_you_mean(place.region, regions())
        words = (
            f"The words are: {', '.join(regions())}; countries, states and provinces are read as one of them."
        )
        return f"{stated} is not known; {kept}", f"{near} {words}".strip()
    if not region.may_hold(place.lon):
        return (
            f"{stated} is read as {proper_name(region.name)}, where lon = {place.lon:g} does not lie; {kept}",
            'Write the continent, or region = "elsewhere".',
        )
    return None


def lies_inside(name: str, folder: Path) -> bool:
    """Whether a file named in the garden file lies in `folder`, links followed."""
    try:
        return (folder / name).resolve().is_relative_to(folder.resolve())
    except (OSError, ValueError, RuntimeError):  # a name no file can have, or links in a ring
        return False


def _latitude(table: Mapping[str, Any], spot: Spot) -> float:
    latitude = _degrees("lat", table, spot)
    if latitude is None:
        said = "is missing" if "lat" not in table else "is not a number"
        other = next((key for key in table if hint_for_key(key, "place", 0).startswith("Write lat ")), None)
        hint = TWO_LINES if other is None else f"{hint_for_key(other, 'place', table[other])} (and lon)."
        raise Unreadable(spot.fault(f"lat {said}, and without it there is no season.", hint, other or "lat"))
    if abs(latitude) <= 90:
        return latitude
    used = MIDDLE_LATITUDE if latitude > 0 else -MIDDLE_LATITUDE
    spot.add_fault(
        f"lat = {latitude:.10g} is no latitude; {used:g} is used meanwhile, so day length is a guess.",
        "Write degrees from -90 to 90, such as lat = 46.9",
        "lat",
    )
    return used


def _longitude(table: Mapping[str, Any], spot: Spot) -> float:
    longitude = _degrees("lon", table, spot)
    if longitude is not None and abs(longitude) <= 180:
        return longitude
    said = "lon is missing" if "lon" not in table else f"lon = {as_written(table['lon'])} is no longitude"
    spot.add_fault(
        f"{said}; 0 is used meanwhile, so hours of sunrise and sunset are off.",
        "Write degrees from -180 to 180, such as lon = 15.9",
        "lon",
    )
    return 0.0


def _degrees(key: Which, table: Mapping[str, Any], spot: Spot) -> float | None:
    """A number of degrees, or text with its side, as "46.9 N"; a bare number in quote marks is said."""
    value = table.get(key)
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        return float(value)
    degrees = degrees_in(value, key) if isinstance(value, str) else None
    if degrees is not None and not re.search(r"[A-Za-z]", str(value)):
        said = f'{key} = "{value}" is text; it is read as {degrees:g}.'
        spot.add_fault(said, f"Write {key} = {degrees:g}", key)
    return degrees
