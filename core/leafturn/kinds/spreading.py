"""Whether a kind spreads into wild land where a garden lies, and what is then done with it."""

from __future__ import annotations

from leafturn.garden.model import Place
from leafturn.garden.regions import Region, region_named
from leafturn.kinds.model import Kind
from leafturn.kinds.wild import grows_wild


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


def is_unwelcome(kind: Kind, place: Place) -> bool:
    """Whether what came by itself is to go, and none is proposed: the same, and trees that may be let in.

    A tree with the trait "invasive somewhere" that does not grow wild in this part of the world is taken for
    one that spreads here too, though no list of the region names it yet. Of other plants no flora is known.
    """
    strays = kind.habit == "tree" and kind.has("invasive somewhere") and not grows_wild(kind, place)
    return strays or spreads_into_wild_land(kind, region_named(place.region))


def is_cut_out(kind: Kind, place: Place) -> bool:
    """Whether a climber is cut at its foot and led to no host: listed where the garden lies, without a crop.

    Without a stated region nothing is cut out, since nobody knows its lists. A list that names a species of
    the kind in brackets is of that one. A fruit that is listed, such as hardy kiwi, was planted to be picked:
    of it the list is told, and whoever keeps it decides.
    """
    region = region_named(place.region)
    return region is not None and region.lists(cut_out_where(kind))


def cut_out_where(kind: Kind) -> tuple[str, ...]:
    """Where lists name a climber without a crop; empty for all other kinds."""
    if kind.habit != "climber" or kind.harvest.part is not None or kind.invasive_where is None:
        return ()
    return tuple(where for where in kind.invasive_where.value if "(" not in where)
