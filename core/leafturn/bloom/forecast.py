"""When each plant opens, is in full bloom, fades and ripens this season."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping

import numpy as np
from numpy.typing import NDArray

from leafturn.bloom.clock import BASE_C, HeatClock, clock_of
from leafturn.bloom.doubt import departures
from leafturn.bloom.model import BloomForecast
from leafturn.bloom.own_needs import OwnNeed, PastHeat, first_open_notes, own_need
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.garden.model import Garden, Plant
from leafturn.garden.numbers import Numbers
from leafturn.journal.entries import Entry
from leafturn.kinds.library import Library
from leafturn.kinds.model import Fact, Kind
from leafturn.season.axis import SeasonAxis
from leafturn.season.pace import Pace

FloatArray = NDArray[np.float64]

# Used where a kind states none; each is a guess and is overridden by the library.
FULL_AFTER_DAYS = 4.0
LENGTH_DAYS = 12.0
SPREAD_DAYS = 4.0
PICK_DAYS = 14.0
RIPE_SPREAD_DAYS = 6.0


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
    clocks = {plant.id: clock_of(library, kinds[plant.id], plant) for plant in garden.plants}
    heats = {
        plant: _heats(clocks[plant], days, weather.past) for plant, days in as_kind.items() if plant in clocks
    }
    kind_needs = _needs_by_kind(kinds, heats, weight)
    forecasts: dict[str, BloomForecast] = {}
    for plant in garden.plants:
        kind = kinds[plant.id]
        if plant.state in ("gone", "dead standing") or kind.bloom.first_open_heat is None:
            continue
        need = _plant_need(kind_needs[kind.name], heats.get(plant.id, []), weight)
        seen = observed.get(plant.id, {})
        clock = clocks[plant.id]
        forecasts[plant.id] = _forecast(
            plant, kind, library, weather, pace, clock, need, offsets[plant.id], seen
        )
    return forecasts


def value_of(fact: Fact[float] | None, otherwise: float) -> float:
    """A fact's value, or what serves where nothing is known."""
    return otherwise if fact is None else fact.value


def _needs_by_kind(
    kinds: Mapping[str, Kind], heats: Mapping[str, list[float]], weight: float
) -> dict[str, OwnNeed]:
    """The need of each kind that flowers, pulled by all the garden's notes of it."""
    by_name: dict[str, list[float]] = {}
    books: dict[str, float] = {}
    for plant, kind in kinds.items():
        if kind.bloom.first_open_heat is not None:
            books[kind.name] = kind.bloom.first_open_heat.value
            by_name.setdefault(kind.name, []).extend(heats.get(plant, []))
    return {name: own_need(books[name], seen, weight) for name, seen in by_name.items()}


def _heats(clock: HeatClock, days: list[dt.date], past: PastHeat) -> list[float]:
    heats = (past.total(day, clock) for day in days)
    return [heat for heat in heats if heat is not None]


def _plant_need(of_kind: OwnNeed, heats: list[float], weight: float) -> OwnNeed:
    """A plant's own notes pull the kind's need, which all the garden's notes of that kind have pulled."""
    own = own_need(of_kind.used, heats, weight)
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
    clock: HeatClock,
    need: OwnNeed,
    offset: float,
    observed: Mapping[str, dt.date],
) -> BloomForecast:
    axis, ensemble = weather.axis, weather.now
    waits = clock.portions is not None
    reached = clock.day_reached(weather.now_heat, weather.chill if waits else None, need.used)
    by_heat = ensemble.spread(reached) + offset
    doubt = departures(ensemble.draws, kind.name, plant.id)
    first_open = by_heat + doubt * value_of(kind.bloom.spread_days, SPREAD_DAYS)
    stages = _stages(kind, axis, pace, first_open, observed)
    ripe, picked = _harvest(plant, kind, library, weather, pace, stages[1], doubt)
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
        heat_base=clock.base,
        heat_now=weather.now_heat.to_date(clock.base, clock.first_day(axis)),
        clock=clock,
        late_days=offset,
        chill_short=weather.chill.short_of(clock.portions) if clock.portions is not None else None,
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
