"""When a subject's plants bloom and are picked: the moments of `base.bloom_stages`."""

from __future__ import annotations

import math

import numpy as np

from leafturn.base import day_words, prose, quantities
from leafturn.base.arrays import FloatArray, median, medians
from leafturn.base.bloom_stages import BY_MOMENT, FIRST_OPEN, FLOWERING, RIPE, Stage
from leafturn.base.explained_days import NEVER, ExplainedDays, Measure, Told
from leafturn.bloom.model import BloomForecast
from leafturn.bloom.priors.response import Response
from leafturn.garden.model import Plant
from leafturn.tasks.season_model import SeasonModel
from leafturn.tasks.subjects import Subject, names_of
from leafturn.tasks.timing.phrases import Moment


def stage_reached(moment: Moment, subject: Subject, season: SeasonModel) -> ExplainedDays:
    """The day on which the first of a subject's plants reaches a stage; never where none is foreseen."""
    stage = BY_MOMENT[moment.anchor]
    rows = _foreseen(stage, subject, season)
    ensemble, on = season.weather.now, season.day.on
    if not rows:
        return ExplainedDays(np.full(ensemble.draws, NEVER))
    of_each = np.stack([days for *_, days in rows])
    days = of_each.min(axis=0)
    whose, forecast, own_days = rows[int(medians(of_each, axis=1).argmin()) if len(rows) > 1 else 0]
    measure = None if forecast.observed else _mild_days(forecast, stage, season)

    def telling() -> Told:
        likely, name = ensemble.likely(days), names_of([whose])
        any_of_them = median(own_days) - median(days) >= 1  # now this one is first, now that
        first = f"the first of these, likely {name}," if any_of_them else name
        event = f"{_event(stage, whose, season)} of {first}"
        second = season.second_counts.get(whose.id) if stage in FLOWERING else None
        return Told(
            says=f"{event} {day_words.comes(stage.will, stage.did, likely, on)}{_noted_words(forecast)}.",
            second=second.says if second else "",
            event=day_words.with_day(f"{event[0].lower()}{event[1:]} {stage.will}", likely, on),
            reckoned=_any_cultivar(whose, forecast) if stage is RIPE else _heat_words(name, measure),
        )

    return ExplainedDays(days, telling, basis=forecast.basis, measure=measure)


def _event(stage: Stage, plant: Plant, season: SeasonModel) -> str:
    """What a stage is called; what falls for animals and for sowing is not picked."""
    return stage.event if stage in FLOWERING or season.day.kind(plant).harvest.is_food else "Ripening"


def stage_reached_before(
    moment: Moment, subject: Subject, season: SeasonModel, days: float
) -> FloatArray | None:
    """So many days before it, (draws,); None where it is not foreseen."""
    stage = BY_MOMENT[moment.anchor]
    rows = _foreseen(stage, subject, season)
    if not rows:
        return None
    _, forecasts, at = zip(*rows, strict=True)
    return np.asarray(season.lead_times.before_stage(stage, np.stack(at), forecasts, days).min(axis=0))


def _foreseen(
    stage: Stage, subject: Subject, season: SeasonModel
) -> list[tuple[Plant, BloomForecast, FloatArray]]:
    """The plants of a subject for which a stage is foreseen, with their forecasts and its days."""
    found = ((plant, season.forecasts.get(plant.id)) for plant in subject.plants)
    known = ((plant, forecast, forecast.days(stage)) for plant, forecast in found if forecast is not None)
    return [(plant, forecast, days) for plant, forecast, days in known if days is not None]


def _noted_words(forecast: BloomForecast) -> str:
    if not forecast.observed:
        return ""
    last = max(forecast.observed.items(), key=lambda item: item[1])
    return f", from {last[0]} noted on {day_words.day(last[1])}"


def _any_cultivar(plant: Plant, forecast: BloomForecast) -> str:
    """That a fruit may be an early or a late one, where nothing is known of when its cultivar ripens."""
    if not forecast.ripens_as_kind:
        return ""
    unknown = f"when {plant.cultivar} ripens is not known" if plant.cultivar else "no cultivar is named"
    return f"{prose.capital(unknown)}: this is the middle of its kind, early and late ones lie weeks apart."


def _heat_words(name: str, measure: Measure | None) -> str:
    if measure is None or measure.now >= measure.needed:
        return ""
    of_what = quantities.retold(measure.unit)
    return f"So far {name} has had {measure.now:.0f} of about {measure.needed:.0f} {of_what}."


def _mild_days(forecast: BloomForecast, stage: Stage, season: SeasonModel) -> Measure | None:
    """How warm the season has been for first flowers, and what they want; None of later stages."""
    need = forecast.need
    if stage is FIRST_OPEN and need is not None and isinstance(need.timing, Response) and season.today >= 0:
        warmth = season.weather.warmth.on_axis(need.timing)
        had = median(warmth[:, min(season.today, warmth.shape[1] - 1)])
        return Measure(had, math.exp(need.used), "mild days (days of 10 C)")
    return None
