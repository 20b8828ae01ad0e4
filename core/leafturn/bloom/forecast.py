"""When each plant opens, is in full bloom, fades and ripens this season."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from leafturn.bloom.doubt import departures
from leafturn.bloom.model import BloomForecast
from leafturn.bloom.own_needs import OwnNeed, PastHeat, first_open_notes, own_need, start_day
from leafturn.garden.model import Garden, Plant
from leafturn.garden.numbers import Numbers
from leafturn.journal.entries import Entry
from leafturn.kinds.library import Library
from leafturn.kinds.model import Fact, Kind
from leafturn.season.axis import SeasonAxis
from leafturn.season.ensemble import Ensemble
from leafturn.season.heat import HeatSums
from leafturn.season.pace import Pace
from leafturn.weather.record import DailyRecord

FloatArray = NDArray[np.float64]

# Used where a kind states none; each is a guess and is overridden by the library.
BASE_C = 5.0
FULL_AFTER_DAYS = 4.0
LENGTH_DAYS = 12.0
SPREAD_DAYS = 4.0
PICK_DAYS = 14.0
RIPE_SPREAD_DAYS = 6.0


@dataclass(frozen=True, eq=False, kw_only=True)
class SeasonWeather:
    """The weather that a forecast stands on: this season, and the same season as it usually is."""

    now: Ensemble
    now_heat: HeatSums
    usual_heat: HeatSums
    past: PastHeat
    record: DailyRecord | None = None

    @property
    def axis(self) -> SeasonAxis:
        """The season's days."""
        return self.now.axis

    def observed(self, quantity: Literal["tmin", "tmax", "rain"], day: dt.date) -> float:
        """What the record knows of a day [degC or mm]; NaN if it knows nothing."""
        if self.record is None or not self.record.first <= day <= self.record.last:
            return float("nan")
        values: FloatArray = getattr(self.record, quantity)
        return float(values[(day - self.record.first).days])


def forecast_blooms(
    garden: Garden, library: Library, weather: SeasonWeather, entries: Iterable[Entry]
) -> dict[str, BloomForecast]:
    """Forecast of every plant whose kind flowers.

    Parameters
    ----------
    garden : Garden
    library : Library
    weather : SeasonWeather
    entries : iterable of Entry
        Standing notes only; those after the almanac's day must be left out by the caller.

    Returns
    -------
    dict of plant id to BloomForecast
    """
    notes = list(entries)
    first_day = weather.axis.first
    earlier = first_open_notes(notes, first_day)
    observed = _observed(notes, weather.axis)
    pace = Pace(weather.now)
    kinds = {plant.id: library.match(plant.kind).kind for plant in garden.plants}
    offsets = {
        plant.id: _cultivar_days(library, kinds[plant.id], plant, "bloom_offset_days")
        for plant in garden.plants
    }
    # A late cultivar's notes tell of its kind once its lateness is taken off.
    as_kind = {
        plant: [day - dt.timedelta(days=round(offsets.get(plant, 0.0))) for day in days]
        for plant, days in earlier.items()
    }
    weight = Numbers(garden.rules)["book_weight"]
    kind_needs = _needs_by_kind(garden, kinds, as_kind, weather.past, weight)
    forecasts: dict[str, BloomForecast] = {}
    for plant in garden.plants:
        kind = kinds[plant.id]
        if plant.state in ("gone", "dead standing") or kind.bloom.first_open_heat is None:
            continue
        need = _plant_need(kind, kind_needs, as_kind.get(plant.id, []), weather.past, weight)
        seen = observed.get(plant.id, {})
        forecasts[plant.id] = _forecast(plant, kind, library, weather, pace, need, offsets[plant.id], seen)
    return forecasts


def value_of(fact: Fact[float] | None, otherwise: float) -> float:
    """A fact's value, or what serves where nothing is known."""
    return otherwise if fact is None else fact.value


def _needs_by_kind(
    garden: Garden,
    kinds: Mapping[str, Kind],
    earlier: Mapping[str, list[dt.date]],
    past: PastHeat,
    weight: float,
) -> dict[str, OwnNeed]:
    heats: dict[str, list[float]] = {}
    for plant in garden.plants:
        kind = kinds[plant.id]
        heats.setdefault(kind.name, []).extend(_heats(kind, earlier.get(plant.id, []), past))
    by_name = {kind.name: kind for kind in kinds.values()}
    return {
        name: own_need(by_name[name].bloom.first_open_heat.value, seen, weight)  # type: ignore[union-attr]
        for name, seen in heats.items()
        if by_name[name].bloom.first_open_heat is not None
    }


def _heats(kind: Kind, days: list[dt.date], past: PastHeat) -> list[float]:
    base, start = base_and_start(kind)
    heats = (past.total(day, base, start) for day in days)
    return [heat for heat in heats if heat is not None]


def base_and_start(kind: Kind) -> tuple[float, str]:
    """The base [degC] above which a kind's heat counts, and the day it counts from."""
    start = kind.bloom.start
    return value_of(kind.bloom.base_c, BASE_C), "season" if start is None else start.value


def _plant_need(
    kind: Kind, by_kind: Mapping[str, OwnNeed], days: list[dt.date], past: PastHeat, weight: float
) -> OwnNeed:
    """A plant's own notes pull the kind's need, which all the garden's notes of that kind have pulled."""
    of_kind = by_kind[kind.name]
    own = own_need(of_kind.used, _heats(kind, days, past), weight)
    seen = of_kind.own if own.own is None else own.own
    return OwnNeed(own.used, of_kind.book, seen, max(own.notes, of_kind.notes))


def _observed(entries: Iterable[Entry], axis: SeasonAxis) -> dict[str, dict[str, dt.date]]:
    """Stages noted in the twelve months of this season and its lead, by plant."""
    seen: dict[str, dict[str, dt.date]] = {}
    last = axis.day(axis.next.first)
    for entry in entries:
        if entry.what == "bloom" and entry.plant and entry.stage and 0 <= axis.day(entry.on) < last:
            seen.setdefault(entry.plant, {})[entry.stage] = entry.on
    return seen


def _forecast(
    plant: Plant,
    kind: Kind,
    library: Library,
    weather: SeasonWeather,
    pace: Pace,
    need: OwnNeed,
    offset: float,
    observed: Mapping[str, dt.date],
) -> BloomForecast:
    axis, ensemble = weather.axis, weather.now
    base, start = base_and_start(kind)
    first_day = start_day(axis, start)
    by_heat = ensemble.spread(weather.now_heat.day_reached(base, first_day, need.used)) + offset
    doubt = departures(ensemble.draws, kind.name, plant.id)
    first_open = by_heat + doubt * value_of(kind.bloom.spread_days, SPREAD_DAYS)
    stages = _stages(kind, axis, pace, first_open, observed)
    ripe, picked = _harvest(plant, kind, library, weather, pace, stages[1], doubt)
    usual = weather.usual_heat.day_reached(base, first_day, need.used)
    return BloomForecast(
        plant=plant.id,
        first_open=stages[0],
        full=stages[1],
        end=stages[2],
        ripe=ripe,
        picked=picked,
        observed=dict(observed),
        basis=_basis(kind, need),
        own_notes=need.notes,
        heat_need=need.used,
        heat_base=base,
        heat_now=weather.now_heat.to_date(base, first_day),
        normal_first_open=float(np.median(usual)) + offset,
        book_need=need.book,
        own_need=need.own,
    )


def _stages(
    kind: Kind, axis: SeasonAxis, pace: Pace, first_open: FloatArray, observed: Mapping[str, dt.date]
) -> tuple[FloatArray, FloatArray, FloatArray]:
    """First open, full and end; a noted stage replaces its date and moves what follows it."""
    to_full = value_of(kind.bloom.full_after_days, FULL_AFTER_DAYS)
    length = max(value_of(kind.bloom.length_days, LENGTH_DAYS), to_full)

    def noted(stage: str) -> FloatArray | None:
        return np.full_like(first_open, axis.day(observed[stage])) if stage in observed else None

    if "none this year" in observed:
        never = np.full_like(first_open, np.inf)
        return never, never, never
    end_noted, full_noted, open_noted = noted("petal fall"), noted("full bloom"), noted("first open")
    if open_noted is not None:
        first_open = open_noted
    elif full_noted is not None:
        first_open = full_noted - to_full
    elif end_noted is not None:
        first_open = end_noted - length
    full = pace.after(first_open, to_full) if full_noted is None else full_noted
    end = pace.after(full, length - to_full) if end_noted is None else end_noted
    return first_open, np.minimum(full, end), end


def _harvest(
    plant: Plant,
    kind: Kind,
    library: Library,
    weather: SeasonWeather,
    pace: Pace,
    full: FloatArray,
    doubt: FloatArray,
) -> tuple[FloatArray | None, FloatArray | None]:
    """First ripe and end of picking, (draws,); None for kinds of which nothing is picked."""
    harvest = kind.harvest
    spread = doubt * value_of(harvest.spread_days, RIPE_SPREAD_DAYS)
    if harvest.after_full_bloom_days is not None:
        if plant.sex == "male":
            return None, None
        later = _cultivar_days(library, kind, plant, "harvest_offset_days")
        ripe = full + harvest.after_full_bloom_days.value + later + spread
    elif harvest.from_heat is not None:
        start = weather.axis.day(weather.axis.start)
        reached = weather.now_heat.day_reached(BASE_C, start, harvest.from_heat.value)
        ripe = weather.now.spread(reached) + spread
    else:
        return None, None
    return ripe, ripe + value_of(harvest.length_days, PICK_DAYS)


def _cultivar_days(library: Library, kind: Kind, plant: Plant, field: str) -> float:
    found = library.cultivar(kind, plant.cultivar) if plant.cultivar else None
    fact: Fact[float] | None = getattr(found[1], field) if found else None
    return value_of(fact, 0.0)


def _basis(kind: Kind, need: OwnNeed) -> str:
    if need.notes:
        return f"own record, {need.notes} spring{'s' if need.notes > 1 else ''}, with the handbook"
    fact = kind.bloom.first_open_heat
    return "guess" if kind.guessed or fact is None or fact.sure == "guess" else "handbook"
