"""Seedlings that came by themselves: free trees or weeds. Each is judged with reasons and a date."""

from __future__ import annotations

import numpy as np

from leafturn.canopy.after.succession import is_successor
from leafturn.canopy.decline.fall_zone import nearest
from leafturn.canopy.model import Seedling, Verdict
from leafturn.canopy.stand.growth import grown_radius
from leafturn.canopy.stand.stand import Stand
from leafturn.garden.model import Garden, Plant, Point


def judge_seedlings(
    stand: Stand, garden: Garden, light: np.ndarray, elders: list[int]
) -> tuple[Seedling, ...]:
    """Keep, move or remove, for each plant that came by itself or whose plan is undecided.

    Parameters
    ----------
    stand : Stand
    garden : Garden
    light : (plants,) [% of open]
        As it is now.
    elders : list of int
        Numbers of the old trees whose gaps want filling.
    """
    return tuple(
        _judged(stand, garden, n, float(light[n]), elders)
        for n, plant in enumerate(stand.plants)
        if stand.kinds[n].habit in ("tree", "shrub") and _by_itself(plant)
    )


def _by_itself(plant: Plant) -> bool:
    return plant.plan == "undecided" or plant.came_by_itself


def _judged(stand: Stand, garden: Garden, n: int, light: float, elders: list[int]) -> Seedling:
    plant, kind = stand.plants[n], stand.kinds[n]
    reasons: list[str] = []
    verdict: Verdict = "keep"
    by: int | None = None
    if kind.invasive_where is not None:
        where = ", ".join(kind.invasive_where.value)
        gloves = "; wear gloves, its sap irritates" if kind.has("irritant") else ""
        suckers = "; a cut stem sends up suckers, so pull it with its root" if kind.has("suckers") else ""
        reasons.append(f"spreads at others' cost ({where}): check local rules{gloves}{suckers}")
        return Seedling(plant=plant.id, kind=kind.name, verdict="remove", by=None, reasons=tuple(reasons))
    crowded = _path_too_near(garden, plant, stand) + _neighbour_too_near(stand, n, elders)
    need = kind.light.need_percent.value if kind.light.need_percent else None
    if crowded:
        reasons += crowded
        age = plant.age(stand.year)
        last = None if age is None else stand.year + int(stand.numbers["move_until_years"] - age)
        if last is None or last >= stand.year:
            verdict, by = "move", last
            when = f"by winter {last}" if last is not None else "while it is small"
            reasons.append(f"move it {when}, or remove it: older ones seldom live through it")
        else:
            verdict = "remove"
            reasons.append("it is too old to move with much hope")
    elif any(is_successor(stand, elder, n) for elder in elders):
        reasons.append("succession: it stands where the old tree will leave a gap")
    else:
        reasons.append("it is in nobody's way")
    if need is not None:
        enough = "enough" if light >= need else "too little"
        reasons.append(f"light now {light:.0f} % of open, it wants {need:.0f}: {enough}")
    return Seedling(plant=plant.id, kind=kind.name, verdict=verdict, by=by, reasons=tuple(reasons))


def _path_too_near(garden: Garden, plant: Plant, stand: Stand) -> list[str]:
    at = plant.point or Point(0, 0)
    clear = stand.numbers["path_clear_m"]
    near = [(nearest(path.line, at), path.name or "path") for path in garden.paths]
    return [f"{name} is {metres:.1f} m away and wants {clear:g} m" for metres, name in near if metres < clear]


def _neighbour_too_near(stand: Stand, n: int, elders: list[int]) -> list[str]:
    """The tree whose grown crown would share most ground with its own; those about to go do not count."""
    wide = grown_radius(stand.kinds[n])
    found = []
    for other, kind in enumerate(stand.kinds):
        if other == n or other in elders or kind.habit != "tree" or stand.group[other] == stand.group[n]:
            continue
        away = float(np.hypot(stand.east[other] - stand.east[n], stand.north[other] - stand.north[n]))
        if away < 0.5 * (wide + float(stand.growth[other].top_m * stand.growth[other].width)):
            found.append((away, stand.plants[other].id))
    return [
        f"{name} stands {away:.1f} m off and both crowns want the room" for away, name in sorted(found)[:1]
    ]
