"""The canopy as a whole: old trees, their light, reach and heirs, and the seedlings to judge."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from functools import cached_property

import numpy as np

from leafturn.base.arrays import Float32Array
from leafturn.canopy import sentences
from leafturn.canopy.after.options import what_if
from leafturn.canopy.after.release import LaterLight, releases
from leafturn.canopy.after.seedlings import judge_seedlings
from leafturn.canopy.after.short_lived import short_lived
from leafturn.canopy.after.succession import is_successor, succession
from leafturn.canopy.decline.assessments import storm_damage
from leafturn.canopy.decline.fall_zone import falling
from leafturn.canopy.decline.lean import lean_words
from leafturn.canopy.decline.old_trees import Decline, old_trees
from leafturn.canopy.decline.trend import down_by, trend_of
from leafturn.canopy.model import Canopy, OldTree, PlantYears
from leafturn.canopy.stand.crowns import SOLIDS, base_share, solid_of
from leafturn.canopy.stand.light import Points, light_shares, optical_depths
from leafturn.canopy.stand.light_by_month import LightByMonth
from leafturn.canopy.stand.stand import Course, Stand, every_year
from leafturn.canopy.stand.today import StandToday
from leafturn.garden.model import Garden

YEARS_AHEAD = 30
_RANGE_STEP = 10

Progress = Callable[[int, int], None]


class CanopyReview:
    """Works the canopy out from what stands in the garden on a day."""

    def __init__(self, today: StandToday) -> None:
        day = today.day
        self.today, self.stand, self.sampling = today, today.stand, today.sampling
        self.garden, self.on, self.numbers = day.garden, day.on, day.numbers
        self.assessments = today.assessments
        self.storms = storm_damage(day.entries, day.on)
        self.trends = {plant: trend_of(seen, self.numbers) for plant, seen in self.assessments.items()}
        self._light_years: dict[int, Float32Array] | None = None

    def canopy(self, wanted: Sequence[str] = (), progress: Progress | None = None) -> Canopy:
        """Everything the page shows.

        Parameters
        ----------
        wanted : sequence of str
            Kinds of which some tree here lacks a partner.
        progress : callable, optional
            As in `light_years`.
        """
        if not self.stand.plants:
            return Canopy()
        declines = self._old_trees
        later = self.light_years(progress)
        old_trees = tuple(self._old_tree(one, later, wanted) for one in declines)
        return Canopy(
            old_trees=old_trees,
            plants=self._drawn(declines, later),
            seedlings=judge_seedlings(self.stand, self.garden, later[self.on.year], self._falls),
            short_lived=tuple(short_lived(self.stand, [one.n for one in declines])),
            leans=lean_words(self.stand, self.sampling),
            notes=_notes(self.garden, self.stand),
        )

    @property
    def _falls(self) -> dict[int, int]:
        """The year by which each old tree is likely down, by its number."""
        return {one.n: one.down.likely or self.on.year + YEARS_AHEAD for one in self._old_trees}

    def light_years(self, progress: Progress | None = None) -> dict[int, Float32Array]:
        """Light of each plant of the stand [% of open, growing season] in every year to thirty on.

        Reckoned once and kept; old trees go as their trend and the even odds of a fall have it.

        Parameters
        ----------
        progress : callable, optional
            Called with the year reckoned and the last one; it may raise, to stop.
        """
        if self._light_years is None:
            found: list[tuple[int, Float32Array]] = []
            for year, light in self.stand.light_ahead(self.sampling, YEARS_AHEAD, self._courses):
                found.append((year, light))
                if progress is not None:
                    progress(year, self.on.year + YEARS_AHEAD)
            self._light_years = every_year(found)
        return self._light_years

    @cached_property
    def _light_ranges(self) -> dict[int, tuple[Float32Array, Float32Array]]:
        """Least and most light of each plant in every tenth year, by how early or late old trees may go."""
        found = {}
        for passed in range(_RANGE_STEP, YEARS_AHEAD + 1, _RANGE_STEP):
            year = self.on.year + passed
            lights = [self.light_years()[year]]
            as_likely = {n: bool(course.stands[passed]) for n, course in self._courses.items()}
            for early in (True, False):
                there = {one.n: _stands_yet(one, year, early=early) for one in self._old_trees}
                if there != as_likely:
                    live, stands = self.stand.live.copy(), np.ones(len(self.stand.plants), dtype=bool)
                    for n, course in self._courses.items():
                        live[n], stands[n] = course.live[passed], there[n]
                    lights.append(self.stand.light_in(year, self.sampling, live, stands))
            found[year] = (np.minimum.reduce(lights), np.maximum.reduce(lights))
        return found

    def light_at(self, plant_id: str, year: int) -> float | None:
        """Light of one plant [% of open, growing season] in a year; None for a plant without a place.

        Years before now count as now, years beyond thirty on as the last.
        """
        n = self.stand.index.get(plant_id)
        if n is None:
            return None
        within = min(max(year, self.on.year), self.on.year + YEARS_AHEAD)
        return float(self.light_years()[within][n])

    def light_by_month(self, plants: Iterable[str], gone: str | None = None) -> dict[str, tuple[float, ...]]:
        """Light by month of those of some plants that have a place [% of open]; `gone` is left out."""
        return self._by_month.of(plants, gone)

    def ground_light(
        self, year: int, at: Sequence[tuple[float, float]], without: int | None = None
    ) -> Float32Array:
        """Light on the ground [% of open] in a year, for places east and north [m]; old trees as foreseen.

        Plant number `without` is left out, if given.
        """
        stand, passed = self.stand, year - self.on.year
        live, stands = stand.live.copy(), np.ones(len(stand.plants), dtype=bool)
        for n, course in self._courses.items():
            live[n], stands[n] = course.live[passed], course.stands[passed]
        if without is not None:
            stands[without] = False
        where = np.array([(east, north, 0.0) for east, north in at], dtype=np.float32).reshape(-1, 3)
        points = Points(at=where, group=np.full(len(where), -1))
        crowns = stand.crowns(year)
        dense = stand.density(crowns, live, stands)
        depths = optical_depths(points, crowns, stand.group, dense, self.sampling.fan)
        return np.asarray(100 * light_shares(depths, self.sampling))

    @cached_property
    def _by_month(self) -> LightByMonth:
        pocket = self.garden.place.frost_pocket_c
        return LightByMonth(self.stand, self.today.site, self.numbers, self.today.usual, pocket)

    @cached_property
    def _old_trees(self) -> list[Decline]:
        return old_trees(self.stand, self.assessments, self.storms, self.trends)

    @cached_property
    def _courses(self) -> dict[int, Course]:
        return {g.n: g.course(self.stand, YEARS_AHEAD) for g in self._old_trees}

    def _drawn(self, declines: Sequence[Decline], later: dict[int, Float32Array]) -> tuple[PlantYears, ...]:
        falls = {g.n: g.down.likely for g in declines}
        years = list(later)
        tall = np.array([self.stand.heights(year) for year in years])
        wide = np.array([self.stand.radii(year) for year in years])
        return tuple(
            PlantYears(
                plant=plant.id,
                habit=kind.habit,
                solid=SOLIDS[solid_of(kind)],
                east=float(self.stand.east[n]),
                north=float(self.stand.north[n]),
                base_share=base_share(kind),
                sizes={y: (float(tall[i, n]), float(wide[i, n])) for i, y in enumerate(years)},
                light={y: round(float(later[y][n]), 1) for y in years},
                falls_after=falls.get(n),
                live=self._live_years(n) if n in falls else {},
            )
            for n, (plant, kind) in enumerate(zip(self.stand.plants, self.stand.kinds, strict=True))
        )

    def _live_years(self, n: int) -> dict[int, float]:
        course = self._courses[n]
        return {self.on.year + i: round(float(share), 3) for i, share in enumerate(course.live)}

    # ---- one old tree --------------------------------------------------------------------

    def _old_tree(self, decline: Decline, later: dict[int, Float32Array], wanted: Sequence[str]) -> OldTree:
        n, stand = decline.n, self.stand
        plant, kind = stand.plants[n], stand.kinds[n]
        assessments = tuple(self.assessments.get(plant.id, ()))
        live = assessments[-1].live_percent if assessments else None
        crown_known = live is not None or plant.state == "dead standing"
        height = float(stand.heights(self.on.year)[n])
        fall_year = decline.down.likely or self.on.year + YEARS_AHEAD
        reach = falling(plant, height, live, self.garden, self.numbers)
        assert reach is not None, "only placed plants stand here"
        heirs = {p.id for m, p in enumerate(stand.plants) if is_successor(stand, n, m)}
        rows = releases(stand, n, self.sampling, LaterLight(later, self._light_ranges), heirs)
        spot = [(float(stand.east[n]), float(stand.north[n]))]
        below = tuple(float(self.ground_light(self.on.year, spot, gone)[0]) for gone in (None, n))
        follow = succession(stand, n, fall_year, (below[0], below[1]), wanted)
        of_crown = tuple(
            sentences.crown_words(
                assessments, decline.trend, decline.bare, plant, kind, self.on.year,
                southern=self.garden.place.southern,
            )
        )  # fmt: skip
        down_says = sentences.down_words(decline.down)
        says = [*of_crown, down_says]
        if rows:
            crops = [r for r in rows if r.reply == "crops more"] or list(rows)
            most = max(crops, key=lambda r: (r.points, r.plant))
            says.append(sentences.points_back_words(most, looked=crown_known))
            says.append(sentences.later_light_words(fall_year, decline.down))
        says += [*sentences.gains_words(rows), *follow.says]
        says += sentences.falling_words(reach, self.numbers)
        return OldTree(
            plant=plant.id,
            kind=kind.name,
            planted=plant.year,
            state=plant.state,
            height_m=height,
            radius_m=float(stand.radii(self.on.year)[n]),
            live_percent=live,
            crown_known=crown_known,
            assessments=assessments,
            trend_per_year=decline.trend.per_year if decline.trend else None,
            fit=decline.fit,
            bare=decline.bare,
            down=decline.down,
            down_by=tuple(
                (self.on.year + i, float(chance)) for i, chance in enumerate(down_by(decline.chances)[:31])
            ),
            falling=reach,
            releases=rows,
            succession=follow,
            choices=what_if(self.garden, plant, reach, rows, heirs, self.numbers),
            says=tuple(says),
            crown_says=of_crown[0],
            down_says=down_says,
            live=self._live_years(n),
        )


def _stands_yet(decline: Decline, year: int, *, early: bool) -> bool:
    """Whether an old tree is still up in a year if it goes as early, or as late, as one in ten do."""
    fall = decline.down.early if early else decline.down.late
    return fall is None or year <= fall


def _notes(garden: Garden, stand: Stand) -> tuple[str, ...]:
    unplaced = [p.id for p in garden.plants if p.point is None and p.state != "gone"]
    guessed = [p.id for p, g in zip(stand.plants, stand.growth, strict=True) if g.guessed]
    said = []
    if unplaced:
        said.append(f"Left out, since no place is given: {', '.join(unplaced)}.")
    if guessed:
        said.append(f"Taken as grown, since no year or height is given: {', '.join(guessed)}.")
    return tuple(said)
