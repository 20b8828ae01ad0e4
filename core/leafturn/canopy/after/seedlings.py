"""Verdicts on seedlings that came by themselves: keep, move or remove, each with reasons and a date."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np

from leafturn.base import prose, quantities
from leafturn.canopy.after.succession import could_follow, heir_share, is_chosen
from leafturn.canopy.model import Seedling, Verdict
from leafturn.canopy.stand.stand import Stand
from leafturn.garden.model import Garden, Plant, Point
from leafturn.kinds.juglone_reach import HIGH_AVERAGE_M
from leafturn.kinds.model import Kind
from leafturn.kinds.spreading import is_unwelcome
from leafturn.kinds.wild import threats_to

_LEFT_OPEN = 0.25  # of a gap: where others cover less, the heir that does is never sent away (a guess)
_ADDS = 0.1  # of a gap: who adds as much to what others cover is wanted as heir (a guess)


def judge_seedlings(
    stand: Stand, garden: Garden, light: np.ndarray, falls: Mapping[int, int]
) -> tuple[Seedling, ...]:
    """Keep, move or remove, for each plant that came by itself or whose plan is undecided.

    Parameters
    ----------
    stand : Stand
    garden : Garden
    light : (plants,) [% of open]
        As it is now.
    falls : mapping of int to int
        Of the old trees whose gaps want filling, by their numbers, the year by which each is likely down.
    """
    return tuple(
        _judged(stand, garden, n, float(light[n]), falls)
        for n, plant in enumerate(stand.plants)
        if stand.kinds[n].habit in ("tree", "shrub") and _by_itself(plant)
    )


def _by_itself(plant: Plant) -> bool:
    return plant.plan == "undecided" or plant.came_by_itself


def _judged(stand: Stand, garden: Garden, n: int, light: float, falls: Mapping[int, int]) -> Seedling:
    """A wild spreader goes; a path or juglone sends it away; an heir stays whoever crowds it."""
    plant, kind = stand.plants[n], stand.kinds[n]
    if is_unwelcome(kind, stand.place):
        reasons = (_spreads(kind),)
        return Seedling(plant=plant.id, kind=kind.name, verdict="remove", by=None, reasons=reasons)
    verdict: Verdict = "keep"
    by: int | None = None
    reached = [*_path_too_near(garden, plant, stand), *_poisoned(stand, n)]
    crowded = _neighbour_too_near(stand, n, falls)
    gifts = list(_as_heir(stand, n, falls))
    heir, wanted = [words for words, _ in gifts], any(lacked for _, lacked in gifts)
    said = [*heir, *reached, *crowded]
    if heir and crowded and not reached:
        said.append("the gap would want it: choose between the two only when their crowns meet")
    elif (reached or crowded) and not is_chosen(plant):
        verdict, by, words = _leaves(stand, plant)
        said.append(words)
        if verdict == "remove" and wanted:
            verdict = "keep"
            said.append("nothing else would fill the gap: weigh the two, or plant another heir first")
    elif not said:
        said.append("it is in nobody's way" if not kind.guessed else "its kind is not known: name it first")
    said += _harms(stand, n)
    said += (f"{threat[0].lower()}{threat[1:].rstrip('.')}" for threat in threats_to(kind, stand.place))
    if kind.light.need_percent is not None:
        need = kind.light.need_percent.value
        enough = "enough" if light >= need else "too little"
        said.append(f"light now {light:.0f} % of open, it wants {need:.0f}: {enough}")
    return Seedling(plant=plant.id, kind=kind.name, verdict=verdict, by=by, reasons=tuple(said))


def _spreads(kind: Kind) -> str:
    where = ", ".join(kind.invasive_where.value) if kind.invasive_where else ""
    gloves = "; wear gloves, its sap irritates" if kind.has("irritant") else ""
    suckers = "; a cut stem sends up suckers, so pull it with its root" if kind.has("suckers") else ""
    return f"spreads at others' cost ({where}): check local rules{gloves}{suckers}"


def _leaves(stand: Stand, plant: Plant) -> tuple[Verdict, int | None, str]:
    """Moved while it is small enough, else removed: the verdict, by what year, and why."""
    age = plant.age(stand.year)
    last = None if age is None else stand.winter + int(stand.numbers["move_until_years"] - age)
    if last is not None and last < stand.winter:
        return "remove", None, "it is too old to move with much hope"
    when = f"by winter {last}" if last is not None else "while it is small"
    return "move", last, f"move it {when}, or remove it: older ones seldom live through it"


def _as_heir(stand: Stand, n: int, falls: Mapping[int, int]) -> Iterator[tuple[str, bool]]:
    """What it gives to the gaps of old trees, and whether others alone would leave the most of one open."""
    for old_tree, fall_year in falls.items():
        if not could_follow(stand, old_tree, n):
            continue
        year, with_it, without = heir_share(stand, old_tree, n, fall_year)
        old = stand.plants[old_tree].id
        if is_chosen(stand.plants[n]) or with_it - without >= _ADDS:
            covered = f"{100 * with_it:.0f} % are covered by {year} with it, {100 * without:.0f} % without it"
            yield f"heir of {old}: of its gap {covered}", with_it - without >= _ADDS and without < _LEFT_OPEN
        elif stand.plants[n].plan != "undecided":
            yield f"succession: it stands where {old} will leave a gap, which others fill too", False


def _poisoned(stand: Stand, n: int) -> Iterator[str]:
    """The tree whose juglone its kind does not bear."""
    if stand.juglone(n) == "sensitive":
        for metres, other in _within(stand, n, HIGH_AVERAGE_M):
            if stand.juglone(other) == "producer":
                far = quantities.metres(metres, 0)
                yield f"{stand.plants[other].id} stands {far} off, and its kind suffers from juglone"
                return


def _harms(stand: Stand, n: int) -> Iterator[str]:
    """Who would suffer from its own juglone."""
    if stand.juglone(n) == "producer":
        near = _within(stand, n, HIGH_AVERAGE_M)
        names = [stand.plants[m].id for _, m in near if stand.juglone(m) == "sensitive"]
        if names:
            yield f"grown, its roots harm {prose.first_of(names, 3)} by juglone"


def _within(stand: Stand, n: int, reach_m: float) -> list[tuple[float, int]]:
    """Plants within so many metres of one, nearest first."""
    away = np.hypot(stand.east - stand.east[n], stand.north - stand.north[n])
    return sorted((float(away[m]), m) for m in range(len(stand.plants)) if m != n and away[m] < reach_m)


def _path_too_near(garden: Garden, plant: Plant, stand: Stand) -> list[str]:
    at = plant.point or Point(0, 0)
    clear = stand.numbers["path_clear_m"]
    near = [(path.metres_to(at), path.name or "path") for path in garden.paths]
    say = quantities.metres
    return [f"{name} is {say(away)} away and wants {say(clear, None)}" for away, name in near if away < clear]


def _neighbour_too_near(stand: Stand, n: int, old_trees: Mapping[int, int]) -> list[str]:
    """The tree whose grown crown would share most ground with its own; those about to go do not count."""
    wide = stand.kinds[n].size.grown_radius
    found = []
    for other, kind in enumerate(stand.kinds):
        if other == n or other in old_trees or kind.habit != "tree" or stand.group[other] == stand.group[n]:
            continue
        away = float(np.hypot(stand.east[other] - stand.east[n], stand.north[other] - stand.north[n]))
        if away < 0.5 * (wide + float(stand.growth[other].top_m * stand.growth[other].width)):
            found.append((away, stand.plants[other].id))
    return [
        f"{name} stands {quantities.metres(away)} off and both crowns want the room"
        for away, name in sorted(found)[:1]
    ]
