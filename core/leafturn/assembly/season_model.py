"""One season of a garden: weather, forecasts, partners, and what the rules may ask; computed when asked."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import cached_property
from typing import TypeVar

from leafturn.bloom.forecast import Outlook, forecast_blooms
from leafturn.bloom.frost.loss import FrostLoss, frost_losses
from leafturn.bloom.model import BloomForecast
from leafturn.bloom.priors.prior import BloomPrior
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.canopy.review import CanopyReview
from leafturn.kinds.model import Kind
from leafturn.partners.bloom_overlap.flowering_age import MAY_FLOWER
from leafturn.partners.chance.census import chances_of_flowering
from leafturn.partners.flowering_season import FloweringSeason
from leafturn.partners.model import GardenReview, TreeReview
from leafturn.partners.observations import NotedBloom, noted_bloom
from leafturn.partners.reading_order import reading_order
from leafturn.partners.review import review_garden
from leafturn.season.garden_day import GardenDay
from leafturn.tasks.inputs import SeasonState
from leafturn.tasks.timing.resolve import Anchors

T = TypeVar("T")


class SeasonModel:
    """One season of one garden.

    Parameters
    ----------
    priors : mapping of kind to BloomPrior or None, optional
        To be used instead of the packaged ones.
    canopy : callable
        Gives the crowns of the day, for the light that each plant has.
    """

    def __init__(
        self,
        day: GardenDay,
        priors: Mapping[str, BloomPrior | None] | None,
        weather: SeasonWeather,
        canopy: Callable[[], CanopyReview],
    ) -> None:
        self._day, self._priors = day, priors
        self.weather = weather
        self._canopy = canopy

    @cached_property
    def outlook(self) -> Outlook:
        """Bloom, leaves and harvest of all plants, and what the notes behind them are worth."""
        return forecast_blooms(self._day, self.weather, self._priors)

    @property
    def pocket_c(self) -> float:
        """How much warmer the garden is than the weather station on still nights [degC]."""
        return self._day.garden.place.frost_pocket_c

    def kind(self, plant_id: str) -> Kind | None:
        """What the library knows of a plant's kind; None of a plant that is not in the garden."""
        plant = self._day.garden.plant(plant_id)
        return None if plant is None else self._day.kind(plant)

    @property
    def forecasts(self) -> dict[str, BloomForecast]:
        """Bloom and harvest by plant."""
        return self.outlook.blooms

    @cached_property
    def light(self) -> dict[str, float]:
        """Light at each placed plant from May to September [% of open]; want of it puts flowering off."""
        return self._canopy().light_now

    @cached_property
    def flowering(self) -> dict[str, float]:
        """Chance that each plant is old enough to flower this season."""
        season = FloweringSeason(year=self.weather.axis.year, noted=self.noted, light=self.light)
        return chances_of_flowering(self._day, season)

    def flowerers(self, by_plant: Mapping[str, T]) -> dict[str, T]:
        """Of something by plant id what belongs to plants that may be old enough to flower."""
        return {plant: it for plant, it in by_plant.items() if self.flowering.get(plant, 1.0) >= MAY_FLOWER}

    @cached_property
    def frost_losses(self) -> dict[str, FrostLoss]:
        """What frost takes, by plant; only of kinds whose critical temperatures are known."""
        garden = self._day.garden
        kinds = {plant.id: self._day.kind(plant) for plant in garden.plants}
        return frost_losses(self.forecasts, kinds, self.weather, garden.place.frost_pocket_c)

    @cached_property
    def noted(self) -> NotedBloom:
        """What the journal tells of flowers and set."""
        return noted_bloom(self._day.entries, self.weather.axis.southern)

    @cached_property
    def pollen(self) -> GardenReview:
        """How each tree is served with pollen, and who could go."""
        losses = self.frost_losses
        season = FloweringSeason(
            year=self.weather.axis.year,
            forecasts=self.forecasts,
            noted=self.noted,
            light=self.light,
            weather=self.weather.now,
            frost_loss={plant: loss.chance_of_a_tenth for plant, loss in losses.items()},
            crop_lost={plant: loss.crop_lost_by_draw for plant, loss in losses.items()},
        )
        return review_garden(self._day, season)

    @cached_property
    def reviews(self) -> tuple[TreeReview, ...]:
        """How each tree is served with pollen, in the order in which a steward reads them."""
        return reading_order(self.pollen.trees, self.weather.axis.year)

    @cached_property
    def usually(self) -> SeasonModel:
        """The same season as it usually is, before anything of its weather was known."""
        weather = replace(self.weather, now=self.weather.usual, now_heat=self.weather.usual_heat)
        return SeasonModel(self._day, self._priors, weather, self._canopy)

    @cached_property
    def state(self) -> SeasonState:
        """All that the rules may ask."""
        return SeasonState(
            day=self._day,
            weather=self.weather,
            outlook=lambda: self.outlook,
            flowering=self.flowering,
            reviewed=lambda: self.reviews,
            usually_reviewed=lambda: self.usually.pollen.trees,
        )

    @cached_property
    def anchors(self) -> Anchors:
        """Moments of this season."""
        return Anchors(self.state)
