"""The usual season of a garden in a climate that is warmer by so much, with all that is reckoned from it."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
from msgspec.structs import replace

from leafturn.base.arrays import FloatArray
from leafturn.base.value import Value
from leafturn.bloom.forecast import forecast_blooms
from leafturn.bloom.frost.loss import frost_losses
from leafturn.bloom.model import BloomForecast
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.season.axis import LEAD_DAYS, YEAR_DAYS
from leafturn.season.ensemble import Ensemble
from leafturn.season.frost import MIDSUMMER_DAY, first_frost, last_frost
from leafturn.season.garden_day import GardenDay
from leafturn.season.heat_count import BASE_C


class Warmed(Value, eq=False):
    """One climate: its weather in every ensemble member, and what plants do in each.

    Parameters
    ----------
    warming : float [degC]
    last_frost, first_frost, frost_free, chill, heat, coldest : (members,)
        Day numbers, days, portions by the end of winter, degree-days above 5 degC, degC.
    forecasts : mapping of plant id to BloomForecast
    frost, chill_short, unripe : mapping of plant id to float
        Chance of losing a third of the crop to frost, of too little winter chill, and of a hard frost
        before the fruit is ripe.
    """

    warming: float
    ensemble: Ensemble
    last_frost: FloatArray
    first_frost: FloatArray
    frost_free: FloatArray
    chill: FloatArray
    heat: FloatArray
    coldest: FloatArray
    forecasts: Mapping[str, BloomForecast]
    frost: Mapping[str, float]
    chill_short: Mapping[str, float]
    unripe: Mapping[str, float]


def warmed(day: GardenDay, usual: SeasonWeather, warming: float) -> Warmed:
    """A garden's usual season, every day and night warmer by so much.

    Parameters
    ----------
    day : GardenDay
        Its notes are those of earlier seasons, from which plants' own needs are learnt.
    usual : SeasonWeather
        A season of which nothing is known yet, in today's climate.
    warming : float [degC]
    """
    before = usual.now.autumn
    ensemble = replace(
        usual.now,
        tmin=usual.now.tmin + warming,
        tmax=usual.now.tmax + warming,
        autumn=None if before is None else before + warming,
    )
    # notes are of today's climate, so what is usual stays as it is
    weather = replace(usual, now=ensemble)
    forecasts = forecast_blooms(day, weather).blooms
    kinds = {plant.id: day.kind(plant) for plant in day.garden.plants}
    pocket = day.garden.place.frost_pocket_c
    losses = frost_losses(forecasts, kinds, weather, pocket)
    hard = first_frost(ensemble, day.numbers["hard_frost_c"], pocket)
    last, first = last_frost(ensemble, 0.0, pocket), first_frost(ensemble, 0.0, pocket)
    begins = np.maximum(last, LEAD_DAYS - 1)
    ends = np.minimum(first, LEAD_DAYS + YEAR_DAYS)
    sums = weather.now_heat.cumulative(BASE_C, LEAD_DAYS)
    return Warmed(
        warming=warming,
        ensemble=ensemble,
        last_frost=last,
        first_frost=first,
        frost_free=ends - begins - 1,
        chill=weather.chill.gathered(),
        heat=sums[:, LEAD_DAYS + YEAR_DAYS - 1],
        coldest=ensemble.tmin[:, :MIDSUMMER_DAY].min(axis=1) + pocket,
        forecasts=forecasts,
        frost={plant: loss.chance_of_a_third for plant, loss in losses.items()},
        chill_short={p: f.chill_short for p, f in forecasts.items() if f.chill_short is not None},
        unripe={
            plant: float(np.mean(~(forecast.ripe < ensemble.spread(hard))))
            for plant, forecast in forecasts.items()
            if forecast.ripe is not None
        },
    )
