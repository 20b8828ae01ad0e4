"""What the canopy answers, as frozen values. Light is in % of that under an open sky, May to September."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from typing import Literal

from msgspec import field

from leafturn.base.value import Value
from leafturn.canopy.decline.trend import CrownAssessment, YearRange
from leafturn.garden.model import State

Verdict = Literal["keep", "move", "remove"]
Reply = Literal[
    "crops more", "grows more", "takes the gap", "scorch: move", "scorch already: move", "little change"
]

CAUTION = (
    "Have a competent, insured inspector see it; ask about local felling, nesting and protected-tree rules. "
    "No figure here is an assurance."
)


class Release(Value):
    """One plant's light with the old tree's crown full, as it is now, and gone; and later.

    `later` holds each year to 30 years on, the old tree going as its trend has it, `later_range` the least
    and most of every tenth year, as old trees stand as long or go as early as nine times in ten.
    `points_back` of the `points` between full and gone have come back already. `below_need_from` is the
    first year with less light than the kind's `need`; `metres` and `bearing` tell the way from the old tree.
    `reply` is what it makes of the light; `response` the light when gone against now.
    """

    plant: str
    kind: str
    metres: float
    bearing: str
    full: float
    now: float
    gone: float
    later: Mapping[int, float]
    reply: Reply
    response: float
    need: float | None
    scorch: float | None
    below_need_from: int | None
    guessed: bool
    later_range: Mapping[int, tuple[float, float]] = field(default_factory=dict)

    @property
    def scorches(self) -> bool:
        """Whether full light scorches it, or does already."""
        return self.reply in ("scorch: move", "scorch already: move")

    @property
    def points(self) -> float:
        """Points of light between a full crown and none."""
        return self.gone - self.full

    @property
    def points_back(self) -> float:
        """Points that have come back already."""
        return self.now - self.full


class PathReach(Value):
    """A path and how it lies to a tree: nearest point, and metres of it within one height and further."""

    name: str
    used: str
    public: bool
    nearest_m: float
    metres: float
    metres_brittle: float


class Falling(Value):
    """Where a tree may reach as it falls.

    `reach_m` is one height, `brittle_m` the farther way that pieces of a dead crown go, None while it
    lives. `seats` are places where people stay, `roofs` buildings, each with its distance [m]; `plants` those
    within one height.
    """

    reach_m: float
    brittle_m: float | None
    measured: bool
    paths: tuple[PathReach, ...]
    seats: tuple[tuple[str, float], ...]
    roofs: tuple[tuple[str, float], ...] = ()
    plants: tuple[str, ...]

    @property
    def stem_misses_m(self) -> float | None:
        """Height [m] below which a stem would not reach a path, seat or roof; None without one in reach."""
        near = [path.nearest_m for path in self.paths]
        return min((*near, *(metres for _, metres in (*self.seats, *self.roofs))), default=None)

    @property
    def over_people(self) -> bool:
        """Whether a path, a seat or a roof lies in reach."""
        return bool(self.paths or self.seats or self.roofs)

    @property
    def path_metres(self) -> float:
        """Metres of all paths within one height."""
        return sum(path.metres for path in self.paths)


class WhatIf(Value):
    """One way to deal with the old tree; light is the mean over the plants it shades.

    `gainers` are plants with the points of light they gain at once; `in_reach` seats and roofs within
    `reach_m`.
    """

    what: str
    light: float
    reach_m: float
    path_metres: float
    habitat: str
    successors: str
    gainers: tuple[tuple[str, float], ...] = ()
    in_reach: tuple[str, ...] = ()


class Successor(Value):
    """A tree that may fill the gap: height [m] and crown radius [m] by year, and the height's range then."""

    plant: str
    kind: str
    sizes: Mapping[int, tuple[float, float]]
    at_fall: tuple[float, float, float]
    share_of_gap: Mapping[int, float]


class Suggestion(Value):
    """A kind the library would plant into the gap, and why."""

    kind: str
    why: str


class Succession(Value):
    """Whether the next canopy is ready.

    `half_covered` is when successors cover half of the gap, `uncovered_years` the years from the likely
    fall until then; both None if they do not. `plant_by` is the year by which one more would have to be
    planted in the middle to cover half of the gap at the fall. `neighbours` are trees beside the gap whose
    crowns spread into it; `covered` is the share of the gap under crowns tall enough, by year.
    """

    fall_year: int
    successors: tuple[Successor, ...]
    neighbours: tuple[str, ...] = ()
    covered: Mapping[int, float] = field(default_factory=dict)
    half_covered: YearRange
    uncovered_years: int | None
    plant_by: int | None
    says: tuple[str, ...]
    suggestions: tuple[Suggestion, ...]


class Seedling(Value):
    """A seedling that came by itself: keep, move or remove, by when, and why."""

    plant: str
    kind: str
    verdict: Verdict
    by: int | None
    reasons: tuple[str, ...]


class OldTree(Value):
    """One old tree: how it goes, whom it shades, whom it may hurt, who follows.

    `crown_known` is whether somebody looked at its crown, or it is dead and has none; `live` is the live
    share of its crown by year as the trend has it, `down_by` the chance that it is down by the end of each
    year. `says` holds every sentence in order; `crown_says` is the one about its crown, `down_says` the one
    about when it may be down.
    """

    plant: str
    kind: str
    planted: int | None
    state: State
    height_m: float
    radius_m: float
    live_percent: float | None
    crown_known: bool
    assessments: tuple[CrownAssessment, ...]
    trend_per_year: float | None
    fit: YearRange
    bare: YearRange
    down: YearRange
    down_by: tuple[tuple[int, float], ...]
    falling: Falling
    releases: tuple[Release, ...]
    succession: Succession
    choices: tuple[WhatIf, ...]
    says: tuple[str, ...]
    crown_says: str
    down_says: str
    live: Mapping[int, float] = field(default_factory=dict)

    @property
    def last_assessment(self) -> dt.date | None:
        """The day of the last assessment at its crown."""
        return self.assessments[-1].on if self.assessments else None


class PlantYears(Value):
    """One placed plant as drawn: where it stands [m], what it is, its height and crown radius [m] by year.

    `falls_after` is the last year in which an old tree is drawn standing, None for the others; `live` the
    live share of an old tree's crown by year, as its trend has it.
    """

    plant: str
    habit: str
    solid: str
    east: float
    north: float
    base_share: float
    sizes: Mapping[int, tuple[float, float]]
    light: Mapping[int, float]
    falls_after: int | None = None
    live: Mapping[int, float] = field(default_factory=dict)

    def stands(self, year: int) -> bool:
        """Whether it is drawn standing in a year."""
        return self.falls_after is None or year <= self.falls_after


class Canopy(Value):
    """The old trees, likeliest to go first, the seedlings to judge, and plants near the end of their life.

    `plants` are all placed plants by year, for drawing; `leans` compare noted leans with the bright side.
    """

    old_trees: tuple[OldTree, ...] = ()
    plants: tuple[PlantYears, ...] = ()
    seedlings: tuple[Seedling, ...] = ()
    short_lived: tuple[str, ...] = ()
    leans: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    caution: str = CAUTION
