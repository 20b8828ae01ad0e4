"""Which trees cover an old tree's gap, when, and by when one more would have to be planted."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from leafturn.base import prose, quantities
from leafturn.base.arrays import BoolArray, FloatArray
from leafturn.base.kept import kept
from leafturn.canopy.after.suggestions import suggestions
from leafturn.canopy.decline.trend import YearRange
from leafturn.canopy.model import Succession, Successor
from leafturn.canopy.stand.growth import Growth, growth_of
from leafturn.canopy.stand.stand import Stand
from leafturn.garden.model import Plant
from leafturn.kinds.specimen import specimen_of
from leafturn.kinds.spreading import is_unwelcome
from leafturn.kinds.wild import threats_to

_YEARS = 70
_SHOWN = 31  # of them, now and thirty years on
_WORTH_A_WORD = 0.01  # of the gap
_MOST_SPREAD = 1 / 3  # of a crown's own radius: a guess
_DISC = 400  # points over the gap
_TREE_HEIGHT_M = 8.0  # a successor comes to at least this; a guess


def is_chosen(plant: Plant) -> bool:
    """Whether its role says that it is to follow an old tree."""
    return "heir" in plant.role or "successor" in plant.role


def is_successor(stand: Stand, old_tree: int, n: int) -> bool:
    """Whether plant `n` may take the old tree's place: one meant to, or a tall tree near its gap."""
    return could_follow(stand, old_tree, n) and (
        stand.plants[n].plan != "undecided" or is_chosen(stand.plants[n])
    )


def could_follow(stand: Stand, old_tree: int, n: int) -> bool:
    """The same, be it decided or not that plant `n` stays."""
    plant, kind = stand.plants[n], stand.kinds[n]
    if n == old_tree or plant.plan in ("move", "remove") or plant.state in ("declining", "dead standing"):
        return False
    away = float(np.hypot(stand.east[n] - stand.east[old_tree], stand.north[n] - stand.north[old_tree]))
    gap = float(stand.own_radii[old_tree])
    if is_chosen(plant):
        return away < gap + kind.size.grown_radius
    return bool(
        kind.habit == "tree"
        and not is_unwelcome(kind, stand.place)
        and stand.growth[n].top_m >= max(_least_height(stand, old_tree), _TREE_HEIGHT_M)
        and away < gap + 0.5 * kind.size.grown_radius
    )


def heir_share(stand: Stand, old_tree: int, n: int, fall_year: int) -> tuple[int, float, float]:
    """What plant `n` gives as heir: a year, and the share of the gap covered then with it and without it.

    Parameters
    ----------
    stand : Stand
    old_tree, n : int
        Numbers of the old tree and of the plant.
    fall_year : int
        The year by which the old tree is likely down.
    """
    gap, at = _Gap(stand, old_tree, fall_year), _SHOWN - 1
    others = [m for m in (*gap.successors, *gap.neighbours) if m != n]
    return int(gap.years[at]), float(gap.covered([*others, n], 1.0)[at]), float(gap.covered(others, 1.0)[at])


def is_neighbour(stand: Stand, old_tree: int, n: int) -> bool:
    """Whether plant `n`, though no successor, may spread into the old tree's gap from beside it."""
    plant, growth = stand.plants[n], stand.growth[n]
    away = float(np.hypot(stand.east[n] - stand.east[old_tree], stand.north[n] - stand.north[old_tree]))
    if (
        n == old_tree
        or away >= float(stand.own_radii[old_tree]) + (1 + _MOST_SPREAD) * growth.top_m * growth.width
    ):
        return False
    return bool(
        stand.kinds[n].habit == "tree"
        and plant.plan not in ("move", "remove", "undecided")
        and plant.state not in ("declining", "dead standing")
        and growth.top_m >= _least_height(stand, old_tree)
        and not is_successor(stand, old_tree, n)
    )


def _least_height(stand: Stand, old_tree: int) -> float:
    """Height [m] from which a crown counts as canopy over the old tree's gap."""
    return stand.numbers["gap_height_share"] * float(stand.own_heights[old_tree])


def succession(
    stand: Stand,
    old_tree: int,
    fall_year: int,
    light: tuple[float, float],
    wanted: Sequence[str] = (),
) -> Succession:
    """The gap of one old tree and who fills it.

    Parameters
    ----------
    stand : Stand
    old_tree : int
        Number of the old tree.
    fall_year : int
        The year by which it is likely down.
    light : tuple of float [% of open]
        On the ground in the middle of the gap now, and with the old tree gone.
    wanted : sequence of str
        Kinds of which a tree here lacks a partner.

    Notes
    -----
    The gap is the disc under the old crown. A place in it is covered when the crown of a successor, or of a
    neighbour beside it, reaches over it and that tree has `gap_height_share` of the old tree's height. From
    the fall on, crowns at the gap spread into it by `gap_spread_m` a year beyond their usual width, at most
    by a third of it. The range lets growth to come be `growth_doubt` slower or quicker. That the young crowd
    each other is left out.
    """
    gap = _Gap(stand, old_tree, fall_year)
    years, uncertainty = gap.years, stand.numbers["growth_doubt"]
    trees = (*gap.successors, *gap.neighbours)
    shares = {p: gap.covered(trees, p) for p in (1 - uncertainty, 1.0, 1 + uncertainty)}
    slow, middling, quick = (_first_half(years, shares[p]) for p in sorted(shares))
    found = tuple(_successor(gap, n, uncertainty) for n in gap.successors)
    plant_by, words = _plant_by(gap, middling)
    uncovered = None if middling is None else max(0, middling - fall_year)
    half = YearRange(early=quick, likely=middling, late=slow)
    says = (*_says(found, half, fall_year, uncovered, float(shares[1.0].max()), words), *_threatened(gap))
    reaching = [n for n in gap.neighbours if gap.covered([n], 1.0)[_SHOWN - 1] >= _WORTH_A_WORD]
    if reaching:
        alone = 100 * float(gap.covered(reaching, 1.0)[_SHOWN - 1])
        who, when = ", ".join(stand.plants[n].id for n in reaching), years[_SHOWN - 1]
        says = (says[0], f"Crowns beside the gap spread into it: {who}, {alone:.0f} % by {when}.", *says[1:])
    return Succession(
        fall_year=fall_year,
        successors=found,
        neighbours=tuple(stand.plants[n].id for n in reaching),
        covered={
            int(y): round(float(s), 2) for y, s in zip(years[:_SHOWN], shares[1.0][:_SHOWN], strict=True)
        },
        half_covered=half,
        uncovered_years=uncovered,
        plant_by=plant_by,
        says=says,
        suggestions=suggestions(stand, old_tree, gap.radius, light, wanted),
    )


class _Gap:
    """The disc under an old crown, who may fill it, and how much of it crowns cover by year."""

    def __init__(self, stand: Stand, old_tree: int, fall_year: int) -> None:
        self.stand, self.old_tree, self.fall_year = stand, old_tree, fall_year
        self.years = np.arange(stand.year, stand.year + _YEARS + 1)
        numbers = range(len(stand.plants))
        self.successors = tuple(n for n in numbers if is_successor(stand, old_tree, n))
        self.neighbours = tuple(n for n in numbers if is_neighbour(stand, old_tree, n))
        self.least = _least_height(stand, old_tree)
        self.radius = float(stand.own_radii[old_tree])
        n = np.arange(_DISC) + 0.5  # evenly over the disc, in a sunflower's order
        out = self.radius * np.sqrt(n / _DISC)
        turn = n * np.pi * (3 - np.sqrt(5))
        self._east = stand.east[old_tree] + out * np.cos(turn)
        self._north = stand.north[old_tree] + out * np.sin(turn)
        self._spread = stand.numbers["gap_spread_m"] * np.maximum(self.years - fall_year, 0)

    def covered(self, names: Sequence[int], pace: float) -> FloatArray:
        """Share (years,) of the gap under the crowns of these plants, once tall enough."""
        over = np.zeros((len(self.years), _DISC), dtype=bool)
        for n in names:
            over |= self._under(n, pace)
        return np.asarray(over.mean(axis=1))

    @kept
    def _under(self, n: int, pace: float) -> BoolArray:
        """Which places of the gap (years, places) are under one plant's crown."""
        growth = self.stand.growth[n]
        away = np.hypot(self._east - self.stand.east[n], self._north - self.stand.north[n])
        tall = growth.heights(self.years, pace)
        wide = tall * growth.width
        wide = wide + np.minimum(self._spread * pace, _MOST_SPREAD * wide)
        return np.asarray((tall >= self.least)[:, None] & (wide[:, None] >= away[None, :]))


def _threatened(gap: _Gap) -> Iterator[str]:
    """What kills heirs of a kind here, a sentence each kind."""
    stand, told = gap.stand, dict.fromkeys(gap.stand.kinds[n].name for n in gap.successors)
    for name in told:
        heirs = [n for n in gap.successors if stand.kinds[n].name == name]
        for threat in threats_to(stand.kinds[heirs[0]], stand.place):
            yield f"{prose.first_of([stand.plants[n].id for n in heirs], 3)}: {threat}"


def _first_half(years: NDArray[np.int_], share: FloatArray) -> int | None:
    reached = np.flatnonzero(share >= 0.5)
    return int(years[reached[0]]) if len(reached) else None


def _successor(gap: _Gap, n: int, uncertainty: float) -> Successor:
    stand = gap.stand
    growth: Growth = stand.growth[n]
    shown = gap.years[:_SHOWN]
    tall, wide = growth.heights(shown), growth.radii(shown)
    share = gap.covered([n], 1.0)[:_SHOWN]
    at = [float(growth.heights(gap.fall_year, p)) for p in (1 - uncertainty, 1.0, 1 + uncertainty)]
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


def _plant_by(gap: _Gap, half_by: int | None) -> tuple[int | None, str]:
    """When one more of the old tree's likeliest follower would have to stand in the middle of the gap.

    `half_by` is the year by which those that stand there cover half of it.
    """
    stand, fall_year = gap.stand, gap.fall_year
    kind = stand.plants[gap.successors[0] if gap.successors else gap.old_tree].kind
    growth = growth_of(
        specimen_of(Plant(kind=kind, year=stand.year), stand.library), stand.numbers, stand.year
    )
    ages = np.arange(0, 121)
    half = gap.radius / np.sqrt(2)
    grown = (growth.heights(stand.year + ages) >= gap.least) & (growth.radii(stand.year + ages) >= half)
    if not grown.any():
        return None, f"One {kind} in the middle would not cover half of the gap however old."
    takes = int(ages[np.argmax(grown)])
    by = fall_year - takes
    if by >= stand.year:
        return (
            by,
            f"One more {kind} in the middle, planted by {by}, would cover half of the gap in {fall_year}.",
        )
    longer = half_by is not None and half_by > stand.year + takes
    return by, (
        f"To be ready in {fall_year} one {kind} in the middle would have had to be planted by {by}; "
        f"planted now it covers half of the gap about {stand.year + takes}"
        f"{'; those here stand off its middle and need longer.' if longer else '.'}"
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
    sizes = ", ".join(f"{s.plant} {_size(*s.at_fall)}" for s in found)
    if half.likely is None:
        gap = f"they come to cover {100 * most:.0f} % of the gap at most"
    else:
        gap = f"gap half covered about {half.likely}{_between(half)}"
    sentences = [f"Next canopy by {fall_year}: {sizes}; {gap}."]
    if uncovered:
        sentences.append(f"The gap lies open about {prose.count(uncovered, 'year')}.")
    return (*sentences, plant_by)


def _size(slow: float, likely: float, quick: float) -> str:
    """A height with its range; one metre told once where the range is no wider."""
    low, high = quantities.bare_metres(slow, 0), quantities.bare_metres(quick, 0)
    said = quantities.metres(likely, 0)
    return said if low == high else f"{said} ({low}-{high})"


def _between(half: YearRange) -> str:
    """The range of a year; nothing where it is that year alone."""
    if half.early == half.late == half.likely:
        return ""
    early = half.early if half.early is not None else "?"
    late = half.late if half.late is not None else "later"
    return f" ({early}-{late})"
