"""What is told of fruit that may not ripen in time, or of which it is not known when it ripens."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np

from leafturn.answers.chill import LEAST_SAID_CHANCE
from leafturn.base import prose, quantities
from leafturn.base.arrays import FloatArray, median
from leafturn.bloom.model import BloomForecast
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.season.frost import first_frost
from leafturn.season.garden_day import GardenDay


def frost_first(
    day: GardenDay, weather: SeasonWeather, forecasts: Mapping[str, BloomForecast]
) -> Iterator[str]:
    """Fruit still to ripen, before which the first hard frost of autumn may come.

    Cones of conifers hang over a winter before they are ripe, and what is gathered for sowing or for animals
    is no loss: neither is told.
    """
    ensemble, hard = weather.now, day.numbers["hard_frost_c"]
    first = ensemble.spread(first_frost(ensemble, hard, day.garden.place.frost_pocket_c))
    ripe = _still_to_ripen(forecasts, weather)
    kinds = {plant.id: day.kind(plant) for plant in day.garden.plants if plant.id in ripe}
    chances = {
        plant: float(np.mean(first <= ripe[plant]))
        for plant, kind in kinds.items()
        if kind.harvest.is_food and not kind.has("conifer")
    }
    told = [f"{p} ({prose.of_ten(c)})" for p, c in sorted(chances.items()) if c >= LEAST_SAID_CHANCE]
    if told:
        frost = f"A hard frost ({quantities.celsius(hard, None)})"
        yield f"{frost} may come this year before they are ripe: {', '.join(told)}."


def never_ripe(forecasts: Mapping[str, BloomForecast], day: GardenDay) -> Iterator[str]:
    """Fruit for which most seasons here are too short, and what hangs longer than is reckoned."""
    ripe = _fruit(forecasts)
    never = {p for p, days in ripe.items() if median(days) == np.inf > median(forecasts[p].full)}
    hangs = {plant.id: day.kind(plant).evergreen for plant in day.garden.plants if plant.id in never}
    short, hanging = (sorted(i for i, evergreen in hangs.items() if evergreen == so) for so in (False, True))
    if short:
        said = f"In most years they do not ripen before their leaves are down: {', '.join(short)}."
        yield f"{said} An earlier cultivar of the kind may."
    if hanging:
        yield f"They hang longer here than is reckoned, and no day of picking is told: {', '.join(hanging)}."


def by_kind_alone(forecasts: Mapping[str, BloomForecast], weather: SeasonWeather) -> Iterator[str]:
    """Fruit still to ripen of which no cultivar's days are known: it may be an early or a late one."""
    names = [plant for plant in _still_to_ripen(forecasts, weather) if forecasts[plant].ripens_as_kind]
    if names:
        why = "No cultivar is named, or its time of ripening is not known"
        yield f"{why}, so the range holds early and late ones of the kind: {', '.join(sorted(names))}."


def _still_to_ripen(forecasts: Mapping[str, BloomForecast], weather: SeasonWeather) -> dict[str, FloatArray]:
    """First ripe fruit of plants likely to have some this season, later than the day of asking."""
    today = weather.now.observed_to
    return {plant: ripe for plant, ripe in _fruit(forecasts).items() if today < median(ripe) < np.inf}


def _fruit(forecasts: Mapping[str, BloomForecast]) -> dict[str, FloatArray]:
    """First ripe fruit, (draws,) [day number], of plants that bear any; inf where it does not ripen."""
    return {plant: f.ripe for plant, f in forecasts.items() if f.ripens and f.ripe is not None}
