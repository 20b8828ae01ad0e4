"""What the nights after the day of asking would do to the flowers of each plant."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial

from leafturn.base.arrays import FloatArray, median
from leafturn.base.kept import kept
from leafturn.bloom.frost.cold_nights import ColdNights, Limit, chance_of_a_tenth, takes_a_tenth
from leafturn.bloom.model import BloomForecast
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.garden.model import Plant
from leafturn.season.garden_day import GardenDay

AT_ONCE = 64  # plants of a kind that are reckoned together: keeps what is held at a time small


class Threat:
    """What the nights after the day of asking would do to one plant.

    Parameters
    ----------
    killed : (draws, nights) array
        Share of its flowers that each night kills.
    tonight_c : float [degC]
        The likely minimum of the first night in the garden.
    limit : callable
        Gives what the plant bears on the first night.
    """

    def __init__(self, killed: FloatArray, tonight_c: float, limit: Callable[[], Limit]) -> None:
        self._killed, self._limit = killed, limit
        self.nights = killed.shape[1]
        self.tonight_c = tonight_c

    @property
    def limit(self) -> Limit:
        """What the plant bears on the first night."""
        return self._limit()

    @property
    def chance(self) -> float:
        """Chance that one of the nights takes a tenth of the flowers or more."""
        return chance_of_a_tenth(self._killed)

    @property
    def tonight(self) -> bool:
        """Whether the first night likely takes a tenth or more."""
        return takes_a_tenth(self._killed[:, 0])

    def days_ahead(self, least: float) -> int:
        """In how many days the night comes by which the chance of losing a tenth reaches `least`.

        0 is the night after the day of asking, where it likely takes a tenth; nights that only may come after
        it at the soonest, for whoever has the night to come foreseen will type it in.
        """
        if self.tonight:
            return 0
        by_then = [chance_of_a_tenth(self._killed[:, : n + 1]) for n in range(self.nights)]
        return max(next((n for n, chance in enumerate(by_then) if chance >= least), self.nights - 1), 1)


class NightsAhead:
    """The nights after the day of asking; plants of a kind are reckoned together.

    Parameters
    ----------
    day : GardenDay
    weather : SeasonWeather
    forecasts : mapping of plant id to BloomForecast
        Made with that weather.
    """

    def __init__(
        self, day: GardenDay, weather: SeasonWeather, forecasts: Mapping[str, BloomForecast]
    ) -> None:
        self._day, self._weather, self._forecasts = day, weather, forecasts

    def threat(self, plant: Plant, within_days: int) -> Threat | None:
        """That to a plant within the coming days; None where nothing is known of it or of them."""
        return self._of_kind(plant.kind, within_days).get(plant.id)

    @kept
    def _of_kind(self, kind: str, within_days: int) -> dict[str, Threat]:
        ensemble = self._weather.now
        first = ensemble.axis.day(self._day.on) + 1
        minima = ensemble.tmin[:, max(first, 0) : max(first + within_days, 0)]
        if first < 0 or minima.shape[1] == 0:
            return {}
        garden_c = minima + self._day.garden.place.frost_pocket_c
        plants = [p for p in self._day.garden.plants if p.kind == kind and p.id in self._forecasts]
        found: dict[str, Threat] = {}
        for begun in range(0, len(plants), AT_ONCE):
            found |= self._of_some(plants[begun : begun + AT_ONCE], first, garden_c)
        return found

    def _of_some(self, plants: list[Plant], first: int, garden_c: FloatArray) -> dict[str, Threat]:
        """Those to some plants of one kind on the nights that end on day number `first` and after it."""
        forecasts = [self._forecasts[plant.id] for plant in plants]
        mornings = range(first, first + garden_c.shape[1])
        nights = ColdNights.of(forecasts, self._day.kind(plants[0]), self._weather, mornings)
        if nights is None:
            return {}
        killed, tonight_c = nights.killed(garden_c), median(garden_c[:, 0])
        return {
            plant.id: Threat(killed[n], tonight_c, partial(nights.limit, n)) for n, plant in enumerate(plants)
        }
