"""When each plant opens, is in full bloom, fades and ripens this season."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping

import numpy as np
from numpy.typing import NDArray

from leafturn.bloom.clock import BASE_C, HeatClock, clock_of
from leafturn.bloom.kinship import Spring, learnt_correlation, read_spring
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
RATE_DAYS = 5  # over so many days the heat of a day is averaged, to turn heat into days


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
    noted = {plant: days for plant, days in as_kind.items() if plant in clocks}
    heats = {plant: _heats(clocks[plant], days, weather.past) for plant, days in noted.items()}
    kind_needs = _needs_by_kind(kinds, heats, weight)
    needs = {
        plant.id: _plant_need(kind_needs[kinds[plant.id].name], heats.get(plant.id, []), weight)
        for plant in garden.plants
        if _blooms(plant, kinds[plant.id])
    }
    foretold = {
        plant: weather.now.spread(_by_heat(weather, clocks[plant], need.used)) + offsets[plant]
        for plant, need in needs.items()
    }
    correlation = learnt_correlation(_past_springs(kinds, clocks, needs, noted, weather.past))
    spring = read_spring(_this_spring(kinds, foretold, observed, weather.axis), correlation)
    return {
        plant.id: _forecast(
            plant,
            kinds[plant.id],
            library,
            weather,
            pace,
            clocks[plant.id],
            needs[plant.id],
            offsets[plant.id],
            foretold[plant.id],
            spring,
            observed.get(plant.id, {}),
        )
        for plant in garden.plants
        if plant.id in needs
    }


def _blooms(plant: Plant, kind: Kind) -> bool:
    return plant.state not in ("gone", "dead standing") and kind.bloom.first_open_heat is not None


def _by_heat(weather: SeasonWeather, clock: HeatClock, need: float) -> FloatArray:
    chill = weather.chill if clock.portions is not None else None
    return clock.day_reached(weather.now_heat, chill, need)


def _spread(kind: Kind) -> float:
    """Standard deviation [d] of first open about what heat foretells."""
    return value_of(kind.bloom.spread_days, SPREAD_DAYS)


def _this_spring(
    kinds: Mapping[str, Kind],
    foretold: Mapping[str, FloatArray],
    observed: Mapping[str, Mapping[str, dt.date]],
    axis: SeasonAxis,
) -> dict[str, list[float]]:
    """By kind, how much later than foretold each noted plant opened [standard deviations]."""
    seen: dict[str, list[float]] = {}
    for plant, days in foretold.items():
        opened, middle = observed.get(plant, {}).get("first open"), float(np.median(days))
        if opened is not None and np.isfinite(middle):
            late = (axis.day(opened) - middle) / _spread(kinds[plant])
            seen.setdefault(kinds[plant].name, []).append(float(np.clip(late, -3, 3)))
    return seen


def _past_springs(
    kinds: Mapping[str, Kind],
    clocks: Mapping[str, HeatClock],
    needs: Mapping[str, OwnNeed],
    noted: Mapping[str, list[dt.date]],
    past: PastHeat,
) -> dict[int, dict[str, float]]:
    """By season and kind, how much later than its need each noted bloom came [standard deviations]."""
    springs: dict[int, dict[str, list[float]]] = {}
    for plant, days in noted.items():
        if plant not in needs:
            continue
        for day in days:
            heat = past.total(day, clocks[plant])
            before = past.total(day - dt.timedelta(days=RATE_DAYS), clocks[plant])
            if heat is None or before is None:
                continue
            rate = max((heat - before) / RATE_DAYS, 1.0)
            late = (heat - needs[plant].used) / (rate * _spread(kinds[plant]))
            springs.setdefault(day.year, {}).setdefault(kinds[plant].name, []).append(late)
    return {year: {k: float(np.mean(z)) for k, z in seen.items()} for year, seen in springs.items()}


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
    foretold: FloatArray,
    spring: Spring,
    observed: Mapping[str, dt.date],
) -> BloomForecast:
    axis, ensemble = weather.axis, weather.now
    doubt = spring.departures(ensemble.draws, kind.name, plant.id)
    first_open = foretold + doubt * _spread(kind)
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
        moved_days=0.0 if "first open" in observed else float(np.mean(doubt)) * _spread(kind),
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
