"""Winter chill in answers: what this winter gathers, and which plants want more of it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Literal

import numpy as np

from leafturn.base import day_words, prose, quantities
from leafturn.base.arrays import FloatArray, at_share, median
from leafturn.base.date_range import SHARES
from leafturn.base.name_order import name_order
from leafturn.base.value import Value
from leafturn.bloom.model import BloomForecast
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.bloom.targets import chill_need
from leafturn.season.chill import CHILL_HOUR_WARMEST
from leafturn.season.garden_day import GardenDay
from leafturn.season.winter_chill import CHILLING_C

LEAST_SAID_CHANCE = 0.2  # less is not worth a sentence: rule of thumb


class Amount(Value):
    """What one winter in ten stays below, the usual, and what one in ten goes beyond."""

    low: int
    usual: int
    high: int


class PlantChill(Value):
    """The chill a plant wants, and the share of winters like this one that fall short of it.

    `unit` says how it is counted: portions of the dynamic model, or hours at or below 7.2 degC. `dated` tells
    whether a bloom date is given all the same.
    """

    plant: str
    wants: float
    unit: Literal["portions", "hours"]
    short: float
    dated: bool


class Chill(Value):
    """The chill of one season's winter.

    Parameters
    ----------
    portions : Amount
        By the dynamic model (Fishman, Erez and Couvillon 1987).
    hours, hours_above_freezing : Amount
        At or below 7.2 degC (45 degF), as chill lists count; and those of them from 0 degC on.
    plants : tuple of PlantChill
        Those whose need is stated, the shortest first.
    words : tuple of str
        The same in plain sentences; plants that have enough are not named.
    """

    portions: Amount
    hours: Amount
    hours_above_freezing: Amount
    plants: tuple[PlantChill, ...]
    words: tuple[str, ...]


def chill(day: GardenDay, weather: SeasonWeather, forecasts: Mapping[str, BloomForecast]) -> Chill:
    """What this winter gathers, and what the plants of the garden want.

    Parameters
    ----------
    day : GardenDay
    weather : SeasonWeather
    forecasts : mapping of plant id to BloomForecast
    """
    counted = weather.chill
    portions, hours = _amount(counted.gathered()), _amount(counted.hours())
    above = _amount(counted.hours(above_freezing=True))
    plants = []
    for plant in day.garden.plants:
        forecast, need = forecasts.get(plant.id), chill_need(day.specimen(plant))
        if forecast is not None and need is not None and forecast.chill_short is not None:
            dated = bool(np.isfinite(median(forecast.first_open)))
            plants.append(
                PlantChill(plant=plant.id, wants=need.amount, unit=need.unit, short=forecast.chill_short,
                           dated=dated)
            )  # fmt: skip
    plants.sort(key=lambda one: (-one.short, name_order(one.plant)))
    return Chill(
        portions=portions,
        hours=hours,
        hours_above_freezing=above,
        plants=tuple(plants),
        words=(_gathered(weather, portions, hours, above), *_short(plants)),
    )


def _amount(members: FloatArray) -> Amount:
    low, usual, high = (round(float(at_share(members, share))) for share in SHARES)
    return Amount(low=low, usual=usual, high=high)


def _gathered(weather: SeasonWeather, portions: Amount, hours: Amount, above: Amount) -> str:
    season = weather.chill.season
    if season is None:
        return "winter chill: none, as no day here is usually under " + quantities.celsius(CHILLING_C, 0)
    first, last = (day_words.day(weather.axis.date(number)) for number in season)
    cold = quantities.celsius(CHILL_HOUR_WARMEST)
    gathered = f"{_said(portions)} portions, {_said(hours)} hours at or below {cold}"
    return f"winter chill, {first} to {last}: {gathered}, {_said(above)} of them above freezing"


def _said(amount: Amount) -> str:
    return f"{amount.usual}" + (f" ({amount.low} to {amount.high})" if amount.low < amount.high else "")


def _short(plants: list[PlantChill]) -> Iterator[str]:
    """Plants that may fall short: those with a date, whose range is wider for it, and those without."""
    short = [one for one in plants if one.short >= LEAST_SAID_CHANCE]
    dated = [_of_one(one) for one in short if one.dated]
    silent = [_of_one(one) for one in short if not one.dated]
    if dated:
        yield (
            "Winter chill may fall short, and bloom be late and uneven, so the ranges are wider: "
            f"{'; '.join(dated)}."
        )
    if silent:
        yield f"Winter chill falls short, and they may hardly bloom or leaf out here: {'; '.join(silent)}."


def _of_one(one: PlantChill) -> str:
    return f"{one.plant} wants {one.wants:.0f} {one.unit}, short {prose.in_ten(one.short, 'winter')}"
