"""What a cold night foreseen would do, plant by plant."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from leafturn import wording
from leafturn.bloom.bud_stages import END, OPEN, BudDates, Hardiness
from leafturn.bloom.frost_loss import TENTH
from leafturn.bloom.kill_curve import killed_share
from leafturn.bloom.model import BloomForecast
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.garden.model import Garden, Plant
from leafturn.kinds.library import Library
from leafturn.kinds.model import Kind
from leafturn.views import ColdHit, Tonight

FloatArray = NDArray[np.float64]

DOUBT_C = 1.0  # of a forecast minimum, either way; guess
COVER_BELOW_M = 6.5  # as in the rule "cover-from-frost"
GROWTH_POWER = 1.3  # of the height curve; guess
OLD_ENOUGH = 0.1  # chance of flowering below which a plant is left out
MOSTLY = 0.5  # share of the draws that decides whether a plant is in flower or can be hurt
CAUTION = "The tables hold for half an hour on a still night; wind makes it worse, and nothing is certain."
_NOTED = {"first open": "first_open", "full bloom": "full_bloom", "petal fall": "petal_fall"}


def tonight(
    garden: Garden,
    library: Library,
    weather: SeasonWeather,
    forecasts: Mapping[str, BloomForecast],
    flowering: Mapping[str, float],
    on: dt.date,
    garden_c: float,
) -> Tonight:
    """What a night of `garden_c` would do.

    Parameters
    ----------
    garden, library, weather, forecasts
        Of the season that holds the day.
    flowering : mapping of plant id to float
        Chance that a plant is old enough to flower.
    on : date
        The day of asking; the night is the one that follows it.
    garden_c : float [degC]
        The night's minimum in the garden.
    """
    standing: dict[str, list[Plant]] = {}
    for plant in garden.plants:
        if plant.id in forecasts and flowering.get(plant.id, 1.0) >= OLD_ENOUGH:
            standing.setdefault(library.match(plant.kind).kind.name, []).append(plant)
    hits: list[ColdHit] = []
    not_known: list[str] = []
    morning = np.array([[weather.axis.day(on) + 1]])
    for plants in standing.values():
        kind = library.match(plants[0].kind).kind
        dates = BudDates([forecasts[plant.id] for plant in plants], kind, weather)
        places = dates.place(morning).reshape(len(plants), -1)
        hardiness = Hardiness.of(kind)
        if hardiness is not None:
            night = _Night(hardiness, places, garden_c)
            hits += [
                night.hit(i, forecasts[plant.id], _height(plant, kind, library, on.year), on)
                for i, plant in enumerate(plants)
                if night.hurts[i]
            ]
        elif kind.harvest.after_full_bloom_days is not None:
            in_flower = ((places >= OPEN) & (places <= END)).mean(axis=1) >= MOSTLY
            not_known += [plant.id for plant, flowers in zip(plants, in_flower, strict=True) if flowers]
    pocket = garden.place.frost_pocket_c
    station = f"; the weather station would read {garden_c - pocket:.1f} C" if pocket else ""
    return Tonight(
        on=on,
        garden_c=garden_c,
        station_c=garden_c - pocket,
        said=f"In the garden {garden_c:.1f} C{station}.",
        plants=tuple(sorted(hits, key=lambda hit: (-hit.share, -hit.high, hit.plant))),
        not_known=tuple(not_known),
        caution=CAUTION,
    )


class _Night:
    """The night as it meets the plants of one kind; `places` are theirs, (plants, draws)."""

    def __init__(self, hardiness: Hardiness, places: FloatArray, garden_c: float) -> None:
        self._hardiness = hardiness
        told = hardiness.tells(places)
        tenth, nine_tenths = hardiness.at(np.where(told, places, OPEN))

        def killed(celsius: float, point: float) -> FloatArray:
            shares = np.where(told, killed_share(celsius, tenth, nine_tenths), 0.0)
            return np.asarray(np.quantile(shares, point, axis=1))

        self.hurts = told.mean(axis=1) >= MOSTLY
        self._low, self._high = killed(garden_c + DOUBT_C, 0.1), killed(garden_c - DOUBT_C, 0.9)
        self._share = killed(garden_c, 0.5)
        self._place = np.quantile(np.nan_to_num(places, nan=np.inf), 0.5, axis=1, method="nearest")
        self._tenth, self._nine_tenths = hardiness.at(self._place)

    def hit(self, i: int, forecast: BloomForecast, height: float | None, on: dt.date) -> ColdHit:
        """What it does to the plant numbered `i`."""
        stage = self._hardiness.stage(float(self._place[i]))
        tenth, nine_tenths, high = float(self._tenth[i]), float(self._nine_tenths[i]), float(self._high[i])
        cover, cover_words = _cover(height, high)
        return ColdHit(
            plant=forecast.plant,
            kind=self._hardiness.kind.name,
            stage=self._hardiness.words(stage),
            stage_from=_stage_from(forecast, stage, on),
            share=float(self._share[i]),
            low=float(self._low[i]),
            high=high,
            tenth_c=tenth,
            nine_tenths_c=nine_tenths,
            height_m=height,
            cover=cover,
            cover_words=cover_words,
            words=f"a tenth at {tenth:.1f} C, nine tenths at {nine_tenths:.1f} C",
            basis="guess" if self._hardiness.sure == "guess" else "handbook",
        )


def _stage_from(forecast: BloomForecast, stage: str, on: dt.date) -> str:
    """Whether the stage was noted or computed, and from what."""
    noted = [(day, said) for said, day in forecast.observed.items() if said in _NOTED and day <= on]
    if not noted:
        return "computed"
    day, said = max(noted)
    when = f"noted {wording.day(day, on)}"
    return when if _NOTED[said] == stage else f"computed from {said} {when}"


def _cover(height: float | None, high: float) -> tuple[bool, str]:
    """Whether to cover, and why not."""
    if high < TENTH:
        return False, "by these figures no need to cover"
    if height is None:
        return False, "height not known: cover it if it can be reached from the ground"
    if height >= COVER_BELOW_M:
        return False, f"too tall to cover ({height:.0f} m)"
    return True, f"cover it ({height:.1f} m)"


def _height(plant: Plant, kind: Kind, library: Library, year: int) -> float | None:
    """Height [m] as measured, else mature height on its stock, grown by age where age and pace are known."""
    if plant.height_m is not None:
        return plant.height_m
    mature, pace = kind.size.height_m, kind.size.growth_k
    if mature is None:
        return None
    stock = library.rootstock(plant.rootstock, kind) if plant.rootstock else None
    share = stock.height_share.value if stock is not None and stock.height_share is not None else 1.0
    age = plant.age(year)
    if age is None or pace is None:
        return mature.value * share
    grown: float = (1.0 - math.exp(-max(pace.value * age, 0.0))) ** GROWTH_POWER
    return mature.value * share * grown
