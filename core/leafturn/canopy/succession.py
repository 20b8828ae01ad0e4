"""Whether the next canopy is ready: who covers an old tree's gap, when, and what could still be planted."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from leafturn.canopy.elder import YearRange
from leafturn.canopy.growth import Growth, grown_height, grown_radius, growth_of
from leafturn.canopy.model import Succession, Successor, Suggestion
from leafturn.canopy.stand import Stand
from leafturn.garden.model import Plant
from leafturn.kinds.library import Library
from leafturn.kinds.model import Kind

_YEARS = 70
_DISC = 400  # points over the gap
_JUGLONE_REACH_M = 18.0  # 50 to 60 ft from the stem: Funt and Martin, Ohio State, HYG-1148
_TREE_HEIGHT_M = 8.0  # a successor comes to at least this; a guess
_MOST_SUGGESTIONS = 5
FloatArray = NDArray[np.float64]


def is_successor(stand: Stand, elder: int, n: int) -> bool:
    """Whether plant `n` may take the old tree's place: one meant to, or a tall tree near its gap."""
    plant, kind = stand.plants[n], stand.kinds[n]
    if n == elder or plant.plan in ("move", "remove") or plant.state in ("declining", "dead standing"):
        return False
    away = float(np.hypot(stand.east[n] - stand.east[elder], stand.north[n] - stand.north[elder]))
    gap = float(stand.growth[elder].radii(stand.year))
    if "successor" in plant.role:
        return away < gap + grown_radius(kind)
    tall = stand.numbers["gap_height_share"] * float(stand.growth[elder].heights(stand.year))
    return bool(
        kind.habit == "tree"
        and kind.invasive_where is None
        and stand.growth[n].top_m >= max(tall, _TREE_HEIGHT_M)
        and away < gap + 0.5 * grown_radius(kind)
        and plant.plan != "undecided"
    )


def succession(
    stand: Stand,
    elder: int,
    fall_year: int,
    library: Library,
    light: tuple[float, float],
    wanted: Sequence[str] = (),
) -> Succession:
    """The gap of one old tree and who fills it.

    Parameters
    ----------
    stand : Stand
    elder : int
        Number of the old tree.
    fall_year : int
        The year by which it is likely down.
    library : Library
    light : tuple of float [% of open]
        On the ground in the middle of the gap now, and with the old tree gone.
    wanted : sequence of str
        Kinds of which a tree here lacks a partner.

    Notes
    -----
    The gap is the disc under the old crown. A place in it is covered when a successor's crown reaches
    over it and the successor has `gap_height_share` of the old tree's height. The range lets growth to
    come be `growth_doubt` slower or quicker. Competition among the young is left out.
    """
    years = np.arange(stand.year, stand.year + _YEARS + 1)
    names = [n for n in range(len(stand.plants)) if is_successor(stand, elder, n)]
    doubt = stand.numbers["growth_doubt"]
    shares = {p: _covered(stand, elder, names, years, p) for p in (1 - doubt, 1.0, 1 + doubt)}
    slow, middling, quick = (_first_half(years, shares[p]) for p in sorted(shares))
    half = YearRange(early=quick, likely=middling, late=slow)
    found = tuple(_successor(stand, elder, n, years, fall_year, doubt) for n in names)
    own = stand.growth[elder]
    plant_by, words = _plant_by(stand, elder, library, fall_year)
    uncovered = None if middling is None else max(0, middling - fall_year)
    most = float(shares[1.0].max())
    says = _says(found, half, fall_year, uncovered, most, words)
    room = float(own.radii(stand.year))
    return Succession(
        fall_year=fall_year,
        successors=found,
        half_covered=half,
        uncovered_years=uncovered,
        plant_by=plant_by,
        says=says,
        suggestions=suggestions(stand, elder, room, library, light, wanted),
    )


def _disc(stand: Stand, elder: int) -> tuple[FloatArray, FloatArray]:
    """Points evenly over the gap, in a sunflower's order."""
    n = np.arange(_DISC) + 0.5
    out = float(stand.growth[elder].radii(stand.year)) * np.sqrt(n / _DISC)
    turn = n * np.pi * (3 - np.sqrt(5))
    return stand.east[elder] + out * np.cos(turn), stand.north[elder] + out * np.sin(turn)


def _covered(
    stand: Stand, elder: int, names: Sequence[int], years: NDArray[np.int_], pace: float
) -> FloatArray:
    """Share (years,) of the gap under the crowns of successors tall enough."""
    x, y = _disc(stand, elder)
    least = stand.numbers["gap_height_share"] * float(stand.growth[elder].heights(stand.year))
    over = np.zeros((len(years), _DISC), dtype=bool)
    for n in names:
        growth = stand.growth[n]
        away = np.hypot(x - stand.east[n], y - stand.north[n])
        tall = growth.heights(years, pace) >= least
        over |= tall[:, None] & (growth.radii(years, pace)[:, None] >= away[None, :])
    return np.asarray(over.mean(axis=1))


def _first_half(years: NDArray[np.int_], share: FloatArray) -> int | None:
    reached = np.flatnonzero(share >= 0.5)
    return int(years[reached[0]]) if len(reached) else None


def _successor(
    stand: Stand, elder: int, n: int, years: NDArray[np.int_], fall_year: int, doubt: float
) -> Successor:
    growth: Growth = stand.growth[n]
    shown = years[:31]
    tall, wide = growth.heights(shown), growth.radii(shown)
    share = _covered(stand, elder, [n], shown, 1.0)
    at = [float(growth.heights(fall_year, p)) for p in (1 - doubt, 1.0, 1 + doubt)]
    return Successor(
        plant=stand.plants[n].id,
        kind=stand.kinds[n].name,
        sizes={
            int(y): (round(float(h), 1), round(float(r), 1))
            for y, h, r in zip(shown, tall, wide, strict=True)
        },
        at_fall=(at[0], at[1], at[2]),
        share_of_gap={int(y): round(float(s), 2) for y, s in zip(shown, share, strict=True)},
    )


def _plant_by(stand: Stand, elder: int, library: Library, fall_year: int) -> tuple[int | None, str]:
    """When one more of the old tree's likeliest follower would have to stand in the middle of the gap."""
    kinds = [stand.plants[n].kind for n in range(len(stand.plants)) if is_successor(stand, elder, n)]
    kind = kinds[0] if kinds else stand.plants[elder].kind
    growth = growth_of(Plant(kind=kind, year=stand.year), library, stand.numbers, stand.year)
    ages = np.arange(0, 121)
    least = stand.numbers["gap_height_share"] * float(stand.growth[elder].heights(stand.year))
    half = float(stand.growth[elder].radii(stand.year)) / np.sqrt(2)
    grown = (growth.heights(stand.year + ages) >= least) & (growth.radii(stand.year + ages) >= half)
    if not grown.any():
        return None, f"One {kind} in the middle would not cover half of the gap however old."
    takes = int(ages[np.argmax(grown)])
    by = fall_year - takes
    if by >= stand.year:
        return (
            by,
            f"One more {kind} in the middle, planted by {by}, would cover half of the gap in {fall_year}.",
        )
    return by, (
        f"To be ready in {fall_year} a {kind} in the middle would have had to be planted by {by}; "
        f"planted now it covers half of the gap about {stand.year + takes}."
    )


def _says(
    found: Sequence[Successor],
    half: YearRange,
    fall_year: int,
    uncovered: int | None,
    most: float,
    plant_by: str,
) -> tuple[str, ...]:
    if not found:
        return (f"No tree here stands ready for the gap in {fall_year}.", plant_by)
    sizes = ", ".join(
        f"{s.plant} {s.at_fall[1]:.0f} m ({s.at_fall[0]:.0f}-{s.at_fall[2]:.0f})" for s in found
    )
    early = half.early if half.early is not None else "?"
    late = half.late if half.late is not None else "later"
    if half.likely is None:
        gap = f"they come to cover {100 * most:.0f} % of the gap at most"
    else:
        gap = f"gap half covered about {half.likely} ({early}-{late})"
    told = [f"Next canopy by {fall_year}: {sizes}; {gap}."]
    if uncovered:
        told.append(f"The gap lies open about {uncovered} years.")
    return (*told, plant_by)


def suggestions(
    stand: Stand,
    elder: int,
    room: float,
    library: Library,
    light: tuple[float, float],
    wanted: Sequence[str],
) -> tuple[Suggestion, ...]:
    """Trees the library would plant into the gap, those first of which a partner lacks; nothing poisonous."""
    at = (float(stand.east[elder]), float(stand.north[elder]))
    near_juglone = any(
        k.soil.juglone is not None
        and k.soil.juglone.value == "producer"
        and np.hypot(stand.east[n] - at[0], stand.north[n] - at[1]) < _JUGLONE_REACH_M
        for n, k in enumerate(stand.kinds)
    )
    here = {kind.name for kind in stand.kinds}
    fitting = [
        kind
        for name in library.kinds
        if _fits(kind := library.match(name).kind, room, light[1], near_juglone)
    ]
    ranked = sorted(fitting, key=lambda k: (k.name not in wanted, _lasting(k), k.name))
    return tuple(
        Suggestion(kind=kind.name, why=_why(kind, light, wanted, here, near_juglone))
        for kind in ranked[:_MOST_SUGGESTIONS]
    )


def _fits(kind: Kind, room: float, light: float, near_juglone: bool) -> bool:
    juglone = kind.soil.juglone.value if kind.soil.juglone else None
    return (
        kind.habit == "tree"
        and kind.invasive_where is None
        and not kind.has("poisonous")
        and 0.5 * room <= grown_radius(kind) <= 1.5 * room
        and not (near_juglone and juglone == "sensitive")
        and kind.light.need_percent is not None
        and kind.light.need_percent.value <= light
    )


def _lasting(kind: Kind) -> float:
    """Long-lived first."""
    return -(kind.size.life_years.value if kind.size.life_years else 0.0)


def _why(
    kind: Kind, light: tuple[float, float], wanted: Sequence[str], here: set[str], near_juglone: bool
) -> str:
    need = kind.light.need_percent.value if kind.light.need_percent else 0
    said = [f"to {grown_height(kind):.0f} m, crown {grown_radius(kind):.0f} m, wants {need:.0f} % light"]
    when = "now already" if light[0] >= need else "not before the gap opens"
    said.append(f"there are {light[0]:.0f} % on the ground now, {light[1]:.0f} % then: {when}")
    if kind.name in wanted:
        said.append("a partner lacks here")
    elif kind.name in here:
        said.append("grows here already")
    if near_juglone:
        known = kind.soil.juglone.value if kind.soil.juglone else "not known"
        said.append(f"juglone within reach: {known}")
    return "; ".join(said)
