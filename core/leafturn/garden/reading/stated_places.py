"""Places as they are stated, and what was worked out of them."""

from __future__ import annotations

from leafturn.base.faults import Fault
from leafturn.base.value import Value
from leafturn.garden.model import Point


class StatedPlace(Value):
    """Something that has, or could have, a place.

    Parameters
    ----------
    id : str
        What it is called in faults; others may name it if `anchor`.
    name : str or None
        Another name for it.
    at : str, (float, float) or None
        Its place as written: words, or metres east and north of the datum.
    host : str or None
        What it climbs on, as written. Without a place of its own it takes its host's.
    line : int or None
        Line of its place in the file.
    anchor : bool
        Whether others may be placed by it.
    """

    id: str
    name: str | None = None
    cultivar: str | None = None
    kind: str | None = None
    at: str | tuple[float, float] | None = None
    host: str | None = None
    line: int | None = None
    anchor: bool = True


class Placed(Value, kw_only=False):
    """Where things stand.

    Parameters
    ----------
    points : tuple of Point or None
        One for each stated place [m]; None where no place was given or none could be worked out.
    hosts : tuple of str or None
        The id of each one's host, where the host is something that stands in the garden.
    faults : tuple of Fault
        Places that were not understood, unknown names, and rings.
    """

    points: tuple[Point | None, ...]
    hosts: tuple[str | None, ...]
    faults: tuple[Fault, ...]
