"""What a cold night foreseen would do, plant by plant."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping

import numpy as np

from leafturn.base import day_words, quantities
from leafturn.base.arrays import at_share
from leafturn.base.bloom_stages import BY_NAME, FLOWERING_NAMES
from leafturn.base.evidence import Basis
from leafturn.base.name_order import name_order
from leafturn.base.value import Value
from leafturn.bloom.frost.bud_stages import END, OPEN, BudDates, Hardiness
from leafturn.bloom.frost.cold_nights import MOSTLY, ColdNights, Limit, takes_a_tenth
from leafturn.bloom.frost.loss import TENTH
from leafturn.bloom.model import BloomForecast
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.kinds.specimen import Specimen
from leafturn.season.garden_day import GardenDay
from leafturn.tasks.timing.frost_threat import Covering

UNCERTAINTY_C = 1.0  # of a forecast minimum, either way; guess
CAUTION = "The tables hold for half an hour on a still night; wind makes it worse, and nothing is certain."


class ColdHit(Value):
    """What a cold night does to one plant.

    Parameters
    ----------
    stage : str
        What buds or flowers are at, in words.
    stage_from : str
        "noted 12 Apr", "computed from first open noted 12 Apr" or "computed".
    share, low, high : float
        Share of the flowers likely lost, 0 to 1; the range holds the uncertainty of the stage and a degree
        of the temperature either way.
    tenth_c, nine_tenths_c : float [degC]
        Temperatures that kill 10 and 90 % at this stage.
    height_m : float or None
        As measured, or grown by its age; None if nothing tells it.
    cover : bool
        Whether it likely loses a tenth or more, is low enough to be covered, and is kept for its fruit. What
        only may lose a tenth, a degree colder or at a later stage, is told to have a cover ready.
    basis : Basis
        "handbook" or "guess".
    """

    plant: str
    kind: str
    stage: str
    stage_from: str
    share: float
    low: float
    high: float
    tenth_c: float
    nine_tenths_c: float
    height_m: float | None
    cover: bool
    cover_words: str
    words: str
    basis: Basis


class Tonight(Value):
    """A cold night foreseen: what it does to every plant in a stage that cold can hurt, worst first.

    `garden_c` and `station_c` [degC] are the night's minimum in the garden and at the weather station;
    `said` puts them in words. `not_known` are plants in flower for whose kind no table was found.
    """

    on: dt.date
    garden_c: float
    station_c: float
    said: str
    plants: tuple[ColdHit, ...]
    not_known: tuple[str, ...]
    caution: str


def tonight(
    day: GardenDay,
    weather: SeasonWeather,
    forecasts: Mapping[str, BloomForecast],
    garden_c: float,
    covering: Covering,
) -> Tonight:
    """What the night that follows the day of asking would do, if it came to `garden_c`.

    Parameters
    ----------
    day : GardenDay
    weather : SeasonWeather
        Of the season that holds the day.
    forecasts : mapping of plant id to BloomForecast
        Of plants that may be old enough to flower.
    garden_c : float [degC]
        The night's minimum in the garden.
    covering : Covering
        What the rule of covering says in this garden.
    """
    by_kind: dict[str, list[Specimen]] = {}
    for plant in day.garden.plants:
        if plant.id in forecasts:
            specimen = day.specimen(plant)
            by_kind.setdefault(specimen.kind.name, []).append(specimen)
    hits: list[ColdHit] = []
    not_known: list[str] = []
    morning = weather.axis.day(day.on) + 1
    for alike in by_kind.values():
        kind, names = alike[0].kind, [one.plant.id for one in alike]
        dates = BudDates([forecasts[name] for name in names], kind, weather)
        if (hardiness := Hardiness.of(kind)) is not None:
            night = _Night(ColdNights(hardiness, dates, [morning]), garden_c)
            hits += [
                night.hit(i, forecasts[name], covering, day.on)
                for i, name in enumerate(names)
                if night.hurts[i]
            ]
        elif kind.harvest.after_full_bloom_days is not None:
            places = dates.place(np.array([[morning]])).reshape(len(names), -1)
            in_flower = ((places >= OPEN) & (places <= END)).mean(axis=1) >= MOSTLY
            not_known += [name for name, flowers in zip(names, in_flower, strict=True) if flowers]
    pocket = day.garden.place.frost_pocket_c
    station = f"; the weather station would read {quantities.celsius(garden_c - pocket)}" if pocket else ""
    return Tonight(
        on=day.on,
        garden_c=garden_c,
        station_c=garden_c - pocket,
        said=f"In the garden {quantities.celsius(garden_c)}{station}.",
        plants=tuple(sorted(hits, key=lambda hit: (-hit.share, -hit.high, name_order(hit.plant)))),
        not_known=tuple(not_known),
        caution=CAUTION,
    )


class _Night:
    """The night as it meets the plants of one kind."""

    def __init__(self, nights: ColdNights, garden_c: float) -> None:
        self._nights = nights
        self._killed = nights.killed(garden_c)[:, :, 0]
        self._low, self._high = (
            np.quantile(nights.killed(garden_c + warmer)[:, :, 0], point, axis=1)
            for warmer, point in ((UNCERTAINTY_C, 0.1), (-UNCERTAINTY_C, 0.9))
        )
        self.hurts = nights.hurts()[:, 0]

    def hit(self, i: int, forecast: BloomForecast, covering: Covering, on: dt.date) -> ColdHit:
        """What it does to the plant numbered `i`."""
        height = covering.reach_m.get(forecast.plant)
        limit, killed, high = self._nights.limit(i), self._killed[i], float(self._high[i])
        covered = forecast.plant in covering.plants
        likely = takes_a_tenth(killed)
        if high < TENTH and not likely:
            cover_words = "by these figures no need to cover"
        else:
            cover_words = _cover_words(height, covering.below_m, covered=covered, likely=likely)
        return ColdHit(
            plant=forecast.plant,
            kind=self._nights.hardiness.kind.name,
            stage=limit.stage_words,
            stage_from=_stage_from(forecast, limit.stage, on),
            share=at_share(killed, 0.5),
            low=float(self._low[i]),
            high=high,
            tenth_c=limit.tenth_c,
            nine_tenths_c=limit.nine_tenths_c,
            height_m=height,
            cover=covered and likely,
            cover_words=cover_words,
            words=_limit_words(limit),
            basis=limit.basis,
        )


def _limit_words(limit: Limit) -> str:
    tenth, nine = quantities.celsius(limit.tenth_c), quantities.celsius(limit.nine_tenths_c)
    return f"a tenth at {tenth}, nine tenths at {nine}"


def _stage_from(forecast: BloomForecast, stage: str, on: dt.date) -> str:
    """Whether the stage was noted or computed, and from what."""
    noted = [(day, said) for said, day in forecast.observed.items() if said in FLOWERING_NAMES and day <= on]
    if not noted:
        return "computed"
    day, said = max(noted)
    when = f"noted {day_words.near_day(day, on)}"
    return when if BY_NAME[said].key == stage else f"computed from {said} {when}"


def _cover_words(height: float | None, below_m: float | None, *, covered: bool, likely: bool) -> str:
    """Whether to cover what the night may hurt, and why not."""
    if covered and height is not None:
        return f"{'cover it' if likely else 'have a cover ready'} ({quantities.metres(height)})"
    if height is None:
        return "height not known: cover it if it can be reached from the ground"
    if below_m is not None and height >= below_m:
        return f"too tall to cover ({quantities.metres(height, 0)})"
    return "left uncovered: no crop to save"
