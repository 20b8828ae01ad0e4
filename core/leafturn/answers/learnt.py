"""What the garden's notes have taught: when each plant opens in a usual spring, and what the place adds."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping

import numpy as np

from leafturn.answers.forecast_score import Foretold
from leafturn.answers.season import usual_day
from leafturn.answers.values import Learnt, NeedLine
from leafturn.bloom.forecast import Outlook
from leafturn.bloom.model import BloomForecast
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.season.garden_day import GardenDay

FLOWERING = ("first open", "full bloom", "petal fall")


def learnt(day: GardenDay, weather: SeasonWeather, outlook: Outlook) -> Learnt:
    """What the notes have taught; plants with most notes first.

    Parameters
    ----------
    day : GardenDay
    weather : SeasonWeather
    outlook : Outlook
        Of the same season.
    """
    kinds = {plant.id: day.kind(plant).name for plant in day.garden.plants}
    lines = [
        _line(forecast, kinds[forecast.plant], weather)
        for forecast in outlook.blooms.values()
        if forecast.need is not None and forecast.plant in kinds
    ]
    lines.sort(key=lambda line: (-line.notes, line.used or dt.date.max, line.plant))
    noted = {
        plant: forecast.own_notes + any(stage in forecast.observed for stage in FLOWERING)
        for plant, forecast in outlook.blooms.items()
    }
    return Learnt(
        place_days=outlook.place_days[0],
        place_doubt_days=outlook.place_days[1],
        notes=sum(noted.values()),
        kinds=len({kinds[plant] for plant, springs in noted.items() if springs and plant in kinds}),
        lines=tuple(lines),
        unused=outlook.unused,
    )


def foretold(weather: SeasonWeather, forecasts: Mapping[str, BloomForecast]) -> dict[str, Foretold]:
    """The likely day of each plant's first flower, and its usual day as published alone."""
    return {
        plant: Foretold(
            likely=weather.now.likely(forecast.first_open).likely,
            published=None if forecast.need is None else _usual(forecast, forecast.need.published, weather),
        )
        for plant, forecast in forecasts.items()
    }


def _usual(forecast: BloomForecast, level: float | None, weather: SeasonWeather) -> dt.date | None:
    """The date on which a level of warmth is reached in a usual spring; None where it never is."""
    if forecast.need is None or level is None or not np.isfinite(np.median(forecast.first_open)):
        return None
    day = usual_day(forecast.need, level, weather)
    return weather.axis.date(day + 0.5) if np.isfinite(day) else None


def _line(forecast: BloomForecast, kind: str, weather: SeasonWeather) -> NeedLine:
    need = forecast.need
    assert need is not None
    published, there = (usual_day(need, at, weather) for at in (need.published, need.published + need.place))
    return NeedLine(
        plant=forecast.plant,
        kind=kind,
        published=_usual(forecast, need.published, weather),
        place_days=there - published if np.isfinite(there - published) else 0.0,
        own=_usual(forecast, need.own, weather),
        used=_usual(forecast, need.used, weather),
        notes=forecast.own_notes,
        kin_notes=forecast.kin_notes,
        origin=need.origin,
        by_dates=need.by_dates,
        degrees_outside=need.degrees_outside,
        doubted=forecast.questioned,
    )
