"""All that the rules may ask of one season, gathered in one frozen value."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from functools import cached_property

from leafturn.base.arrays import FloatArray
from leafturn.base.closed_words import WorldPart
from leafturn.base.prose import HARDLY_EVER
from leafturn.base.value import Value
from leafturn.bloom.forecast import Outlook
from leafturn.bloom.model import BloomForecast, SecondCount
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.bloom.second_count import second_counts
from leafturn.canopy.stand.growth import height_in
from leafturn.garden.model import Plant
from leafturn.garden.regions import world_part
from leafturn.kinds.model import Kind
from leafturn.kinds.pruning import PruningWay, way_of
from leafturn.partners.decisions import Answer, answers_in_force
from leafturn.partners.model import PartnerStanding, TreeReview
from leafturn.partners.without_fruit import without_fruit
from leafturn.season.axis import SeasonAxis
from leafturn.season.climate import climate_words
from leafturn.season.frost import frost_shares
from leafturn.season.garden_day import GardenDay

NEAR_LIMIT = 0.05  # guess: by so much a chance goes to and fro as the weather of a spring becomes known


class SeasonState(Value, eq=False):
    """Garden, notes, weather, forecasts and partners of one season, as of one day.

    Parameters
    ----------
    weather : SeasonWeather
        Of the season that the rules are laid on, this one or the next.
    flowering : mapping of plant id to float
        Chance that the plant is old enough to flower this season.
    outlook : callable
        Gives bloom, leaves and harvest by plant.
    reviewed, usually_reviewed : callable
        Give the reviews of all trees that want pollen, this season and as the season usually is.
    """

    day: GardenDay
    weather: SeasonWeather
    outlook: Callable[[], Outlook]
    flowering: Mapping[str, float]
    reviewed: Callable[[], Iterable[TreeReview]]
    usually_reviewed: Callable[[], Iterable[TreeReview]]

    @cached_property
    def forecasts(self) -> Mapping[str, BloomForecast]:
        """Bloom and harvest by plant; asked for only where a rule wants it."""
        return self.outlook().blooms

    @cached_property
    def second_counts(self) -> Mapping[str, SecondCount]:
        """First flowers still to come by plain degree-days, by plant."""
        return second_counts(self.forecasts, self.weather, self.day.on)

    @cached_property
    def leaves(self) -> Mapping[str, FloatArray]:
        """Leaf-out of plants that shed their leaves, (draws,) [day number] by plant."""
        return self.outlook().leaves

    @cached_property
    def reviews(self) -> Mapping[str, TreeReview]:
        """How each tree is served with pollen, by plant; asked for only where a rule wants it."""
        return {review.plant: review for review in self.reviewed()}

    @cached_property
    def standings(self) -> Mapping[str, PartnerStanding]:
        """How each tree is served with pollen, as its jobs follow it, by plant.

        Near a limit between two words a tree is served as it usually is: a chance that creeps over the limit
        while the flowers are open takes no job away and makes none.
        """
        limits = [self.day.numbers[name] for name in ("partner_lacks_below", "partner_thin_below")]
        near = {
            p for p, r in self.reviews.items() if any(abs(r.adequacy - one) < NEAR_LIMIT for one in limits)
        }
        usual = {r.plant: r.standing for r in self.usually_reviewed() if r.plant in near} if near else {}
        return {plant: usual.get(plant, review.standing) for plant, review in self.reviews.items()}

    @cached_property
    def without_fruit(self) -> frozenset[str]:
        """Plants that will hardly set fruit this season for want of pollen."""
        return without_fruit(self.reviews.values(), self.day)

    @cached_property
    def answers(self) -> Mapping[str, Answer]:
        """What was answered about trees without a partner and stands today, by plant."""
        return answers_in_force(self.day.entries, self.day.on, southern=self.axis.southern)

    @property
    def axis(self) -> SeasonAxis:
        """The season's days."""
        return self.weather.axis

    @property
    def world_part(self) -> WorldPart:
        """The part of the world the garden lies in."""
        return world_part(self.day.garden.place.lat, self.day.garden.place.lon)

    @property
    def today(self) -> int:
        """Day number of the day of asking."""
        return self.axis.day(self.day.on)

    def kind(self, plant: Plant) -> Kind:
        """What the library knows of a plant's kind."""
        return self.day.kind(plant)

    def height(self, plant: Plant) -> float | None:
        """How high a plant stands this season [m]; None where nothing tells it."""
        return height_in(self.day.specimen(plant), self.day.numbers, self.axis.year)

    @cached_property
    def climate(self) -> frozenset[str]:
        """The words that hold of the place, by which ways of pruning are chosen."""
        return climate_words(self.weather.usual)

    @cached_property
    def _ways(self) -> dict[tuple[str, str | None], PruningWay | None]:
        return {}

    def way(self, plant: Plant) -> PruningWay | None:
        """How a plant is pruned here; None where nothing is known of its kind."""
        key = (plant.kind, plant.cultivar)
        if key not in self._ways:
            specimen = self.day.specimen(plant)
            cultivar = specimen.cultivar[1] if specimen.cultivar else None
            self._ways[key] = way_of(specimen.kind, self.day.library, self.climate, cultivar)
        return self._ways[key]

    @cached_property
    def frost_comes(self) -> bool:
        """Whether autumn frost comes to this garden at all, be it in few years."""
        usual, pocket = self.weather.usual_heat.ensemble, self.day.garden.place.frost_pocket_c
        return frost_shares(usual, 0.0, pocket).first >= HARDLY_EVER

    def rule_text(self, name: str, default: str) -> str:
        """A built-in word, or the steward's own from `[rule]`."""
        own = self.day.garden.rules.get(name, default)
        return own if isinstance(own, str) else default
