"""The garden as frozen values. Metres, degrees Celsius, millimetres throughout."""

import math
from typing import Annotated, Any, Literal, NamedTuple

import msgspec
from msgspec import Meta, Struct

from leafturn.base.closed_words import FlowerOrder, HeapStage, HowOften, Sex
from leafturn.base.quantities import Units
from leafturn.garden.measures import At, Coordinate, Metres, Side, Wall, Year, metres_to_line

State = Literal["well", "weak", "declining", "dead standing", "gone"]
DEAD: tuple[State, ...] = ("dead standing", "gone")
FAILING: tuple[State, ...] = ("weak", "declining", "dead standing")  # not well, and not gone
Raised = Literal["seedling", "graft", "cutting", "layer"]
Plan = Literal["keep", "move", "remove", "undecided"]
UNSETTLED: tuple[Plan, ...] = ("remove", "undecided", "move")  # not taken to stand on where they are


class Point(NamedTuple):
    """A place on the ground [m], east and north of the garden's datum."""

    east: float
    north: float

    def metres_to(self, other: "Point") -> float:
        """Distance on the level [m]."""
        return math.hypot(self.east - other.east, self.north - other.north)


class FrostDate(Struct, frozen=True, kw_only=True):
    """A frost as the garden file gives it: its usual day "MM-DD", how far it strays, how often it comes.

    `years` is the share of the years that have it, 0 to 1: 0 is never. In one that not every year has,
    `usual` is the usual day of the years that have it, or None.
    """

    usual: str | None = None
    one_year_in_ten_after: str | None = None
    one_year_in_ten_before: str | None = None
    years: float = 1.0


class Climate(Struct, frozen=True, kw_only=True):
    """Monthly normals, January first, and frost dates. Any part may be missing."""

    tmax_c: tuple[float, ...] | None = None
    tmin_c: tuple[float, ...] | None = None
    rain_mm: tuple[float, ...] | None = None
    last_frost: FrostDate | None = None
    first_frost: FrostDate | None = None


class Place(Struct, frozen=True, kw_only=True):
    """Where the garden is.

    `slope_deg` is that of the ground, facing `faces_deg` (downhill, from north); `horizon_deg` how high hills
    and houses stand, at even steps clockwise from north. `region` is as written; in `units` all is told.
    """

    lat: Annotated[float, Meta(ge=-90, le=90)]
    lon: Annotated[float, Meta(ge=-180, le=180)]
    name: str = ""
    height_m: Annotated[float, Meta(ge=-500, le=9_000)] | None = None
    datum: str = "the gate"
    soil: Literal["sand", "loam", "clay"] = "loam"
    frost_pocket_c: Annotated[float, Meta(ge=-15, le=5)] = 0.0
    weather: str | None = None
    forecast: str | None = None
    warming_c_per_decade: Annotated[float, Meta(ge=-5, le=5)] = 0.0
    wind_from: str | None = None
    region: str | None = None
    pace_m: Annotated[float, Meta(ge=0.3, le=1.5)] = 0.75
    slope_deg: Annotated[float, Meta(ge=0, le=60)] = 0.0
    faces_deg: Annotated[float, Meta(ge=0, le=360)] = 180.0
    horizon_deg: tuple[Annotated[float, Meta(ge=0, le=90)], ...] = ()
    units: Units = "metric"

    @property
    def southern(self) -> bool:
        """Whether the seasons run from July."""
        return self.lat < 0


class Guard(Struct, frozen=True, kw_only=True):
    """A guard round a stem."""

    height_cm: Annotated[float, Meta(ge=0, le=1_000)] | None = None
    year: Year | None = None


class Plant(Struct, frozen=True, kw_only=True, cache_hash=True):
    """One plant, or `count` of them standing together.

    `at` is the place as written; `point` what it came to [m], None if no place was given. `line` is where
    the plant begins in the garden file. `opens` and `ripe` are the usual month and day, "04-28", of its
    first flower and of its first ripe fruit, as the steward knows them.
    """

    kind: str
    id: str = ""
    name: str | None = None
    cultivar: str | None = None
    rootstock: str | None = None
    raised: Raised | None = None
    year: Year | None = None
    age_when_planted: Annotated[float, Meta(ge=0, le=500)] = 0.0
    count: Annotated[int, Meta(ge=1, le=100_000)] = 1
    patch_m2: Annotated[float, Meta(gt=0, le=10_000_000)] | None = None
    sex: Sex | None = None
    flower_order: FlowerOrder | None = None
    s_alleles: tuple[str, ...] = ()
    also_bears: tuple[str, ...] = ()
    host: str | None = None
    guild: str | None = None
    role: tuple[str, ...] = ()
    origin: str | None = None
    plan: Plan | None = None
    state: State = "well"
    height_m: Metres | None = None
    crown_m: Metres | None = None
    trunk_cm: Annotated[float, Meta(ge=0, le=2_000)] | None = None
    lean: str | None = None
    guard: Guard | None = None
    after_death: str | None = None
    why: str | None = None
    promise: str | None = None
    words: str | None = None
    opens: str | None = None
    ripe: str | None = None
    at: At | None = None
    point: Point | None = None
    line: int = 0

    @property
    def came_by_itself(self) -> bool:
        """Whether nobody planted it, by the words of its origin."""
        return "itself" in (self.origin or "") or "chance" in (self.origin or "")

    def age(self, year: int) -> float | None:
        """Years since it began to grow, at midsummer of `year`; None if no year was given."""
        return None if self.year is None else year - self.year + self.age_when_planted


class Helper(Struct, frozen=True, kw_only=True):
    """Someone who helps. `can`: seated, light, kneel, lift, ladder, saw, licensed, anything.

    `keeper` says that it is they who keep the garden, so that no steward stands beside them.
    """

    name: str
    hours_per_week: Annotated[float, Meta(ge=0, le=168)] = 4.0
    can: tuple[str, ...] = ("anything",)
    reach_from: At | None = None
    reach_point: Point | None = None
    reach_m: Metres | None = None
    slope: str | None = None
    days: tuple[str, ...] = ()
    people: Annotated[int, Meta(ge=1, le=100)] = 1
    keeper: bool = False
    line: int = 0


STEWARD = Helper(name="steward", hours_per_week=6.0)  # who keeps a garden; the hours are a guess


class HeapLayer(Struct, frozen=True, kw_only=True):
    """One thing that went into a heap."""

    what: str
    kg: Annotated[float, Meta(ge=0, le=1_000_000)]


class Heap(Struct, frozen=True, kw_only=True):
    """A compost heap or bay. `bay_m`: width, depth, height [m]."""

    id: str = ""
    name: str | None = None
    at: At | None = None
    bay_m: tuple[Side, Side, Side] | None = None
    stage: HeapStage = "filling"
    mix: tuple[HeapLayer, ...] = ()
    words: str | None = None
    point: Point | None = None
    line: int = 0


class Path(Struct, frozen=True, kw_only=True):
    """A way people take."""

    line: tuple[tuple[Coordinate, Coordinate], ...]
    name: str = ""
    used: HowOften = "weekly"
    public: bool = False

    def metres_to(self, point: Point) -> float:
        """Distance [m] from a point to the nearest point of the way; infinite for one without points."""
        return metres_to_line(point, self.line)


class Seat(Struct, frozen=True, kw_only=True):
    """A place where people stay: a bench, a table, a sandpit."""

    at: At
    name: str = ""
    used: HowOften = "weekly"
    public: bool = False
    point: Point | None = None
    line: int = 0


class Roof(Struct, frozen=True, kw_only=True):
    """A building. `at` is its middle, `size_m` how far it goes from west to east and from south to north."""

    at: At
    name: str = ""
    size_m: tuple[Wall, Wall] = (4.0, 4.0)
    point: Point | None = None
    line: int = 0

    def metres_to(self, point: Point) -> float:
        """Distance [m] from a point to the nearest wall; 0 within."""
        middle = self.point or Point(0.0, 0.0)
        beside = max(abs(point.east - middle.east) - self.size_m[0] / 2, 0.0)
        before = max(abs(point.north - middle.north) - self.size_m[1] / 2, 0.0)
        return math.hypot(beside, before)


class Neighbour(Struct, frozen=True, kw_only=True):
    """A plant over the fence or in a hedge that may lend pollen.

    `how_far_m` is as given or, where only a place `at` was, the distance to the nearest plant of its kind.
    """

    kind: str
    how_far_m: Metres
    cultivar: str | None = None
    sex: Sex | None = None
    flower_order: FlowerOrder | None = None
    year: Year | None = None
    at: At | None = None
    point: Point | None = None
    line: int = 0


class OwnJob(Struct, frozen=True, kw_only=True):
    """A job of the steward's own. `when`: an ISO date, or a moment such as "3 d after bloom end".

    Done once it is done for good, unless it is `yearly`.
    """

    what: str
    when: str
    id: str = ""
    plant: str | None = None
    minutes: Annotated[float, Meta(ge=0, le=10_000)] = 15.0
    within_days: Annotated[int, Meta(ge=1, le=366)] = 14
    yearly: bool = False
    demands: tuple[str, ...] = ()
    why: str | None = None
    line: int = 0


class Garden(Struct, frozen=True, kw_only=True, dict=True):
    """All that the garden file says.

    `rules` are the steward's own values for built-in numbers; `own_rules` the tables ``[[rule]]``, each with
    its "line"; `also` ways to gardens told with this one, `not_there` those that lead nowhere yet.
    """

    place: Place
    climate: Climate | None = None
    plants: tuple[Plant, ...] = ()
    helpers: tuple[Helper, ...] = ()
    heaps: tuple[Heap, ...] = ()
    paths: tuple[Path, ...] = ()
    seats: tuple[Seat, ...] = ()
    roofs: tuple[Roof, ...] = ()
    neighbours: tuple[Neighbour, ...] = ()
    jobs: tuple[OwnJob, ...] = ()
    rules: dict[str, float | str | bool] = msgspec.field(default_factory=dict)
    own_rules: tuple[dict[str, Any], ...] = ()
    also: tuple[str, ...] = ()
    not_there: tuple[str, ...] = ()

    def plant(self, plant_id: str) -> Plant | None:
        """The plant with this id, or None."""
        return next((p for p in self.plants if p.id == plant_id), None)

    @property
    def all_helpers(self) -> tuple[Helper, ...]:
        """The helpers, and who keeps the garden, written down or not."""
        if any(h.keeper or h.name.casefold() == STEWARD.name for h in self.helpers):
            return self.helpers
        return (STEWARD, *self.helpers)

    def heap(self, heap_id: str) -> Heap | None:
        """The heap with this id, or None."""
        return next((h for h in self.heaps if h.id == heap_id), None)
