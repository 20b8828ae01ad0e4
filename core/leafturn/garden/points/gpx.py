"""The waypoints of a GPX 1.1 file (its schema: topografix.com/GPX/1/1)."""

from __future__ import annotations

import xml.etree.ElementTree as ET

from leafturn.base.faults import Fault, Unreadable, clipped
from leafturn.garden.points.model import Marked, Surveyed

_OTHERS = ("rtept", "trkpt")


def read_gpx(data: bytes, file: str) -> Surveyed:
    """The waypoints; points of routes and tracks are counted as left out.

    Raises
    ------
    Unreadable
        If it is no GPX, or defines names of its own, which only serves to overwhelm a reader.
    """
    plainly = data.replace(b"\0", b"")  # as it stands also in UTF-16
    if b"<!DOCTYPE" in plainly or b"<!ENTITY" in plainly:
        said = "it defines names of its own, which no GPX file needs."
        raise Unreadable(Fault(file=file, line=None, message=said, hint="Save it again from the receiver."))
    try:
        root = ET.fromstring(data)
    except (ET.ParseError, ValueError, LookupError) as why:
        line = why.position[0] if isinstance(why, ET.ParseError) else None
        fault = Fault(file=file, line=line, message="this is not XML.", hint="Save it again as GPX 1.1.")
        raise Unreadable(fault) from None
    if _name(root) != "gpx":
        said = f"this is XML, but its outermost part is {clipped(_name(root))!r} and not 'gpx'."
        raise Unreadable(Fault(file=file, line=None, message=said, hint="Save it again as GPX 1.1."))
    every = list(root.iter())
    points = tuple(marked for one in every if _name(one) == "wpt" and (marked := _marked(one)) is not None)
    left_out = sum(_name(one) in ("wpt", *_OTHERS) for one in every) - len(points)
    return Surveyed(points=points, left_out=left_out)


def _name(element: ET.Element) -> str:
    """The name of an element without its namespace."""
    return str(element.tag).rpartition("}")[2]


def _marked(element: ET.Element) -> Marked | None:
    try:
        latitude, longitude = float(element.get("lat", "")), float(element.get("lon", ""))
    except ValueError:
        return None
    said = {_name(child): (child.text or "").strip() for child in element}
    return Marked(
        name=said.get("name", ""), kind=said.get("type", ""), latitude=latitude, longitude=longitude
    )
