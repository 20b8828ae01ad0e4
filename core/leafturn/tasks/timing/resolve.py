"""What a moment comes to in one season: a day number for every draw, and a sentence with today's numbers."""

from __future__ import annotations

import datetime as dt

import numpy as np
from msgspec.structs import replace

from leafturn.base import day_words, prose, quantities
from leafturn.base.arrays import FloatArray, median
from leafturn.base.bloom_stages import BY_MOMENT
from leafturn.base.explained_days import NEVER, ExplainedDays, Measure
from leafturn.bloom.leafing import fall_after_frost, leaf_heat
from leafturn.bloom.priors.stated import leaf_prior
from leafturn.bloom.second_count import FEW_DAYS
from leafturn.journal.entries import DamageNote, WeatherNote
from leafturn.season.heat_count import BASE_C, HeatCount
from leafturn.soil.compost.turning import turn_due
from leafturn.tasks.season_model import SeasonModel
from leafturn.tasks.subjects import Subject, subject_of
from leafturn.tasks.timing.bloom_stages import stage_reached, stage_reached_before
from leafturn.tasks.timing.frost_threat import frost_threat
from leafturn.tasks.timing.frost_words import (
    first_frost_words,
    growth_end_words,
    last_frost_words,
)
from leafturn.tasks.timing.growth import shoots_reach, shoots_reach_before
from leafturn.tasks.timing.leaves import leaf_fall, leaf_out
from leafturn.tasks.timing.phrases import Moment

HEAT_COMES = "The heat for it comes", "The heat for it came"
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


def resolve(
    moment: Moment, subject: Subject, season: SeasonModel, *, winter: bool, done: dt.date | None
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
        named = season.day.garden.plant(moment.plant)
        if named is None:
            return _constant(season, NEVER, "")
        subject = subject_of(named, season)
    of_garden = moment.anchor in OF_THE_GARDEN
    whom = () if of_garden else (subject.id, *(p.id for p in subject.plants))
    laid = subject.applies if moment.anchor == "frost threat" else None
    key = (replace(moment, shift=0), whom, winter, None if of_garden else done, laid)
    if key not in season.resolved:
        season.resolved[key] = _anchor(moment, subject, season, winter, done)
    found = season.resolved[key]
    if moment.shift == 0:
        return found
    lead_time = _lead_time(moment, subject, season, found) if moment.shift < 0 else None
    days = found.days + moment.shift if lead_time is None else lead_time
    if not found.event:
        return replace(found, days=days)
    apart = f"{day_words.some_days(moment.shift)} {'after' if moment.shift > 0 else 'before'} {found.event}"
    says = f"{prose.capital(apart)}."
    return replace(found, days=days, says=says, apart=apart)


def _lead_time(
    moment: Moment, subject: Subject, season: SeasonModel, found: ExplainedDays
) -> FloatArray | None:
    """Days before what a forecast would move to and fro; None where the calendar serves."""
    days = float(-moment.shift)
    match moment.anchor:
        case "heat" | "sap rise":
            return season.lead_times.before_heat(*_sum_of(moment, season), days)
        case "leaf out":
            prior = leaf_prior(leaf_heat(subject.kind, season.day.numbers))
            lead_time = season.lead_times.before_warmth(prior.response, prior.usual.levels.middle, days)
            return found.days - days if lead_time is None else np.minimum(lead_time, found.days)
        case "first frost":
            return season.cold.before_first(days)
        case "growth end":
            return season.cold.before_growth_end(days)
        case "leaf fall":
            after = fall_after_frost(subject.kind, season.day.numbers)
            return season.cold.before_leaf_fall(subject.kind, days) if days > after else None
        case "grown" | "host topped":
            return shoots_reach_before(moment, subject, season, days)
        case anchor if anchor in BY_MOMENT:
            return stage_reached_before(moment, subject, season, days)
    return None


def _anchor(
    moment: Moment, subject: Subject, season: SeasonModel, winter: bool, done: dt.date | None
) -> ExplainedDays:
    match moment.anchor:
        case "date":
            return _constant(season, season.axis.month_day(moment.month_day, winter=winter), "")
        case "day":
            return _constant(season, season.axis.day(dt.date.fromisoformat(moment.month_day)), "")
        case "season start":
            return _constant(season, season.axis.day(season.axis.start), "")
        case "done":
            return _last_done(season, done)
        case "heat" | "sap rise":
            event = {"heat": HEAT_COMES, "sap rise": ("Sap rises", "Sap rose")}[moment.anchor]
            return _heat(season, *_sum_of(moment, season), event)
        case "leaf out":
            return leaf_out(subject, season)
        case "grown" | "host topped":
            return shoots_reach(moment, subject, season)
        case "leaf fall":
            return leaf_fall(subject, season, winter=winter)
        case "last frost" | "last hard frost":
            return _last_frost(
                season, 0.0 if moment.anchor == "last frost" else season.day.numbers["hard_frost_c"]
            )
        case "first frost":
            return _first_frost(season)
        case "growth end":
            return _growth_end(season)
        case "heap cools":
            return turn_due(subject.id, season.day, done, season.weather.now, season.pace)
        case "frost threat":
            ahead, said, tonight = frost_threat(subject, season)
            return replace(_constant(season, season.today + ahead, said), tonight=tonight)
        case "wind":
            return _last_wind(season, done)
        case "soil dry":
            return _soil_dry(subject, season, done)
        case _:
            return stage_reached(moment, subject, season)


def _constant(season: SeasonModel, day: float, says: str) -> ExplainedDays:
    return ExplainedDays(np.full(season.weather.now.draws, float(day)), says)


def _last_done(season: SeasonModel, done: dt.date | None) -> ExplainedDays:
    axis, on = season.axis, season.day.on
    if done is None:
        return _constant(season, 0, "")
    says = f"It was last done {day_words.days_ago(done, on)}, on {day_words.day(done)}."
    return replace(_constant(season, axis.day(done), says), tells_last_done=True)


def _last_wind(season: SeasonModel, done: dt.date | None) -> ExplainedDays:
    """The latest noted wind since the job was done; never where none is noted this season."""
    since = max(done or dt.date.min, season.axis.first)
    windy = (e for e in season.day.entries if isinstance(e, WeatherNote | DamageNote) and e.wind)
    days = [e.on for e in windy if since <= e.on and (done is None or e.on > done)]
    if not days:
        return ExplainedDays(np.full(season.weather.now.draws, np.inf), "")
    says = f"Wind was noted on {day_words.day(days[-1])}; what it loosened may fall later."
    return replace(_constant(season, season.axis.day(days[-1]), says), basis="own record")


def _sum_of(moment: Moment, season: SeasonModel) -> tuple[HeatCount, float]:
    """How the heat of a moment is counted, and how much of it is wanted [degC d]."""
    if moment.anchor == "sap rise":
        return HeatCount(BASE_C, season.cold.leaf_heat_start), season.day.numbers["sap_rise_heat"]
    return HeatCount(moment.base, moment.month_day or "season"), moment.need


def _heat(season: SeasonModel, counting: HeatCount, need: float, event: tuple[str, str]) -> ExplainedDays:
    base = counting.base
    start = counting.first_day(season.axis)
    ensemble = season.weather.now
    days = ensemble.spread(counting.day_reached(season.weather.now_heat, need))
    now = season.weather.now_heat.to_date(base, start) if season.today >= start else 0.0
    will, did = event
    when = ensemble.likely(days)
    says = f"{did if now >= need else will} {day_words.about(when, season.day.on)}."
    measure = Measure(now, need, f"degree-days above {base:g} C")
    if season.today < start:
        return ExplainedDays(days, says, measure=measure)
    counted = "" if counting.start == "season" else f" since {day_words.day(season.axis.date(start))}"
    above, had, wanted = quantities.celsius(base, 0), quantities.heat(now), quantities.heat(need)
    reckoned = f"Heat above {above}{counted} is {had} of {wanted} degree-days."
    second = "" if now >= need else _counted_otherwise(season, counting, need, days)
    return ExplainedDays(days, says, second=second, measure=measure, reckoned=reckoned)


def _counted_otherwise(season: SeasonModel, counting: HeatCount, need: float, days: FloatArray) -> str:
    """When a sum is reached by the four cases of met services, where that is more than a few days off."""
    ensemble = season.weather.now
    day = median(counting.day_reached(season.weather.now_four_cases, need))
    apart = day - median(days)
    if not np.isfinite(apart) or abs(apart) <= FEW_DAYS:
        return ""
    when = day_words.near_day(ensemble.axis.date(day), season.day.on)
    far = f"{prose.count(round(abs(apart)), 'day')} {'later' if apart > 0 else 'earlier'}"
    return f"By the four cases of met services that heat comes {when}, {far}."


def _last_frost(season: SeasonModel, threshold: float) -> ExplainedDays:
    name = "frost" if threshold == 0 else f"night of {quantities.celsius(threshold)}"
    days = season.cold.last(threshold)
    says = last_frost_words(name, days, season.cold.shares(threshold), season)
    return ExplainedDays(days, says, event=_named(f"the last {name}", days, season))


def _first_frost(season: SeasonModel) -> ExplainedDays:
    days = season.cold.first
    event = "" if season.cold.rare else _named("the first frost", days, season)
    return ExplainedDays(days, first_frost_words(season), event=event)


def _growth_end(season: SeasonModel) -> ExplainedDays:
    """The first frost, or short days before it."""
    if not season.cold.short_days:
        return replace(_first_frost(season), days=season.cold.growth_end)
    return ExplainedDays(season.cold.growth_end, growth_end_words(season))


def _named(event: str, days: FloatArray, season: SeasonModel) -> str:
    """An event with its likely day behind it; empty where it does not come in most years."""
    return day_words.with_day(event, season.weather.now.likely(days), season.day.on)


def _soil_dry(subject: Subject, season: SeasonModel, done: dt.date | None) -> ExplainedDays:
    """When the first of a subject's plants is short of water, and how far the thirstiest has come."""
    plants = [p.id for p in subject.plants]
    days = season.weather.now.spread(season.water.dry_days(plants, done))
    lines = season.water.of(plants)
    if not lines:
        return ExplainedDays(days, "", "guess")
    last = season.water.rained_off(plants, done)
    rained = "" if last is None else f"Rain has put it off: water was short until {day_words.day(last)}. "
    says = f"{rained}{lines[0].says}"
    return ExplainedDays(days, says, lines[0].basis, tells_last_done=lines[0].tells_watered)
