"""Whether a kind spreads into wild land where a garden lies."""

from __future__ import annotations

from leafturn.garden.regions import Region
from leafturn.kinds.model import Kind


def spreads_into_wild_land(kind: Kind, region: Region | None) -> bool:
    """Whether a kind is to be taken for one that spreads into wild land.

    Parameters
    ----------
    kind : Kind
    region : Region or None
        That of the garden. Where its lists are known they decide; without one the trait "invasive somewhere"
        does, which kinds carry that spread at others' cost in many parts of the world.
    """
    if region is None or not region.areas:
        return kind.has("invasive somewhere")
    return kind.invasive_where is not None and region.lists(kind.invasive_where.value)
