"""One season of a garden: weather, forecasts, partners, and what else the rules may ask of it."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from functools import cached_property
from typing import TypeVar

from msgspec.structs import replace

from leafturn.base.arrays import FloatArray
from leafturn.base.closed_words import WorldPart
from leafturn.base.explained_days import ExplainedDays
from leafturn.base.kept import kept
from leafturn.base.prose import HARDLY_EVER
from leafturn.base.value import Value
from leafturn.bloom.forecast import Forecaster
from leafturn.bloom.frost.loss import FrostLoss, frost_losses
from leafturn.bloom.model import BloomForecast, Outlook, SecondCount
from leafturn.bloom.priors.prior import BloomPrior
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.bloom.second_count import second_counts
from leafturn.garden.model import Plant
from leafturn.garden.regions import world_part
from leafturn.kinds.model import Kind
from leafturn.kinds.pruning import PruningWay, way_of
from leafturn.partners.bloom_overlap.flowering_age import MAY_FLOWER, OLD_ENOUGH
from leafturn.partners.chance.cross_groups import chances_of_flowering, crossing_plants
from leafturn.partners.decisions import Answer, answers_in_force
from leafturn.partners.flowering_season import FloweringSeason
from leafturn.partners.garden_chances import GardenChances
from leafturn.partners.model import GardenReview, PartnerStanding, TreeReview
from leafturn.partners.observations import ObservedBloom, observed_bloom
from leafturn.partners.reading_order import reading_order
from leafturn.partners.without_fruit import without_fruit
from leafturn.season.axis import SeasonAxis
from leafturn.season.climate import climate_words
from leafturn.season.garden_day import GardenDay
from leafturn.season.stage_duration import Pace
from leafturn.season.winter_cold import coldest_month
from leafturn.soil.water.deficit import GardenWater
from leafturn.tasks.plants_here import PlantsHere
from leafturn.tasks.timing.cold import Cold
from leafturn.tasks.timing.lead_times import LeadTimes
from leafturn.tasks.timing.nights_ahead import NightsAhead

NEAR_LIMIT = 0.05  # guess: by so much a chance goes to and fro as the weather of a spring becomes known

T = TypeVar("T")


class SeasonModel(Value, eq=False):
    """One season of one garden, as of one day; all but what it is made of is computed when first asked for.

    Parameters
    ----------
    weather : SeasonWeather
        Of the season that is meant, which need not hold the day.
    light_now : callable
        Gives the light at each placed plant from May to September [% of open].
    priors : mapping of kind to BloomPrior or None, optional
        To be used instead of the packaged ones.
    """

    day: GardenDay
    weather: SeasonWeather
    light_now: Callable[[], Mapping[str, float]]
    priors: Mapping[str, BloomPrior | None] | None = None

    # ---- place, day and plants -----------------------------------------------------------

    @cached_property
    def axis(self) -> SeasonAxis:
        """The season's days."""
        return self.weather.axis

    @cached_property
    def today(self) -> int:
        """Day number of the day of asking."""
        return self.axis.day(self.day.on)

    @property
    def pocket_c(self) -> float:
        """How much warmer the garden is than the weather station on still nights [degC]."""
        return self.day.garden.place.frost_pocket_c

    @property
    def world_part(self) -> WorldPart:
        """The part of the world the garden lies in."""
        return world_part(self.day.garden.place.lat, self.day.garden.place.lon)

    @cached_property
    def climate(self) -> frozenset[str]:
        """The words that hold of the place, by which ways of pruning are chosen."""
        return climate_words(self.weather.usual)

    def rule_text(self, name: str, default: str) -> str:
        """A built-in word, or the steward's own from `[rule]`."""
        own = self.day.garden.rules.get(name, default)
        return own if isinstance(own, str) else default

    def kind(self, plant: Plant) -> Kind:
        """What the library knows of a plant's kind."""
        return self.day.kind(plant)

    @cached_property
    def here(self) -> PlantsHere:
        """The plants of this season."""
        return PlantsHere(self.day, self.axis)

    @cached_property
    def coldest_month(self) -> float:
        """The mean minimum of the usual year's coldest thirty days in the garden [degC]."""
        return coldest_month(self.weather.usual) + self.pocket_c

    @kept
    def way(self, kind: str, cultivar: str | None) -> PruningWay | None:
        """How plants of a kind and cultivar are pruned here; None where nothing is known of the kind."""
        library = self.day.library
        known = library.match(kind).kind
        named = library.cultivar(known, cultivar)
        return way_of(known, library, self.climate, named[1] if named is not None else None)

    # ---- cold, water, and the days of moments --------------------------------------------

    @cached_property
    def frost_comes(self) -> bool:
        """Whether autumn frost comes to this garden at all, be it in few years."""
        return self.cold.shares(0.0).first >= HARDLY_EVER

    @cached_property
    def cold(self) -> Cold:
        """Frost, the end of growth and leaf fall, draw by draw."""
        return Cold(self.day, self.weather)

    @cached_property
    def nights_ahead(self) -> NightsAhead:
        """What the nights to come would do to flowers."""
        return NightsAhead(self.day, self.weather, self.forecasts)

    @cached_property
    def water(self) -> GardenWater:
        """How much of their water the plants have used."""
        return GardenWater(self.day, self.weather)

    @cached_property
    def pace(self) -> Pace:
        """How fast things go on by the warmth of the season."""
        return Pace(self.weather.now)

    @cached_property
    def lead_times(self) -> LeadTimes:
        """Days before what is still to come."""
        return LeadTimes(self.day, self.weather)

    @cached_property
    def resolved(self) -> dict[tuple[object, ...], ExplainedDays]:
        """Moments whose days were asked for, kept by `timing.resolve` since several rules ask for one."""
        return {}

    # ---- bloom, leaves and harvest -------------------------------------------------------

    @cached_property
    def _forecaster(self) -> Forecaster:
        return Forecaster.of(self.day, self.weather, self.priors)

    @cached_property
    def outlook(self) -> Outlook:
        """Bloom, leaves and harvest of all plants, and what the notes behind them are worth."""
        return self._forecaster.outlook()

    @property
    def forecasts(self) -> dict[str, BloomForecast]:
        """Bloom and harvest by plant."""
        return self.outlook.blooms

    @cached_property
    def second_counts(self) -> Mapping[str, SecondCount]:
        """First flowers still to come by plain degree-days, by plant."""
        return second_counts(self.forecasts, self.weather, self.day.on, self.outlook.told_as)

    @property
    def leaves(self) -> Mapping[str, FloatArray]:
        """Leaf-out of plants that shed their leaves, (draws,) [day number] by plant."""
        return self.outlook.leaves

    @cached_property
    def light(self) -> Mapping[str, float]:
        """Light at each placed plant from May to September [% of open]; want of it puts flowering off."""
        return self.light_now()

    @cached_property
    def observed_bloom(self) -> ObservedBloom:
        """What the journal tells of flowers and set."""
        return observed_bloom(self.day.entries, self.axis.southern)

    @cached_property
    def flowering(self) -> dict[str, float]:
        """Chance that each plant is old enough to flower this season."""
        season = FloweringSeason(year=self.axis.year, observed=self.observed_bloom, light=self.light)
        return chances_of_flowering(self.day, season)

    def flowerers(self, by_plant: Mapping[str, T], least: float = MAY_FLOWER) -> dict[str, T]:
        """Of something by plant id what belongs to plants old enough to flower by at least such a chance."""
        return {plant: it for plant, it in by_plant.items() if self.flowering.get(plant, 1.0) >= least}

    @cached_property
    def expected(self) -> dict[str, BloomForecast]:
        """Bloom and harvest of the plants that count as old enough for it, by plant."""
        return self.flowerers(self.forecasts, OLD_ENOUGH)

    @cached_property
    def frost_losses(self) -> dict[str, FrostLoss]:
        """What frost takes, by plant; only of kinds whose critical temperatures are known."""
        kinds = {plant.id: self.kind(plant) for plant in self.day.garden.plants}
        return frost_losses(self.forecasts, kinds, self.weather, self.pocket_c)

    # ---- pollen --------------------------------------------------------------------------

    @cached_property
    def _flowering_season(self) -> FloweringSeason:
        return FloweringSeason(
            year=self.axis.year,
            forecasts=self.outlook.apart(),
            observed=self.observed_bloom,
            light=self.light,
            weather=self.weather.now,
        )

    @cached_property
    def chances(self) -> GardenChances:
        """Each tree's chance of enough pollen, before anything is said of it."""
        return GardenChances(self.day, self._flowering_season)

    @cached_property
    def pollen(self) -> GardenReview:
        """How each tree is served with pollen, and who could go."""
        from leafturn.partners.review import review_garden

        losses = self.frost_losses
        season = replace(
            self._flowering_season,
            frost_loss={plant: loss.chance_of_a_tenth for plant, loss in losses.items()},
            crop_lost={plant: loss.crop_lost_by_draw for plant, loss in losses.items()},
            too_tall=self.here.too_tall_for_a_brush,
        )
        return review_garden(self.day, season, self.chances)

    @cached_property
    def reviews(self) -> Mapping[str, TreeReview]:
        """How each tree is served with pollen, by plant, in the order in which a steward reads them."""
        return {review.plant: review for review in reading_order(self.pollen.trees, self.axis.year)}

    @cached_property
    def standings(self) -> Mapping[str, PartnerStanding]:
        """How each tree is served with pollen, as its jobs follow it, by plant.

        Near a limit between two words a tree is served as it usually is: a chance that creeps over the limit
        while the flowers are open takes no job away and makes none.
        """
        limits = [self.day.numbers[name] for name in ("partner_lacks_below", "partner_thin_below")]
        near = {
            plant
            for plant, chance in self.chances.likely().items()
            if any(abs(chance - limit) < NEAR_LIMIT for limit in limits)
        }
        as_usual = self.weather.is_usual and self._forecaster.notes.are_earlier
        usual = self.usual_standings(near) if near and not as_usual else {}
        asked: dict[str, PartnerStanding] = {
            tree.label: "needs none" for tree in self.chances.cross_groups.reviewed
        }
        return asked | self.chances.standings() | dict(usual)

    def usual_standings(self, trees: Collection[str]) -> Mapping[str, PartnerStanding]:
        """How some trees are served in the season as it usually is, whatever its weather and its notes.

        Only they and the plants that may cross with them are forecast, and no remedies are sought.
        """
        crossing = crossing_plants(self.day, trees)
        usual = self._forecaster.usual(crossing)
        season = FloweringSeason(
            year=self.axis.year,
            forecasts=usual.blooms(),
            observed=self.observed_bloom,
            light=self.light,
            weather=usual.weather.now,
        )
        garden = replace(self.day.garden, plants=tuple(p for p in self.day.garden.plants if p.id in crossing))
        return GardenChances(replace(self.day, garden=garden), season).standings(trees)

    @cached_property
    def without_fruit(self) -> frozenset[str]:
        """Plants that will hardly set fruit this season for want of pollen."""
        return without_fruit(self.chances.standings(), self.chances.alone(), self.day)

    @cached_property
    def answers(self) -> Mapping[str, Answer]:
        """What was answered about trees without a partner and stands today, by plant."""
        return answers_in_force(self.day.entries, self.day.on, southern=self.axis.southern)
