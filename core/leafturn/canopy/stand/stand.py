"""The garden as crowns by year: how big each is, how much light it holds back, where its own light counts."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import cached_property

import numpy as np

from leafturn.base.arrays import BoolArray, Float32Array, FloatArray, IndexArray
from leafturn.base.value import Value
from leafturn.canopy.stand.crowns import Crowns, base_share, density, solid_of
from leafturn.canopy.stand.growth import Growths, growth_of
from leafturn.canopy.stand.light import Points, Shading, light_shares, optical_depths
from leafturn.canopy.stand.sky import Sampling
from leafturn.garden.model import Plant, Point
from leafturn.kinds.fact import value_of
from leafturn.kinds.model import Juglone, Kind
from leafturn.kinds.spreading import is_unwelcome
from leafturn.season.garden_day import GardenDay
from leafturn.season.winter_cold import is_too_tender

_EVERY = slice(None)  # of the plants
_SAMPLES = ((0.5, 0.5), (0.5, -0.5), (-0.5, -0.5), (-0.5, 0.5))  # of the crown's radius, about its stem
_SAMPLE_HEIGHT = 0.7  # of the plant's height: where most of its leaves and fruit are; a guess
_LIVE_WITHOUT_LOOK = {"weak": 0.8, "declining": 0.5, "dead standing": 0.0}  # guesses
_STEP = 5  # years between reckoned years; between them light is read off a straight line


_SOUTHERN_WINTER_ENDS = 8  # month


class Course(Value):
    """Whether a plant still stands in each year, and the live share of its crown; both (years,)."""

    live: FloatArray
    stands: BoolArray


class Stand:
    """All placed plants with their growth; one to be planted only after `year` is not among them.

    Parameters
    ----------
    live : mapping of str to float
        Live share of the crown, 0 to 1, of plants whose crown was looked at.
    nights : callable, optional
        Gives the coldest nights of the usual years [degC], (years,); without it no kind is too tender.
    """

    def __init__(
        self, day: GardenDay, live: Mapping[str, float], nights: Callable[[], FloatArray] | None = None
    ) -> None:
        self._nights = nights
        self.library, self.numbers, self.year = day.library, day.numbers, day.on.year
        self.place = day.garden.place
        over = self.place.southern and day.on.month > _SOUTHERN_WINTER_ENDS
        self.winter = self.year + 1 if over else self.year
        self.plants = [p for p in day.garden.plants if _stands(p, self.year)]
        self.index = {plant.id: n for n, plant in enumerate(self.plants)}
        self.kinds = [day.kind(p) for p in self.plants]
        self._specimens = [day.specimen(p) for p in self.plants]
        self.growth = [growth_of(s, self.numbers, self.year) for s in self._specimens]
        self._growths = Growths(self.growth)
        self.live = np.array([live.get(p.id, _LIVE_WITHOUT_LOOK.get(p.state, 1.0)) for p in self.plants])
        points = [p.point or Point(0, 0) for p in self.plants]
        self.east = np.array([p.east for p in points], dtype=np.float32)
        self.north = np.array([p.north for p in points], dtype=np.float32)
        self._many = np.array([max(p.count, 1) ** 0.5 for p in self.plants], dtype=np.float32)
        self._patch = np.array([((p.patch_m2 or 0) / np.pi) ** 0.5 for p in self.plants], dtype=np.float32)
        self._base = np.array([base_share(k) for k in self.kinds], dtype=np.float32)
        self._solid = np.array([solid_of(k) for k in self.kinds], dtype=np.intp)
        self._through_leaf = np.array([_through(k, leaf=True) for k in self.kinds], dtype=np.float32)
        self._through_bare = np.array([_through(k, leaf=False) for k in self.kinds], dtype=np.float32)
        self._evergreen = np.array([k.evergreen for k in self.kinds])
        self._now: tuple[Sampling, Float32Array] | None = None
        self.group = np.array([self._host(n) for n in range(len(self.plants))], dtype=np.intp)

    def would_do_here(self, kind: Kind) -> bool:
        """Whether a kind may be proposed: it neither spreads into wild land here nor freezes."""
        if is_unwelcome(kind, self.place):
            return False
        return self._nights is None or not is_too_tender(kind, self._nights())

    def juglone(self, n: int) -> Juglone | None:
        """What plant `n` has to do with juglone."""
        return self._specimens[n].juglone

    def _host(self, n: int) -> int:
        """The plant it climbs on, through a chain of hosts, or itself."""
        for _ in range(len(self.plants)):
            host = self.index.get(self.plants[n].host or "")
            if host is None or host == n:
                break
            n = host
        return n

    @cached_property
    def own_heights(self) -> Float32Array:
        """Height [m] of each plant this year by its own growth, whatever it climbs on."""
        return np.asarray(self._growths.heights(self.year), dtype=np.float32)

    @cached_property
    def own_radii(self) -> Float32Array:
        """Crown radius [m] of each single plant this year."""
        return np.asarray(self.own_heights * self._growths.width, dtype=np.float32)

    def heights(self, year: int) -> Float32Array:
        """Height [m] of each plant in a year; a climber goes no higher than its host."""
        own = self._growths.heights(year).astype(np.float32)
        return np.where(self.group == np.arange(len(own)), own, np.minimum(own, own[self.group]))

    def radii(self, year: int) -> Float32Array:
        """Crown radius [m]; of several together or of a patch, that of the whole."""
        own = self._growths.heights(year) * self._growths.width
        return np.asarray(np.maximum(own * self._many, self._patch), dtype=np.float32)

    def crowns(self, year: int) -> Crowns:
        """The crowns of a year."""
        tall = self.heights(year)
        return Crowns.of(self.east, self.north, self._base * tall, tall, self.radii(year), self._solid)

    def points(self, year: int, of: IndexArray | slice = _EVERY) -> Points:
        """Places in each crown whose light stands for the plant: as many as `_SAMPLES`, one after another.

        Of every plant, or of those with some numbers.
        """
        wide, up = self.radii(year), self.heights(year) * _SAMPLE_HEIGHT
        at = np.stack(
            [np.stack([self.east + e * wide, self.north + n * wide, up], axis=1) for e, n in _SAMPLES],
            axis=1,
        )
        group = np.repeat(self.group[of], len(_SAMPLES))
        return Points(at=at[of].reshape(-1, 3).astype(np.float32), group=group)

    def density(
        self,
        crowns: Crowns,
        live: FloatArray,
        stands: BoolArray,
        leaf: float | FloatArray = 1.0,
    ) -> Float32Array:
        """Extinction [1/m] of each crown.

        Parameters
        ----------
        crowns : Crowns
            Those of the year.
        live : (n,)
            Live share of each crown; the dead part keeps `dead_wood_shade` of a leafless crown's.
        stands : (n,) bool
        leaf : float or (n,)
            Share of the leaves that leaf-shedding crowns carry.
        """
        middle = crowns.middle_path()
        bare = density(self._through_bare, middle, crowns.solid)
        carried = np.where(self._evergreen, 1.0, leaf)
        alive = bare + carried * np.maximum(density(self._through_leaf, middle, crowns.solid) - bare, 0)
        dead = self.numbers["dead_wood_shade"] * bare
        return np.where(stands, live * alive + (1 - live) * dead, 0).astype(np.float32)

    def depths(self, year: int, sampling: Sampling, dense: Float32Array) -> Float32Array:
        """Depths (points, rays) under all crowns of a year with these densities."""
        return optical_depths(self.points(year), self.crowns(year), self.group, dense, sampling.fan)

    def depths_now(self, sampling: Sampling) -> Float32Array:
        """Depths (points, rays) under all crowns as they are this year; kept for the same sampling."""
        if self._now is None or self._now[0] is not sampling:
            dense = self.density(self.crowns(self.year), self.live, np.ones(len(self.plants), dtype=bool))
            self._now = (sampling, self.depths(self.year, sampling, dense))
        return self._now[1]

    def depths_of(self, n: int, year: int, sampling: Sampling) -> Float32Array:
        """Ways (points, rays) [m] through the crown of one plant alone."""
        one = np.array([n], dtype=np.intp)
        return optical_depths(
            self.points(year),
            self.crowns(year).take(one),
            self.group[one],
            np.ones(1, dtype=np.float32),
            sampling.fan,
        )

    def mean_light(self, depths: Float32Array, sampling: Sampling) -> Float32Array:
        """Light of each plant [% of open], the mean over its points."""
        shares = light_shares(depths, sampling).reshape(-1, len(_SAMPLES))
        return np.asarray(100 * shares.mean(axis=1), dtype=np.float32)

    def light_by_month(
        self, of: IndexArray, leaf: FloatArray, samplings: Sequence[Sampling], gone: int | None = None
    ) -> Float32Array:
        """Light (12, plants) [% of open] this year, January first.

        Parameters
        ----------
        of : (plants,) int
            Numbers of the plants whose light is asked for.
        leaf : (12, n)
            Share of its leaves that each leaf-shedding crown carries in each month.
        samplings : sequence of Sampling
            One a month.
        gone : int, optional
            Number of a plant to leave out.
        """
        stands = np.ones(len(self.plants), dtype=bool)
        if gone is not None:
            stands[gone] = False
        points, crowns = self.points(self.year, of), self.crowns(self.year)
        found = []
        for leaves, months in zip(leaf, samplings, strict=True):
            dense = self.density(crowns, self.live, stands, leaves)
            depths = optical_depths(points, crowns, self.group, dense, months.fan)
            found.append(self.mean_light(depths, months))
        return np.array(found)

    def light_ahead(
        self, sampling: Sampling, years: int, courses: Mapping[int, Course]
    ) -> Iterator[tuple[int, Float32Array]]:
        """Light by plant [% of open] now and to `years` on, one reckoned year at a time.

        Every fifth year, and the years about a fall: between them light changes by growth alone. Whoever
        asks sees how far it has come, and may stop. Plants without a course stay as they are.
        """
        falls = [int(np.argmin(course.stands)) for course in courses.values() if not course.stands.all()]
        about = {year for fall in falls for year in (fall - 1, fall) if 0 <= year <= years}
        reckoned = [self.year + passed for passed in sorted({*range(0, years + 1, _STEP), years, *about})]
        shading = self._shading(reckoned, sampling)
        for year in reckoned:
            live, stands = self.live.copy(), np.ones(len(self.plants), dtype=bool)
            for n, course in courses.items():
                live[n], stands[n] = course.live[year - self.year], course.stands[year - self.year]
            yield year, self._light(year, sampling, shading, live, stands)

    def light_in(self, year: int, sampling: Sampling, live: FloatArray, stands: BoolArray) -> Float32Array:
        """Light by plant [% of open] in a year, with these crowns alive and standing."""
        return self._light(year, sampling, self._shading([year], sampling), live, stands)

    def _shading(self, years: Sequence[int], sampling: Sampling) -> Shading:
        return Shading([(self.points(year), self.crowns(year)) for year in years], self.group, sampling.fan)

    def _light(
        self, year: int, sampling: Sampling, shading: Shading, live: FloatArray, stands: BoolArray
    ) -> Float32Array:
        crowns = self.crowns(year)
        depths = shading.depths(self.points(year), crowns, self.density(crowns, live, stands))
        return self.mean_light(depths, sampling)


def _stands(plant: Plant, year: int) -> bool:
    """Whether a plant has a place and is in the ground in a year: not gone, and not planted later."""
    planted = plant.year is None or plant.year <= year
    return plant.point is not None and plant.state != "gone" and planted


def _through(kind: Kind, *, leaf: bool) -> float:
    fact = kind.light.through_leaf if leaf else kind.light.through_bare
    return value_of(fact, 0.22 if leaf else 0.55)  # handbook's middling class


def every_year(found: Sequence[tuple[int, Float32Array]]) -> dict[int, Float32Array]:
    """Light of every year, read off straight lines between the years reckoned."""
    if not found:
        return {}
    at = [year for year, _ in found]
    light = np.array([values for _, values in found])
    years = range(at[0], at[-1] + 1)
    filled = np.array([np.interp(years, at, light[:, n]) for n in range(light.shape[1])]).T
    return {year: filled[i].astype(np.float32) for i, year in enumerate(years)}
