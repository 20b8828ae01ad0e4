"""When each plant comes into leaf, opens, is in full bloom, fades and ripens this season."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping
from functools import cache, cached_property

import numpy as np
from msgspec.structs import replace

from leafturn.base.arrays import FloatArray, median
from leafturn.base.bloom_stages import FIRST_OPEN
from leafturn.base.kept import kept
from leafturn.bloom.alike import first_alike
from leafturn.bloom.beyond import beyond_words, short_chill_variance, tells_nothing
from leafturn.bloom.members import ByDates, Target, level_draws, open_days, with_dates
from leafturn.bloom.model import BloomForecast, Outlook, Picking, Requirement
from leafturn.bloom.notes.level_notes import Level, LevelNote
from leafturn.bloom.notes.observations import LEAF
from leafturn.bloom.notes.one_plant import date_share, dates_alone
from leafturn.bloom.notes.season_notes import SeasonNotes
from leafturn.bloom.priors.prior import BloomPrior, KindHere
from leafturn.bloom.priors.response import Response, Timing
from leafturn.bloom.ripening import Flowering, Harvests
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.bloom.stages import Stages, stages_of
from leafturn.bloom.targets import Targets
from leafturn.garden.model import Plant
from leafturn.season.garden_day import GardenDay
from leafturn.season.stage_duration import Pace

LEAST_SHARE = 0.01  # a smaller chance that dates tell more than warmth is left out


def forecast_blooms(
    day: GardenDay, weather: SeasonWeather, priors: Mapping[str, BloomPrior | None] | None = None
) -> Outlook:
    """Forecast of every plant whose kind flowers.

    Parameters
    ----------
    day : GardenDay
    weather : SeasonWeather
        Of the season wanted.
    priors : mapping of kind to BloomPrior or None, optional
        To be used instead of the packaged fitted ones; None for a kind sets its fitted prior aside.
    """
    return Forecaster.of(day, weather, priors).outlook()


class Forecaster:
    """One season's forecasting: priors, notes, levels, then days.

    Parameters
    ----------
    targets : Targets
    notes : SeasonNotes
    weather : SeasonWeather
    only : collection of plant ids, optional
        Those that are wanted; all if None. Notes of the others count all the same.
    flowers_alone : bool
        Whether neither leaves nor harvest are wanted.
    """

    def __init__(
        self,
        targets: Targets,
        notes: SeasonNotes,
        weather: SeasonWeather,
        only: Collection[str] | None = None,
        *,
        flowers_alone: bool = False,
    ) -> None:
        self.targets, self.notes, self.weather = targets, notes, weather
        self._only, self._flowers_alone = only, flowers_alone

    @classmethod
    def of(
        cls,
        day: GardenDay,
        weather: SeasonWeather,
        priors: Mapping[str, BloomPrior | None] | None = None,
        only: Collection[str] | None = None,
    ) -> Forecaster:
        """That of a garden's season; parameters as of `forecast_blooms` and of the class."""
        targets = Targets(day, weather, priors or {})
        return cls(targets, SeasonNotes.read(targets, weather), weather, only)

    def usual(self, plants: Collection[str]) -> Forecaster:
        """That of the same season before its weather was known and anything was noted in it.

        Parameters
        ----------
        plants : collection of plant ids
            Those whose flowers are wanted.
        """
        weather = replace(self.weather, now=self.weather.usual)
        notes = self.notes.of_earlier_springs(lambda target: target in plants)
        return Forecaster(self.targets, notes, weather, plants, flowers_alone=True)

    def outlook(self) -> Outlook:
        """Everything, in the order it follows from one another."""
        opens = self._opens(firsts=True)
        return Outlook(
            blooms=self._told,
            leaves={p: opens[first + LEAF][0] for p, first in self._told_as.items() if first + LEAF in opens},
            told_as=self._told_as,
            apart=self.blooms,
            place_days=self.notes.known.place_days,
            unused=self.notes.unused,
            beyond=tuple(self._beyond()),
            of_lost={
                plant: self.notes.springs(kind, plant)[0]
                for plant, kind in self.targets.names.items()
                if plant in self.targets.lost and not plant.endswith(LEAF)
            },
        )

    def blooms(self) -> dict[str, BloomForecast]:
        """Bloom, and harvest if it is wanted, by plant id; plants that are told alike go apart by chance."""
        return self._told | {
            plant.id: replace(self._told[plant.id], first_open=first_open, full=full, end=end)
            for plant, (first_open, full, end) in self._stages(firsts=False)
        }

    @cached_property
    def _told(self) -> dict[str, BloomForecast]:
        """The same as it is told: of all plants alike that of the first."""
        picking = cache(lambda: {} if self._flowers_alone else self._harvests.of(self._flowering()))
        firsts = {plant.id: self._bloom(plant, three, picking) for plant, three in self._stages(firsts=True)}
        return {p.id: replace(firsts[self._told_as[p.id]], plant=p.id) for p in self._wanted}

    @kept
    def _stages(self, *, firsts: bool) -> list[tuple[Plant, Stages]]:
        """Stages of the first of plants alike, or of the others."""
        flowering = [plant for plant in self._wanted if self._is_first(plant.id) == firsts]
        opens = self._opens(firsts=firsts)
        stages = stages_of(
            [opens[plant.id][0] for plant in flowering],
            [self.targets.lengths[plant.id] for plant in flowering],
            [self.notes.observed(plant.id) for plant in flowering],
            self.weather.axis,
            Pace(self.weather.now),
        )
        return list(zip(flowering, stages, strict=True))

    def _flowering(self) -> Iterator[Flowering]:
        """What harvests follow from, of each plant with a full bloom."""
        opens = self._opens(firsts=True)
        for plant, (_, full, _) in self._stages(firsts=True):
            leaf, _ = opens.get(plant.id + LEAF, (None, 0.0))
            yield Flowering(plant, full, leaf, self.targets.lengths[plant.id])

    @cached_property
    def _told_as(self) -> dict[str, str]:
        """By plant the first that is alike, of which its days are told."""
        wanted = [plant for plant in self.targets.living if self._only is None or plant.id in self._only]
        return first_alike(wanted, self.targets, self.notes, self._harvests)

    def _is_first(self, target: str) -> bool:
        plant = target.removesuffix(LEAF)
        return self._told_as[plant] == plant

    @cached_property
    def _wanted(self) -> list[Plant]:
        return [plant for plant in self.targets.flowering if self._is_wanted(plant.id)]

    def _is_wanted(self, target: str) -> bool:
        if self._flowers_alone and target.endswith(LEAF):
            return False
        return self._only is None or target.removesuffix(LEAF) in self._only

    @cached_property
    def _harvests(self) -> Harvests:
        levels = {target: level.mean for target, level in self.notes.known.levels.items()}
        return Harvests(self.targets.day, self.weather, self.targets.priors, levels)

    @kept
    def _short_of_chill(self, plant: str) -> float | None:
        """Share of ensemble members short of the chill a plant wants; None where none is stated."""
        need = self.targets.chill_needs[plant]
        return None if need is None else need.short(self.weather.chill)

    def _beyond(self) -> Iterator[str]:
        targets = self.targets
        here = {
            targets.names[t]: one
            for t, one in targets.here.items()
            if isinstance(targets.priors[t].response, Response) and not t.endswith(LEAF)
        }
        yield from beyond_words(here, self.notes.noted_kinds, self.weather)

    @kept
    def _opens(self, *, firsts: bool) -> dict[str, tuple[FloatArray, float]]:
        """Days on which each target's level is reached, cultivar included, and the share that dates have.

        Of plants that are not the first of those alike the flowers alone, which pollen follows.
        """
        known = self.notes.known
        priors = {
            target: prior
            for target, prior in self.targets.priors.items()
            if target not in self.targets.lost
            and self._is_wanted(target)
            and self._is_first(target) == firsts
            and (firsts or not target.endswith(LEAF))
        }
        of_timing: dict[Timing, list[str]] = {}
        for target, prior in priors.items():
            of_timing.setdefault(prior.response, []).append(target)
        found: dict[str, tuple[FloatArray, float]] = {}
        for timing, targets in of_timing.items():
            together = level_draws([self._drawn(target) for target in targets], self.weather.now.draws)
            ahead = np.array([priors[target].widening_ahead for target in targets])
            for target, days in zip(targets, open_days(self.weather, timing, together, ahead), strict=True):
                found[target] = self._with_notes(target, known.levels[target], days)
        return found

    def _drawn(self, target: str) -> Target:
        """What is known of a target's level; a winter short of chill leaves it less sure."""
        level = self.notes.known.levels[target]
        short = None if target.endswith(LEAF) else self._short_of_chill(target)
        level = replace(level, variance=level.variance + short_chill_variance(short))
        return Target(target, self.targets.names[target], level, self.targets.priors[target].widening)

    def _with_notes(self, target: str, level: Level, days: FloatArray) -> tuple[FloatArray, float]:
        """Days as own dates and the cultivar move them, and the share that dates have."""
        if self._is_silent(target):
            return np.full_like(days, np.inf), 0.0
        notes = self.notes.of(target)
        late = 0.0 if target.endswith(LEAF) else self.targets.lengths[target].late
        dates = self._by_dates(target, level, notes)
        if dates is None:
            return days + late, 0.0
        return with_dates(days, dates, target) + late, dates.share

    def _is_silent(self, target: str) -> bool:
        """Whether no day can be told of a target: what opens in any month goes by no spring before."""
        notes, here = self.notes.of(target), self.targets.here[target]
        if here.any_month:
            return not any(note.lasting for note in notes)
        return not notes and tells_nothing(here, self.weather)

    def _by_dates(self, target: str, level: Level, notes: list[LevelNote]) -> ByDates | None:
        """What a plant's own dates of earlier springs say by themselves."""
        season, here = self.weather.axis.year, self.targets.here[target]
        own = [n for n in notes if n.season != season and not n.lasting]
        if not own:
            return None
        share = date_share([n for n in own if n.weather_variance == 0], level, here)
        if share < LEAST_SHARE:
            return None
        prior = self.targets.priors[target]
        usual = self._usual_day(prior, here) if prior.origin == "stated" else here.day
        day, sd = dates_alone(here, [n.day for n in own], usual)
        return ByDates(share=share, day=day - 1 + self.weather.axis.day(self.weather.axis.start), sd=sd)

    def _usual_day(self, prior: BloomPrior, here: KindHere) -> float:
        """Day number on which the kind opens here in a usual season, by the published level."""
        reached = self.weather.usual_warmth.day_reached(prior.response, here.levels.middle)
        finite = reached[np.isfinite(reached)]
        if not len(finite):
            return here.day
        return median(finite) + 1 - self.weather.axis.day(self.weather.axis.start)

    def _bloom(
        self, plant: Plant, stages: Stages, picking: Callable[[], Mapping[str, Picking]]
    ) -> BloomForecast:
        targets, known, observed = self.targets, self.notes.known, self.notes.observed(plant.id)
        kind, prior, here = targets.day.kind(plant), targets.priors[plant.id], targets.here[plant.id]
        level, (_, dates) = known.levels[plant.id], self._opens(firsts=True)[plant.id]
        mine, kin = self.notes.springs(kind.name, plant.id)
        return BloomForecast(
            plant=plant.id, first_open=stages[0], full=stages[1], end=stages[2],
            picking=lambda: picking().get(plant.id),
            ripens=kind.harvest.ripens, observed=dict(observed), own_notes=mine, kin_notes=kin,
            basis="own record" if mine or plant.opens is not None else targets.basis(kind, plant.id),
            need=Requirement(
                timing=prior.response, origin=prior.origin, published=here.levels.middle, used=level.mean,
                before_spring=level.mean - level.moved,
                own=level.own, place=level.place_adds, kind_adds=level.kind_adds,
                late_days=targets.lengths[plant.id].late, by_dates=dates,
                degrees_outside=here.degrees_outside,
            ),
            moved_days=0.0 if FIRST_OPEN.name in observed else self._days_of(prior, level),
            chill_short=self._short_of_chill(plant.id),
            ripens_as_kind=self._harvests.by_kind_alone(plant),
            questioned=self.notes.questioned(plant.id),
            told=not self._is_silent(plant.id) or bool(np.isfinite(stages[0]).any()),
        )  # fmt: skip

    def _days_of(self, prior: BloomPrior, level: Level) -> float:
        """How many days this spring's notes have moved a plant."""
        if level.moved == 0.0:
            return 0.0
        both = (level.mean - level.moved, level.mean)
        before, after = (self.weather.warmth.median_day(prior.response, one) for one in both)
        return after - before if np.isfinite(after - before) else 0.0
