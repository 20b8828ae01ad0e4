"""What is forecast of a garden's living plants: first flowers and leaf-out, each with its kind's prior."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from msgspec.structs import replace

from leafturn.base.evidence import Basis
from leafturn.base.value import Value
from leafturn.bloom.notes.observations import LEAF
from leafturn.bloom.priors.fitted import fitted
from leafturn.bloom.priors.less_chill import prior_of_cultivar
from leafturn.bloom.priors.prior import BloomPrior, KindHere
from leafturn.bloom.priors.stated import leaf_prior, need_of_leaves, stated_prior
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.bloom.stages import Lengths
from leafturn.garden.model import DEAD, Plant
from leafturn.journal.entries import BloomNote
from leafturn.journal.noted import of_kind
from leafturn.kinds.fact import basis_of, value_of
from leafturn.kinds.model import Kind
from leafturn.kinds.specimen import Specimen
from leafturn.season.garden_day import GardenDay
from leafturn.season.winter_chill import WinterChill

# Used where a kind states none; each is a guess and is overridden by the library.
FULL_AFTER_DAYS = 4.0
LENGTH_DAYS = 12.0


class Targets:
    """First flowers and leaf-out of all living plants; a leaf-out goes by the plant's id and `LEAF`.

    Parameters
    ----------
    priors : mapping of kind to BloomPrior or None
        To be used instead of the packaged fitted ones; None for a kind sets its fitted prior aside.

    Attributes
    ----------
    living : list of Plant
        Those that may flower, come into leaf or be looked at this season.
    lost : frozenset of targets
        Those of dead plants whose bloom or leaves were noted: such notes still teach of place and kind.
    priors, names, here : mapping of target
        The prior, the name of the kind (with `LEAF` for leaves), and the prior in this climate.
    lengths : mapping of plant id to Lengths
    chill_needs : mapping of plant id to ChillNeed or None
        None where none is stated.
    """

    def __init__(
        self, day: GardenDay, weather: SeasonWeather, priors: Mapping[str, BloomPrior | None]
    ) -> None:
        self.day = day
        self.living = [p for p in day.garden.plants if p.state not in DEAD]
        noted = {note.plant for note in of_kind(day.entries, BloomNote)}
        lost = [p for p in day.garden.plants if p.state in DEAD and p.id in noted]
        self.lost = frozenset(target for plant in lost for target in (plant.id, plant.id + LEAF))
        self.lengths = {p.id: _lengths(day.specimen(p)) for p in (*self.living, *lost)}
        self.chill_needs = {p.id: chill_need(day.specimen(p)) for p in self.living}
        self.priors: dict[str, BloomPrior] = {}
        self.names: dict[str, str] = {}
        for plant in (*self.living, *lost):
            kind, specimen = day.kind(plant), day.specimen(plant)
            if (prior := prior_of(kind, priors)) is not None:
                self.priors[plant.id] = prior_of_cultivar(prior, specimen)
                self.names[plant.id] = kind.name
            if (heat := kind.leaf.out_heat) is not None and not kind.evergreen:
                leaf = leaf_prior(need_of_leaves(kind, heat.value), heat.sure == "guess")
                self.priors[plant.id + LEAF] = prior_of_cultivar(leaf, specimen)
                self.names[plant.id + LEAF] = kind.name + LEAF
        uncertainty = day.numbers["book_doubt"] ** 2
        at = {
            id(prior): _doubted(prior.at(weather.winter, weather.summer), uncertainty)
            for prior in self.priors.values()
        }
        self.here: dict[str, KindHere] = {t: at[id(prior)] for t, prior in self.priors.items()}

    @property
    def flowering(self) -> list[Plant]:
        """Standing plants whose kind flowers."""
        return [plant for plant in self.living if plant.id in self.priors]

    def basis(self, kind: Kind, target: str) -> Basis:
        """What dates rest on where nothing is noted of the plant itself: the book, or less."""
        fact = kind.bloom.first_open_heat
        if self.here[target].degrees_outside or kind.guessed:
            return "guess"
        if self.priors[target].origin == "fitted":
            return "handbook"
        return "guess" if fact is None else basis_of(fact.sure)


def prior_of(kind: Kind, instead: Mapping[str, BloomPrior | None]) -> BloomPrior | None:
    """The prior of a kind: what is handed in, else fitted to records, else stated; None if it has none."""
    found = instead[kind.name] if kind.name in instead else fitted().get(kind.name)
    return found if found is not None else stated_prior(kind)


def _doubted(here: KindHere, factor: float) -> KindHere:
    """The kind here with a steward's own uncertainty of what is published."""
    return replace(here, levels=replace(here.levels, lasting=here.levels.lasting * factor))


def _lengths(specimen: Specimen) -> Lengths:
    bloom = specimen.kind.bloom
    full = value_of(bloom.full_after_days, FULL_AFTER_DAYS)
    end = max(value_of(bloom.length_days, LENGTH_DAYS), full)
    return Lengths(full=full, end=end, late=value_of(specimen.own.bloom_offset_days, 0.0))


class ChillNeed(Value, kw_only=False):
    """Winter chill a plant wants, in portions of the dynamic model or in hours at or below 7.2 degC."""

    amount: float
    unit: Literal["portions", "hours"]

    def short(self, chill: WinterChill) -> float:
        """Share of ensemble members in which it is not met."""
        return chill.short_of(self.amount) if self.unit == "portions" else chill.short_of_hours(self.amount)


def chill_need(specimen: Specimen) -> ChillNeed | None:
    """The chill wanted: the cultivar's, else the middle of its kind's range; None where none is stated."""
    own, chill = specimen.own.chill_portions, specimen.kind.chill
    if own is not None:
        return ChillNeed(own.value, "portions")
    if chill.middle_portions is not None:
        return ChillNeed(chill.middle_portions, "portions")
    return None if chill.middle_hours is None else ChillNeed(chill.middle_hours, "hours")
