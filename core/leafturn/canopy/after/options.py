"""What can be done about an old tree, side by side: leave it, keep a stem, fell it."""

from __future__ import annotations

from collections.abc import Sequence

from leafturn.base import quantities
from leafturn.base.tunables import Numbers
from leafturn.canopy.decline.fall_zone import metres_within
from leafturn.canopy.model import Falling, Release, WhatIf
from leafturn.garden.model import Garden, Plant


def what_if(
    garden: Garden,
    plant: Plant,
    reach: Falling,
    rows: Sequence[Release],
    heirs: set[str],
    numbers: Numbers,
) -> tuple[WhatIf, ...]:
    """Leave it, reduce it to a stem, fell it now: light, reach, habitat, successors of each.

    Parameters
    ----------
    garden : Garden
    plant : Plant
        The old tree.
    reach : Falling
        Of the tree as it stands.
    rows : sequence of Release
        The plants it shades.
    heirs : set of str
        Ids of the trees that may fill its gap.
    numbers : Numbers
        `kept_stem_m`.

    Notes
    -----
    What each choice keeps of the dead wood that animals live in is common practice, without a source.
    """
    now, gone = _mean([r.now for r in rows]), _mean([r.gone for r in rows])
    gainers = tuple(
        (r.plant, r.gone - r.now)
        for r in sorted(rows, key=_least_gain)
        if r.gone - r.now >= 1 and not r.scorches
    )
    stem = min(numbers["kept_stem_m"], reach.reach_m)
    within = (
        0.0 if plant.point is None else sum(metres_within(p.line, plant.point, stem) for p in garden.paths)
    )
    return (
        _left(reach, now, sorted(heirs.intersection(reach.plants))),
        WhatIf(
            what=f"a stem of {quantities.metres(stem, None)}",
            light=gone,
            reach_m=stem,
            path_metres=within,
            habitat="holes and bark of the stem kept; the crown's wood laid on the ground",
            successors="full light at once; branches must come down past them",
            gainers=gainers,
            in_reach=_used_within(reach, stem),
        ),
        WhatIf(
            what="fell it now",
            light=gone,
            reach_m=0.0,
            path_metres=0.0,
            habitat="a log if it is left lying; holes and standing wood lost",
            successors="full light at once; the fall needs a way past them",
            gainers=gainers,
        ),
    )


def _left(reach: Falling, light: float, under: Sequence[str]) -> WhatIf:
    """The tree left as it stands, with the heirs that it may fall on."""
    whole = reach.brittle_m or reach.reach_m
    who = ", ".join(under) or "none"
    return WhatIf(
        what="leave it",
        light=light,
        reach_m=whole,
        path_metres=sum(p.metres_brittle if reach.brittle_m else p.metres for p in reach.paths),
        habitat="all kept: dead branches, holes, loose bark",
        successors=f"{who} within reach of its fall",
        in_reach=_used_within(reach, whole),
    )


def _least_gain(row: Release) -> float:
    return row.now - row.gone


def _used_within(reach: Falling, metres: float) -> tuple[str, ...]:
    """Seats and roofs that lie within a distance, the nearest first."""
    near = sorted((away, name) for name, away in (*reach.seats, *reach.roofs) if away <= metres)
    return tuple(name for _, name in near)


def _mean(values: Sequence[float]) -> float:
    return sum(values) / len(values) if values else 100.0
