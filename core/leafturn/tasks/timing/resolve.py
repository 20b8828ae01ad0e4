"""What a moment comes to in one season: a day number for every draw, and a sentence with today's numbers."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

import numpy as np
from msgspec.structs import replace

from leafturn.base import day_words, prose, quantities
from leafturn.base.arrays import FloatArray, median
from leafturn.base.bloom_stages import BY_MOMENT
from leafturn.base.explained_days import NEVER, ExplainedDays, Measure, Told
from leafturn.base.value import Value
from leafturn.bloom.second_count import FEW_DAYS
from leafturn.journal.entries import DamageNote, WeatherNote
from leafturn.journal.noted import of_kind
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
from leafturn.tasks.timing.leaves import leaf_fall, leaf_fall_before, leaf_out, leaf_out_before
from leafturn.tasks.timing.phrases import Moment
from leafturn.tasks.timing.snow import wet_snow


class _Asked(Value, eq=False, kw_only=False):
    """A moment with all that its days may depend on."""

    moment: Moment
    subject: Subject
    season: SeasonModel
    winter: bool
    done: dt.date | None


class _Days(Value, eq=False, kw_only=False):
    """How the days of a moment are found, and how so many days before them where a forecast would move those
    to and fro; None for the latter where the calendar serves."""

    days: Callable[[_Asked], ExplainedDays]
    before: Callable[[_Asked, float, ExplainedDays], FloatArray | None] = lambda *_: None


def resolve(
    moment: Moment,
    subject: Subject,
    season: SeasonModel,
    *,
    winter: bool,
    done: dt.date | None,
    sooner: int = 0,
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
    sooner : int [d]
        So many days before the moment are meant.
    """
    if moment.plant:
        named = season.day.garden.plant(moment.plant)
        if named is None:
            return _constant(season, NEVER)
        subject = subject_of(named, season)
    if sooner:
        moment = replace(moment, shift=moment.shift - sooner)
    whom = () if moment.of_garden or moment.anchor == "done" else subject.ids
    laid = subject.applies if moment.anchor == "frost threat" else None
    key = (moment, whom, winter, None if moment.of_garden else done, laid)
    known = season.resolved.get(key)
    if known is not None:
        return known
    asked, how, shift = _Asked(moment, subject, season, winter, done), _BY_ANCHOR[moment.anchor], moment.shift
    if not shift:
        return season.resolved.setdefault(key, how.days(asked))
    anchor = resolve(moment.unshifted, subject, season, winter=winter, done=done)
    lead_time = how.before(asked, float(-shift), anchor) if shift < 0 else None
    days = anchor.days + shift if lead_time is None else lead_time
    found = replace(anchor, days=days, telling=lambda: _shifted(anchor.told, shift))
    # so far from what one plant does hardly another rule asks
    return found if whom else season.resolved.setdefault(key, found)


def _shifted(told: Told, shift: int) -> Told:
    """What is said of days that lie so many after those of an event [d]; of what is none the same."""
    if not told.event:
        return told
    apart = f"{day_words.some_days(shift)} {'after' if shift > 0 else 'before'} {told.event}"
    return replace(told, says=f"{prose.capital(apart)}.", apart=apart)


def _constant(season: SeasonModel, day: float) -> ExplainedDays:
    return ExplainedDays(np.full(season.weather.now.draws, float(day)))


def _last_done(season: SeasonModel, done: dt.date | None) -> ExplainedDays:
    axis, on = season.axis, season.day.on
    if done is None:
        return _constant(season, 0)

    def telling() -> Told:
        says = f"It was last done {day_words.days_ago(done, on)}, on {day_words.day(done)}."
        return Told(says=says, tells_last_done=True)

    return replace(_constant(season, axis.day(done)), telling=telling)


def _last_wind(season: SeasonModel, done: dt.date | None) -> ExplainedDays:
    """The latest noted wind since the job was done; never where none is noted this season."""
    since = max(done or dt.date.min, season.axis.first)
    entries = season.day.entries
    noted: list[WeatherNote | DamageNote] = [*of_kind(entries, WeatherNote), *of_kind(entries, DamageNote)]
    days = sorted(e.on for e in noted if e.wind and since <= e.on and (done is None or e.on > done))
    if not days:
        return _constant(season, np.inf)
    says = f"Wind was noted on {day_words.day(days[-1])}; what it loosened may fall later."
    blew = _constant(season, season.axis.day(days[-1]))
    return replace(blew, telling=lambda: Told(says=says), basis="own record")


def _sum_of(moment: Moment, season: SeasonModel) -> tuple[HeatCount, float]:
    """How the heat of a moment is counted, and how much of it is wanted [degC d]."""
    if moment.anchor == "sap rise":
        return HeatCount(BASE_C, season.cold.leaf_heat_start), season.day.numbers["sap_rise_heat"]
    return HeatCount(moment.base, moment.month_day or "season"), moment.need


def _heat(asked: _Asked, event: tuple[str, str]) -> ExplainedDays:
    season = asked.season
    counting, need = _sum_of(asked.moment, season)
    base = counting.base
    start = counting.first_day(season.axis)
    ensemble = season.weather.now
    days = ensemble.spread(counting.day_reached(season.weather.now_heat, need))
    now = season.weather.now_heat.to_date(base, start) if season.today >= start else 0.0

    def telling() -> Told:
        will, did = event
        when = ensemble.likely(days)
        says = f"{did if now >= need else will} {day_words.about(when, season.day.on)}."
        if season.today < start:
            return Told(says=says)
        counted = "" if counting.start == "season" else f" since {day_words.day(season.axis.date(start))}"
        above, had, wanted = quantities.celsius(base, 0), quantities.heat(now), quantities.heat(need)
        more = f"{had} degree-days; {wanted} were wanted" if now >= need else f"{had} of {wanted} degree-days"
        reckoned = f"Heat above {above}{counted} is {more}."
        second = "" if now >= need else _counted_otherwise(season, counting, need, days)
        return Told(says=says, second=second, reckoned=reckoned)

    return ExplainedDays(days, telling, measure=Measure(now, need, f"degree-days above {base:g} C"))


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
    days = season.cold.last(threshold)

    def telling() -> Told:
        name = "frost" if threshold == 0 else f"night of {quantities.celsius(threshold)}"
        shares = season.cold.shares(threshold)
        event = "" if shares.last < prose.RARE else _named(f"the last {name}", days, season)
        says = last_frost_words(name, days, shares, season)
        return Told(says=says, event=event, hardly_ever=max(shares) < prose.HARDLY_EVER)

    return ExplainedDays(days, telling)


def _first_frost(season: SeasonModel) -> ExplainedDays:
    days = season.cold.first

    def telling() -> Told:
        event = "" if season.cold.rare else _named("the first frost", days, season)
        return Told(says=first_frost_words(season), event=event)

    return ExplainedDays(days, telling)


def _growth_end(season: SeasonModel) -> ExplainedDays:
    """The first frost, or short days before it."""
    if not season.cold.short_days:
        return replace(_first_frost(season), days=season.cold.growth_end)
    return ExplainedDays(season.cold.growth_end, lambda: Told(says=growth_end_words(season)))


def _named(event: str, days: FloatArray, season: SeasonModel) -> str:
    """An event with its likely day behind it; empty where it does not come in most years."""
    return day_words.with_day(event, season.weather.now.likely(days), season.day.on)


def _frost_threat(asked: _Asked) -> ExplainedDays:
    season = asked.season
    ahead, said, tonight = frost_threat(asked.subject, season)
    calls = _constant(season, season.today + ahead)
    return replace(calls, telling=lambda: Told(says=said, tonight=tonight))


def _soil_dry(subject: Subject, season: SeasonModel, done: dt.date | None) -> ExplainedDays:
    """When the first of a subject's plants is short of water, and how far the thirstiest has come."""
    plants = [p.id for p in subject.plants]
    days = season.weather.now.spread(season.water.dry_days(plants, done))
    lines = season.water.of(plants)
    if not lines:
        return ExplainedDays(days, basis="guess")

    def telling() -> Told:
        last = season.water.rained_off(plants, done)
        rained = "" if last is None else f"Rain has put it off: water was short until {day_words.day(last)}. "
        return Told(says=f"{rained}{lines[0].says}", tells_last_done=lines[0].tells_watered)

    return ExplainedDays(days, telling, basis=lines[0].basis)


_BLOOM = _Days(
    lambda a: stage_reached(a.moment, a.subject, a.season),
    lambda a, days, found: stage_reached_before(a.moment, a.subject, a.season, days),
)
_GROWTH = _Days(
    lambda a: shoots_reach(a.moment, a.subject, a.season),
    lambda a, days, found: shoots_reach_before(a.moment, a.subject, a.season, days),
)
_LEAF_OUT = _Days(
    lambda a: leaf_out(a.subject, a.season),
    lambda a, days, found: leaf_out_before(a.subject, a.season, days, found.days),
)
_LEAF_FALL = _Days(
    lambda a: leaf_fall(a.subject, a.season, winter=a.winter),
    lambda a, days, found: leaf_fall_before(a.subject, a.season, days),
)


def _of_heat(event: tuple[str, str]) -> _Days:
    return _Days(
        lambda a: _heat(a, event),
        lambda a, days, found: a.season.lead_times.before_heat(*_sum_of(a.moment, a.season), days),
    )


_BY_ANCHOR: dict[str, _Days] = {
    **dict.fromkeys(BY_MOMENT, _BLOOM),
    **dict.fromkeys(("grown", "host topped"), _GROWTH),
    "date": _Days(
        lambda a: _constant(a.season, a.season.axis.month_day(a.moment.month_day, winter=a.winter))
    ),
    "day": _Days(lambda a: _constant(a.season, a.season.axis.day(dt.date.fromisoformat(a.moment.month_day)))),
    "season start": _Days(lambda a: _constant(a.season, a.season.axis.day(a.season.axis.start))),
    "done": _Days(lambda a: _last_done(a.season, a.done)),
    "heat": _of_heat(("The heat for it comes", "The heat for it came")),
    "sap rise": _of_heat(("Sap rises", "Sap rose")),
    "leaf out": _LEAF_OUT,
    "leaf fall": _LEAF_FALL,
    "last frost": _Days(lambda a: _last_frost(a.season, 0.0)),
    "last hard frost": _Days(lambda a: _last_frost(a.season, a.season.day.numbers["hard_frost_c"])),
    "first frost": _Days(
        lambda a: _first_frost(a.season), lambda a, days, found: a.season.cold.before_first(days)
    ),
    "growth end": _Days(
        lambda a: _growth_end(a.season), lambda a, days, found: a.season.cold.before_growth_end(days)
    ),
    "heap cools": _Days(
        lambda a: turn_due(a.subject.id, a.season.day, a.done, a.season.weather.now, a.season.pace)
    ),
    "frost threat": _Days(_frost_threat),
    "wind": _Days(lambda a: _last_wind(a.season, a.done)),
    "wet snow": _Days(lambda a: wet_snow(a.season, a.done)),
    "soil dry": _Days(lambda a: _soil_dry(a.subject, a.season, a.done)),
}
