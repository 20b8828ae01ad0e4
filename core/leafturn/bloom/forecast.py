"""When each plant comes into leaf, opens, is in full bloom, fades and ripens this season."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

import numpy as np

from leafturn.base import prose
from leafturn.base.arrays import FloatArray
from leafturn.base.evidence import Basis
from leafturn.bloom.beyond import beyond_words, short_chill_variance, tells_nothing
from leafturn.bloom.members import ByDates, level_draws, open_days, with_dates
from leafturn.bloom.model import BloomForecast, Requirement
from leafturn.bloom.notes.level_notes import Level, LevelNote
from leafturn.bloom.notes.observations import LEAF, Observation, Observations
from leafturn.bloom.notes.one_plant import QUESTIONED, date_share, dates_alone
from leafturn.bloom.notes.spring import common_share
from leafturn.bloom.notes.thresholds import PLACE, PLACE_BY_LATITUDE, Thresholds, thresholds
from leafturn.bloom.priors.fitted import fitted
from leafturn.bloom.priors.prior import BloomPrior, KindHere
from leafturn.bloom.priors.response import Response, Timing
from leafturn.bloom.priors.stated import leaf_prior, stated, stated_prior
from leafturn.bloom.ripening import Harvests
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.bloom.stages import Lengths, Stages, stages_of
from leafturn.garden.model import Plant
from leafturn.kinds.model import Fact, Kind
from leafturn.season.axis import SeasonAxis
from leafturn.season.garden_day import GardenDay
from leafturn.season.stage_duration import Pace

# Used where a kind states none; each is a guess and is overridden by the library.
FULL_AFTER_DAYS = 4.0
LENGTH_DAYS = 12.0

LEAST_SHARE = 0.01  # a smaller chance that dates tell more than warmth is left out


@dataclass(frozen=True, eq=False, kw_only=True)
class Outlook:
    """A season's forecasts, and what the notes behind them turned out to be worth.

    Parameters
    ----------
    blooms : mapping of plant id to BloomForecast
    leaves : mapping of plant id to (draws,) [day number]
        Leaf-out of plants that shed their leaves.
    place_days : (float, float) [d]
        By how much all things open later here than published, and its standard deviation.
    unused : tuple of str
        One sentence for each note that moved nothing.
    beyond : tuple of str
        What is to be said of kinds that are forecast outside what they were learnt in.
    """

    blooms: dict[str, BloomForecast]
    leaves: dict[str, FloatArray]
    place_days: tuple[float, float] = (0.0, 0.0)
    unused: tuple[str, ...] = ()
    beyond: tuple[str, ...] = ()


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
    return _Forecaster(day, weather, priors or {}).outlook()


class _Forecaster:
    """One season's forecasting: priors, notes, levels, then days."""

    def __init__(
        self, day: GardenDay, weather: SeasonWeather, priors: Mapping[str, BloomPrior | None]
    ) -> None:
        self.day, self.weather = day, weather
        garden = day.garden
        self.kinds = {plant.id: day.kind(plant) for plant in garden.plants}
        self.standing = [p for p in garden.plants if p.state not in ("gone", "dead standing")]
        self.lengths = {p.id: self._lengths(p) for p in self.standing}
        self.priors: dict[str, BloomPrior] = {}
        self.names: dict[str, str] = {}
        for plant in self.standing:
            kind = self.kinds[plant.id]
            if (prior := prior_of(kind, priors)) is not None:
                self.priors[plant.id], self.names[plant.id] = prior, kind.name
            if (heat := kind.leaf.out_heat) is not None and not kind.evergreen:
                self.priors[plant.id + LEAF] = leaf_prior(heat.value, heat.sure == "guess")
                self.names[plant.id + LEAF] = kind.name + LEAF
        doubt = day.numbers["book_doubt"] ** 2
        at = {id(prior): _doubted(prior.at(weather.winter), doubt) for prior in self.priors.values()}
        self.here: dict[str, KindHere] = {t: at[id(prior)] for t, prior in self.priors.items()}
        self.observations = Observations(weather, self.priors, self.lengths)
        self.short = {plant.id: self._short_of_chill(plant) for plant in self.standing}

    def outlook(self) -> Outlook:
        """Everything, in the order it follows from one another."""
        axis = self.weather.axis
        noted = self.observations.read(self.day.entries, self.standing, axis.day(axis.next.first))
        spreads = {target: here.levels for target, here in self.here.items()}
        notes = [one.note for one in noted]
        common = common_share(notes, spreads, self.names, axis.year, stated().spreads.common)
        place = PLACE_BY_LATITUDE if self.weather.now.by_latitude else PLACE
        known = thresholds(spreads, self.names, notes, axis.year, common, place)
        by_target: dict[str, list[tuple[Observation, float, float]]] = {}
        for one, weight, miss in zip(noted, known.weights, known.misses, strict=True):
            by_target.setdefault(one.note.target, []).append((one, float(weight), float(miss)))
        opens = self._opens(known, by_target)
        observed = self._observed()
        levels = {target: level.mean for target, level in known.levels.items()}
        harvests = Harvests(self.day, self.weather, self.priors, levels)
        springs = self._springs(noted)
        flowering = [plant for plant in self.standing if plant.id in self.priors]
        seen = [observed.get(plant.id, {}) for plant in flowering]
        stages = stages_of(
            [opens[plant.id][0] for plant in flowering], [self.lengths[plant.id] for plant in flowering],
            seen, axis, Pace(self.weather.now),
        )  # fmt: skip
        blooms = {
            plant.id: self._bloom(plant, known, opens, three, noted_now, by_target, harvests, springs)
            for plant, three, noted_now in zip(flowering, stages, seen, strict=True)
        }
        leaves = {t.removesuffix(LEAF): days for t, (days, _) in opens.items() if t.endswith(LEAF)}
        return Outlook(
            blooms=blooms, leaves=leaves, place_days=self._place_days(known),
            unused=tuple(
                f"{one.plant} noted on {prose.day(one.on)} {one.on.year} is not used: {one.why}."
                for one in self.observations.unused
            ),
            beyond=tuple(self._beyond(noted)),
        )  # fmt: skip

    def _beyond(self, noted: list[Observation]) -> Iterator[str]:
        here = {
            self.names[t]: one
            for t, one in self.here.items()
            if isinstance(self.priors[t].response, Response) and not t.endswith(LEAF)
        }
        yield from beyond_words(here, frozenset(self.names[one.note.target] for one in noted), self.weather)

    def _observed(self) -> dict[str, dict[str, dt.date]]:
        """Stages noted of this season's bloom and leaves, by plant."""
        seen: dict[str, dict[str, dt.date]] = {}
        for entry in self.day.entries:
            prior = self.priors.get(entry.plant or "")
            if entry.what != "bloom" or not entry.stage or entry.plant is None or prior is None:
                continue
            by_flower = entry.stage in ("first open", "full bloom", "petal fall")
            held = SeasonAxis.holding(entry.on, self.weather.axis.southern).year
            season = self.observations.season_of(entry.on, prior) if by_flower else held
            if season == self.weather.axis.year:
                seen.setdefault(entry.plant, {})[entry.stage] = entry.on
        return seen

    def _lengths(self, plant: Plant) -> Lengths:
        bloom = self.kinds[plant.id].bloom
        full = value_of(bloom.full_after_days, FULL_AFTER_DAYS)
        end = max(value_of(bloom.length_days, LENGTH_DAYS), full)
        found = self.day.specimen(plant).cultivar
        late = value_of(found[1].bloom_offset_days, 0.0) if found else 0.0
        return Lengths(full=full, end=end, late=late)

    def _springs(self, noted: list[Observation]) -> dict[str, dict[str, set[int]]]:
        """Earlier springs of bloom notes, by kind and plant."""
        found: dict[str, dict[str, set[int]]] = {}
        for one in noted:
            if one.note.season != self.weather.axis.year and not one.note.target.endswith(LEAF):
                found.setdefault(self.names[one.note.target], {}).setdefault(one.plant, set()).add(
                    one.note.season
                )
        return found

    def _opens(
        self, known: Thresholds, by_target: Mapping[str, list[tuple[Observation, float, float]]]
    ) -> dict[str, tuple[FloatArray, float]]:
        """Days on which each target's level is reached, cultivar included, and the share that dates have."""
        levels = {target: self._draws(target, known.levels[target]) for target in self.priors}
        of_timing: dict[Timing, list[str]] = {}
        for target, prior in self.priors.items():
            of_timing.setdefault(prior.response, []).append(target)
        found: dict[str, tuple[FloatArray, float]] = {}
        for timing, targets in of_timing.items():
            together = np.stack([levels[target] for target in targets])
            ahead = np.array([self.priors[target].widening_ahead for target in targets])
            for target, days in zip(targets, open_days(self.weather, timing, together, ahead), strict=True):
                notes = [one.note for one, _, _ in by_target.get(target, [])]
                found[target] = self._with_notes(target, known.levels[target], notes, days)
        return found

    def _draws(self, target: str, level: Level) -> FloatArray:
        """Levels of one target, (draws,); a winter short of chill leaves them less sure."""
        short = None if target.endswith(LEAF) else self.short[target]
        level = replace(level, variance=level.variance + short_chill_variance(short))
        name, widening = self.names[target], self.priors[target].widening
        return level_draws(level, self.weather.now.draws, name, target, widening)

    def _with_notes(
        self, target: str, level: Level, notes: list[LevelNote], days: FloatArray
    ) -> tuple[FloatArray, float]:
        """Days as own dates and the cultivar move them, and the share that dates have."""
        if not notes and tells_nothing(self.here[target], self.weather):
            return np.full_like(days, np.inf), 0.0
        late = 0.0 if target.endswith(LEAF) else self.lengths[target].late
        dates = self._by_dates(target, level, notes)
        if dates is None:
            return days + late, 0.0
        return with_dates(days, dates, target) + late, dates.share

    def _by_dates(self, target: str, level: Level, notes: list[LevelNote]) -> ByDates | None:
        """What a plant's own dates of earlier springs say by themselves."""
        season, here = self.weather.axis.year, self.here[target]
        own = [n for n in notes if n.season != season and not n.lasting]
        if not own:
            return None
        share = date_share([n for n in own if n.weather_variance == 0], level, here)
        if share < LEAST_SHARE:
            return None
        prior = self.priors[target]
        usual = self._usual_day(prior, here) if prior.origin == "stated" else here.day
        day, sd = dates_alone(here, [n.day for n in own], usual)
        return ByDates(share=share, day=day - 1 + self.weather.axis.day(self.weather.axis.start), sd=sd)

    def _usual_day(self, prior: BloomPrior, here: KindHere) -> float:
        """Day number on which the kind opens here in a usual season, by the published level."""
        reached = self.weather.usual_warmth.day_reached(prior.response, np.array([here.levels.middle]))
        finite = reached[np.isfinite(reached)]
        if not len(finite):
            return here.day
        return float(np.median(finite)) + 1 - self.weather.axis.day(self.weather.axis.start)

    def _place_days(self, known: Thresholds) -> tuple[float, float]:
        """What the place adds, in days of a usual April."""
        mean, sd = known.place
        growth = 0.03  # [1/day] of a level about apple bloom
        return mean / growth, sd / growth

    def _bloom(
        self,
        plant: Plant,
        known: Thresholds,
        opens: Mapping[str, tuple[FloatArray, float]],
        stages: Stages,
        observed: Mapping[str, dt.date],
        notes: Mapping[str, list[tuple[Observation, float, float]]],
        harvests: Harvests,
        springs: Mapping[str, Mapping[str, set[int]]],
    ) -> BloomForecast:
        kind, prior, here = self.kinds[plant.id], self.priors[plant.id], self.here[plant.id]
        level, (_, dates) = known.levels[plant.id], opens[plant.id]
        lengths = self.lengths[plant.id]
        axis = self.weather.axis
        leaf = opens.get(plant.id + LEAF)
        ripe, picked = harvests.of(plant, stages[1], lengths.full, None if leaf is None else leaf[0])
        mine = springs.get(kind.name, {}).get(plant.id, set())
        kin = {s for other, ss in springs.get(kind.name, {}).items() if other != plant.id for s in ss}
        return BloomForecast(
            plant=plant.id, first_open=stages[0], full=stages[1], end=stages[2], ripe=ripe, picked=picked,
            ripens=kind.harvest.ripens, observed=dict(observed), own_notes=len(mine), kin_notes=len(kin),
            basis=_basis(kind, prior, here, len(mine), plant.opens is not None),
            need=Requirement(
                timing=prior.response, origin=prior.origin, published=here.levels.middle, used=level.mean,
                before_spring=level.mean - level.moved,
                own=level.own, place=known.place[0], late_days=lengths.late, by_dates=dates,
                degrees_outside=here.degrees_outside,
            ),
            moved_days=0.0 if "first open" in observed else self._days_of(prior, level),
            chill_short=self.short[plant.id],
            questioned=tuple(
                _sentence(one, miss) for one, weight, miss in notes.get(plant.id, [])
                if weight < QUESTIONED and one.note.season != axis.year
            ),
        )  # fmt: skip

    def _days_of(self, prior: BloomPrior, level: Level) -> float:
        """How many days this spring's notes have moved a plant."""
        if level.moved == 0.0:
            return 0.0
        both = np.array([level.mean - level.moved, level.mean])
        before, after = (
            np.median(self.weather.warmth.day_reached(prior.response, np.array([one]))) for one in both
        )
        return float(after - before) if np.isfinite(after - before) else 0.0

    def _short_of_chill(self, plant: Plant) -> float | None:
        """Share of this winter's versions short of the chill a plant wants; None where none is stated."""
        portions = self._portions(plant)
        return None if portions is None else self.weather.chill.short_of(portions)

    def _portions(self, plant: Plant) -> float | None:
        """Chill portions wanted: the cultivar's, or the middle of its kind's range."""
        found = self.day.specimen(plant).cultivar
        if found is not None and found[1].chill_portions is not None:
            return found[1].chill_portions.value
        portions = self.kinds[plant.id].chill.portions
        return None if portions is None else sum(portions.value) / 2


def prior_of(kind: Kind, instead: Mapping[str, BloomPrior | None]) -> BloomPrior | None:
    """The prior of a kind: what is handed in, else fitted to records, else stated; None if it has none."""
    found = instead[kind.name] if kind.name in instead else fitted().get(kind.name)
    return found if found is not None else stated_prior(kind)


def _doubted(here: KindHere, factor: float) -> KindHere:
    """The kind here with a steward's own doubt of what is published."""
    return replace(here, levels=replace(here.levels, lasting=here.levels.lasting * factor))


def value_of(fact: Fact[float] | None, otherwise: float) -> float:
    """A fact's value, or what serves where nothing is known."""
    return otherwise if fact is None else fact.value


def _basis(kind: Kind, prior: BloomPrior, here: KindHere, springs: int, own_date: bool) -> Basis:
    """What a plant's dates rest on: its own springs, the book, or less."""
    if springs or own_date:
        return "own record"
    fact = kind.bloom.first_open_heat
    if here.degrees_outside or kind.guessed:
        return "guess"
    if prior.origin == "fitted":
        return "handbook"
    return "guess" if fact is None or fact.sure == "guess" else "handbook"


def _sentence(one: Observation, miss: float) -> str:
    """What is odd about a note, to be read by whoever wrote it."""
    days = prose.count(abs(miss) / one.note.growth, "day")
    side = "later" if miss > 0 else "earlier"
    return (
        f"{one.plant} noted at {one.stage} on {prose.day(one.on)} {one.on.year}: about {days} {side} than "
        "its other notes and the book say for that spring. It counts for little; look whether the date "
        "is right."
    )
