"""When each plant opens, is in full bloom, fades and ripens this season."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping

import numpy as np
from numpy.typing import NDArray

from leafturn import wording
from leafturn.bloom.clock import BASE_C, HeatClock, clock_of
from leafturn.bloom.doubt import draws_of
from leafturn.bloom.kinship import Spring, learnt_correlation, read_spring
from leafturn.bloom.model import BloomForecast
from leafturn.bloom.need_from_notes import SHARED, BookNeed, HeatNote, UsedNeed, need_from_notes
from leafturn.bloom.own_needs import heat_notes
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
    noted = list(entries)
    observed = _observed(noted, weather.axis)
    pace = Pace(weather.now)
    kinds = {plant.id: library.match(plant.kind).kind for plant in garden.plants}
    offsets = {
        plant.id: _cultivar_days(library, kinds[plant.id], plant, "bloom_offset_days")
        for plant in garden.plants
    }
    clocks = {plant.id: clock_of(library, kinds[plant.id], plant) for plant in garden.plants}
    notes = heat_notes(noted, weather.axis.first, clocks, offsets, weather.past)
    of_kind: dict[str, list[HeatNote]] = {}
    for note in notes:
        of_kind.setdefault(kinds[note.plant].name, []).append(note)
    weight = Numbers(garden.rules)["book_weight"]
    needs = {
        plant.id: need_from_notes(book, plant.id, of_kind.get(kinds[plant.id].name, []))
        for plant in garden.plants
        if (book := _book_need(plant, kinds[plant.id], weight)) is not None
    }
    foretold = {
        plant: weather.now.spread(_by_heat(weather, clocks[plant], need.used)) + offsets[plant]
        for plant, need in needs.items()
    }
    correlation = learnt_correlation(_past_springs(kinds, needs, notes))
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
            len({note.on.year for note in of_kind.get(kinds[plant.id].name, [])}),
        )
        for plant in garden.plants
        if plant.id in needs
    }


def _book_need(plant: Plant, kind: Kind, weight: float) -> BookNeed | None:
    """What the library says of a plant's need; None for what does not bloom."""
    if plant.state in ("gone", "dead standing") or kind.bloom.first_open_heat is None:
        return None
    return BookNeed(heat=kind.bloom.first_open_heat.value, spread_days=_spread(kind), weight=weight)


def _need_doubt(kind: Kind, plant: Plant, need: UsedNeed, draws: int) -> FloatArray:
    """Days by which the need itself may be off, (draws,); most of it is the same for all plants of a kind."""
    doubt = max(need.spread_days**2 - _spread(kind) ** 2, 0.0) ** 0.5
    shared, own = draws_of(draws, f"need {kind.name}"), draws_of(draws, f"need {kind.name} {plant.id}")
    return np.asarray(doubt * (SHARED**0.5 * shared + (1 - SHARED) ** 0.5 * own))


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
    kinds: Mapping[str, Kind], needs: Mapping[str, UsedNeed], notes: Iterable[HeatNote]
) -> dict[int, dict[str, float]]:
    """By season and kind, how much later than its need each noted bloom came [standard deviations]."""
    springs: dict[int, dict[str, list[float]]] = {}
    for note in notes:
        if note.plant in needs:
            late = (note.heat - needs[note.plant].used) / (note.gain * _spread(kinds[note.plant]))
            springs.setdefault(note.on.year, {}).setdefault(kinds[note.plant].name, []).append(late)
    return {year: {k: float(np.mean(z)) for k, z in seen.items()} for year, seen in springs.items()}


def value_of(fact: Fact[float] | None, otherwise: float) -> float:
    """A fact's value, or what serves where nothing is known."""
    return otherwise if fact is None else fact.value


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
    need: UsedNeed,
    offset: float,
    foretold: FloatArray,
    spring: Spring,
    observed: Mapping[str, dt.date],
    springs: int,
) -> BloomForecast:
    axis, ensemble = weather.axis, weather.now
    doubt = spring.departures(ensemble.draws, kind.name, plant.id)
    first_open = foretold + doubt * _spread(kind) + _need_doubt(kind, plant, need, ensemble.draws)
    stages = _stages(kind, axis, pace, first_open, observed)
    ripe, picked = _harvest(plant, kind, library, weather, pace, stages[1], doubt)
    return BloomForecast(
        plant=plant.id,
        first_open=stages[0],
        full=stages[1],
        end=stages[2],
        ripe=ripe,
        picked=picked,
        ripens=kind.harvest.ripens,
        observed=dict(observed),
        basis=_basis(kind, springs),
        own_notes=springs,
        heat_need=need.used,
        heat_base=clock.base,
        heat_now=weather.now_heat.to_date(clock.base, clock.first_day(axis)),
        clock=clock,
        late_days=offset,
        moved_days=0.0 if "first open" in observed else float(np.mean(doubt)) * _spread(kind),
        chill_short=weather.chill.short_of(clock.portions) if clock.portions is not None else None,
        book_need=need.book,
        own_need=need.own,
        questioned=need.questioned,
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


def _basis(kind: Kind, springs: int) -> str:
    """What the need rests on; `springs` is how many earlier springs' notes of the kind have pulled it."""
    if springs:
        return f"own record, {wording.count(springs, 'spring')}, with the handbook"
    fact = kind.bloom.first_open_heat
    return "guess" if kind.guessed or fact is None or fact.sure == "guess" else "handbook"
