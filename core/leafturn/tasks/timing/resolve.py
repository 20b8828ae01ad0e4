"""What a moment comes to in one season: a day number for every draw, and a sentence with today's numbers."""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import replace
from functools import cached_property

import numpy as np

from leafturn.base import day_words, prose
from leafturn.base.arrays import FloatArray
from leafturn.base.bloom_stages import BY_MOMENT, FIRST_OPEN, FLOWERING, Stage
from leafturn.base.explained_days import ExplainedDays, Measure
from leafturn.bloom.model import BloomForecast
from leafturn.bloom.priors.response import Response
from leafturn.bloom.priors.stated import leaf_prior
from leafturn.bloom.second_count import FEW_DAYS
from leafturn.garden.model import Plant
from leafturn.journal.entries import DamageNote, WeatherNote
from leafturn.season.heat_count import BASE_C, HeatCount
from leafturn.season.stage_duration import Pace
from leafturn.soil.compost.turning import turn_due
from leafturn.soil.water.deficit import GardenWater
from leafturn.tasks.inputs import SeasonState
from leafturn.tasks.subjects import Subject, names_of, subject_of
from leafturn.tasks.timing.cold import Cold
from leafturn.tasks.timing.frost_threat import frost_threat
from leafturn.tasks.timing.frost_words import (
    first_frost_words,
    growth_end_words,
    last_frost_words,
)
from leafturn.tasks.timing.growth import shoots_reach, shoots_reach_before
from leafturn.tasks.timing.lead_times import LeadTimes
from leafturn.tasks.timing.leaves import leaf_fall, leaf_heat, leaf_out
from leafturn.tasks.timing.phrases import Moment

NEVER = 10_000  # a day number past every season

# Moments that are the same whatever is tended.
OF_THE_GARDEN = (
    "date",
    "day",
    "season start",
    "heat",
    "sap rise",
    "last frost",
    "last hard frost",
    "first frost",
    "growth end",
)


class Anchors:
    """Resolves moments for one season; keeps what several rules ask for."""

    def __init__(self, season: SeasonState) -> None:
        self.season = season
        self.pace = Pace(season.weather.now)
        self.lead_times = LeadTimes(season)
        self.cold = Cold(season)
        self._found: dict[tuple[object, ...], ExplainedDays] = {}

    def resolve(
        self, moment: Moment, subject: Subject, *, winter: bool, done: dt.date | None
    ) -> ExplainedDays:
        """Days and sentence of a moment.

        Parameters
        ----------
        moment : Moment
        subject : Subject
            Whose bloom, leaves or heap is meant.
        winter : bool
            Whether November and December mean those before the season.
        done : date or None
            When the job was last done.
        """
        if moment.plant:
            named = self.season.day.garden.plant(moment.plant)
            if named is None:
                return self._constant(NEVER, "")
            subject = subject_of(named, self.season)
        of_garden = moment.anchor in OF_THE_GARDEN
        whom = () if of_garden else (subject.id, *(p.id for p in subject.plants))
        laid = subject.applies if moment.anchor == "frost threat" else None
        key = (replace(moment, shift=0), whom, winter, None if of_garden else done, laid)
        if key not in self._found:
            self._found[key] = self._anchor(moment, subject, winter, done)
        found = self._found[key]
        if moment.shift == 0:
            return found
        lead_time = self._lead_time(moment, subject, found) if moment.shift < 0 else None
        days = found.days + moment.shift if lead_time is None else lead_time
        return replace(found, days=days)

    def _lead_time(self, moment: Moment, subject: Subject, found: ExplainedDays) -> FloatArray | None:
        """Days before what a forecast would move to and fro; None where the calendar serves."""
        days = float(-moment.shift)
        match moment.anchor:
            case "heat" | "sap rise":
                return self.lead_times.before_heat(*self._sum_of(moment), days)
            case "leaf out":
                prior = leaf_prior(leaf_heat(subject, self.season))
                lead_time = self.lead_times.before_warmth(prior.response, prior.usual.levels.middle, days)
                return found.days - days if lead_time is None else np.minimum(lead_time, found.days)
            case "first frost":
                return self.cold.before_first(days)
            case "growth end":
                return self.cold.before_growth_end(days)
            case "leaf fall":
                after = self.cold.fall_after_frost(subject.kind)
                return self.cold.before_leaf_fall(subject.kind, days) if days > after else None
            case "grown" | "host topped":
                return shoots_reach_before(moment, subject, self.season, self.lead_times, days)
            case name if name in BY_MOMENT:
                stage = BY_MOMENT[name]
                rows = self._rows(subject, stage)
                lead_times = [self.lead_times.before_stage(stage, at, f, days) for _, f, at in rows]
                return np.min(lead_times, axis=0) if lead_times else None
        return None

    def _anchor(self, moment: Moment, subject: Subject, winter: bool, done: dt.date | None) -> ExplainedDays:
        season, ensemble = self.season, self.season.weather.now
        match moment.anchor:
            case "date":
                return self._constant(season.axis.month_day(moment.month_day, winter=winter), "")
            case "day":
                return self._constant(season.axis.day(dt.date.fromisoformat(moment.month_day)), "")
            case "season start":
                return self._constant(season.axis.day(season.axis.start), "")
            case "done":
                return self._last_done(done)
            case "heat" | "sap rise":
                event = {"heat": ("", ""), "sap rise": ("Sap rises", "Sap rose")}[moment.anchor]
                return self._heat(*self._sum_of(moment), event)
            case "leaf out":
                return leaf_out(subject, season)
            case "grown" | "host topped":
                return shoots_reach(moment, subject, season)
            case "leaf fall":
                return leaf_fall(subject, season, self.cold, winter=winter)
            case "last frost" | "last hard frost":
                return self._last_frost(
                    0.0 if moment.anchor == "last frost" else season.day.numbers["hard_frost_c"]
                )
            case "first frost":
                return ExplainedDays(self.cold.first, first_frost_words(self.cold, season))
            case "growth end":
                return ExplainedDays(self.cold.growth_end, growth_end_words(self.cold, season))
            case "heap cools":
                return turn_due(subject.id, season.day, done, ensemble, self.pace)
            case "frost threat":
                ahead, said, tonight = frost_threat(subject, season)
                return replace(self._constant(season.today + ahead, said), tonight=tonight)
            case "wind":
                return self._last_wind(done)
            case "soil dry":
                return self._soil_dry(subject, done)
            case name:
                return self._bloom(BY_MOMENT[name], subject)

    def _constant(self, day: int, says: str) -> ExplainedDays:
        return ExplainedDays(np.full(self.season.weather.now.draws, float(day)), says)

    def _last_done(self, done: dt.date | None) -> ExplainedDays:
        axis, on = self.season.axis, self.season.day.on
        if done is None:
            return self._constant(0, "")
        says = f"It was last done {day_words.days_ago(done, on)}, on {day_words.day(done)}."
        return replace(self._constant(axis.day(done), says), tells_last_done=True)

    def _last_wind(self, done: dt.date | None) -> ExplainedDays:
        """The latest noted wind since the job was done; never where none is noted this season."""
        season = self.season
        since = max(done or dt.date.min, season.axis.first)
        windy = (e for e in season.day.entries if isinstance(e, WeatherNote | DamageNote) and e.wind)
        days = [e.on for e in windy if since <= e.on and (done is None or e.on > done)]
        if not days:
            return ExplainedDays(np.full(season.weather.now.draws, np.inf), "")
        says = f"Wind was noted on {day_words.day(days[-1])}; what it loosened may fall later."
        return replace(self._constant(season.axis.day(days[-1]), says), basis="own record")

    def _sum_of(self, moment: Moment) -> tuple[HeatCount, float]:
        """How the heat of a moment is counted, and how much of it is wanted [degC d]."""
        if moment.anchor == "sap rise":
            return HeatCount(BASE_C, self.cold.leaf_heat_start), self.season.day.numbers["sap_rise_heat"]
        return HeatCount(moment.base, moment.month_day or "season"), moment.need

    def _heat(self, counting: HeatCount, need: float, event: tuple[str, str]) -> ExplainedDays:
        season, base = self.season, counting.base
        start = counting.first_day(season.axis)
        ensemble = season.weather.now
        days = ensemble.spread(counting.day_reached(season.weather.now_heat, need))
        now = season.weather.now_heat.to_date(base, start) if season.today >= start else 0.0
        said = event[1 if now >= need else 0]
        when = f"{said or 'That heat comes'} {day_words.about(ensemble.likely(days), season.day.on)}"
        measure = Measure(now, need, f"degree-days above {base:g} C")
        if season.today < start:
            return ExplainedDays(days, f"{when}.", measure=measure)
        counted = "" if counting.start == "season" else f" since {day_words.day(season.axis.date(start))}"
        sums = f"eat above {base:.0f} C{counted} is {now:.0f} of {need:.0f} degree-days"
        second = "" if now >= need else self._counted_otherwise(counting, need, days)
        sentence = f"{when}: h{sums}." if said else f"H{sums}."
        return ExplainedDays(days, sentence, second=second, measure=measure)

    def _counted_otherwise(self, counting: HeatCount, need: float, days: FloatArray) -> str:
        """When a sum is reached by the four cases of met services, where that is more than a few days off."""
        ensemble = self.season.weather.now
        day = float(np.median(counting.day_reached(self.season.weather.now_four_cases, need)))
        apart = day - float(np.median(days))
        if not np.isfinite(apart) or abs(apart) <= FEW_DAYS:
            return ""
        when = day_words.near_day(ensemble.axis.date(day), self.season.day.on)
        far = f"{prose.count(round(abs(apart)), 'day')} {'later' if apart > 0 else 'earlier'}"
        return f"By the four cases of met services that heat comes {when}, {far}."

    def _last_frost(self, threshold: float) -> ExplainedDays:
        name = "frost" if threshold == 0 else f"frost of {threshold:.1f} C"
        days = self.cold.last(threshold)
        return ExplainedDays(days, last_frost_words(name, days, self.cold.shares(threshold), self.season))

    @cached_property
    def water(self) -> GardenWater:
        """How much of their water the plants have used."""
        return GardenWater(self.season.day, self.season.weather)

    def _soil_dry(self, subject: Subject, done: dt.date | None) -> ExplainedDays:
        """When the first of a subject's plants is short of water, and how far the thirstiest has come."""
        plants = [p.id for p in subject.plants]
        days = self.season.weather.now.spread(self.water.dry_days(plants, done))
        lines = self.water.of(plants)
        if not lines:
            return ExplainedDays(days, "", "guess")
        last = self.water.rained_off(plants, done)
        rained = "" if last is None else f"Rain has put it off: water was short until {day_words.day(last)}. "
        says = f"{rained}{lines[0].says}"
        return ExplainedDays(days, says, lines[0].basis, tells_last_done=lines[0].tells_watered)

    def _bloom(self, stage: Stage, subject: Subject) -> ExplainedDays:
        rows = self._rows(subject, stage)
        ensemble, on = self.season.weather.now, self.season.day.on
        if not rows:
            return self._constant(NEVER, "")
        days = np.min([days for *_, days in rows], axis=0)
        whose, forecast, _ = min(rows, key=lambda row: float(np.median(row[2])))
        likely = ensemble.likely(days)
        verb = stage.did if likely.has_passed(on) else stage.will
        name = names_of([whose])
        says = f"{stage.event} of {name} {verb} {day_words.about(likely, on)}"
        second = self.season.second_counts.get(whose.id) if stage in FLOWERING else None
        measure = None if forecast.observed else self._mild_days(forecast, stage)
        return ExplainedDays(
            days,
            f"{says}{self._heat_words(forecast, measure)}.",
            forecast.basis,
            second=second.says if second else "",
            measure=measure,
        )

    def _rows(self, subject: Subject, stage: Stage) -> list[tuple[Plant, BloomForecast, FloatArray]]:
        """The plants of a subject for which a stage is foreseen, with their forecasts and its days."""
        found = ((plant, self.season.forecasts.get(plant.id)) for plant in subject.plants)
        known = ((plant, forecast, forecast.days(stage)) for plant, forecast in found if forecast is not None)
        return [(plant, forecast, days) for plant, forecast, days in known if days is not None]

    def _heat_words(self, forecast: BloomForecast, measure: Measure | None) -> str:
        if forecast.observed:
            last = max(forecast.observed.items(), key=lambda item: item[1])
            return f", from {last[0]} noted on {day_words.day(last[1])}"
        if measure is None or measure.now >= measure.needed:
            return ""
        return f": it has had {measure.now:.0f} of about {measure.needed:.0f} {measure.unit}"

    def _mild_days(self, forecast: BloomForecast, stage: Stage) -> Measure | None:
        """How warm the season has been for first flowers, and what they want; None of later stages."""
        need = forecast.need
        if stage is FIRST_OPEN and need is not None and isinstance(need.timing, Response):
            warmth = self.season.weather.warmth.on_axis(need.timing)
            today = min(max(self.season.today, 0), warmth.shape[1] - 1)
            if self.season.today >= 0:
                had = float(np.median(warmth[:, today]))
                return Measure(had, math.exp(need.used), "mild days (days of 10 C)")
        return None
