"""Noted stages of all plants, and stated usual dates, read as levels of warmth."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator, Mapping

import numpy as np

from leafturn.base.arrays import median
from leafturn.base.value import Value
from leafturn.bloom.notes.level_notes import LevelNote
from leafturn.bloom.priors.prior import BloomPrior
from leafturn.bloom.priors.response import level_on
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.bloom.site_years import ENOUGH
from leafturn.bloom.stages import Lengths
from leafturn.garden.model import Plant
from leafturn.journal.entries import BloomNote, Entry
from leafturn.journal.noted import of_kind
from leafturn.season.axis import SeasonAxis, date_in
from leafturn.season.stage_duration import rate_at

MOST_NOTES = 10  # of one plant, those nearest in time; older ones hardly count any more
MOST_IN_ALL = 300  # of a garden, the latest: more would make the sums slow and change nothing
FAR_OFF_DAYS = 120  # a note so far from the usual day is of another flowering
AROUND_DAYS = 7
STATED_DAYS = 3.0  # [d] how far a usual date stated in the garden file may lie off; guess

LEAF = " leaf"  # a plant's leaf-out is foretold beside its bloom, under its id and this


class Unused(Value, kw_only=False):
    """A note that moved nothing, and why."""

    plant: str
    on: dt.date
    why: str


class Observation(Value, kw_only=False):
    """A note as it counts: the plant, the day, the stage noted, and what it says of the first flower."""

    note: LevelNote
    plant: str
    on: dt.date
    stage: str


class _Seen(Value, kw_only=False):
    """A note before its warmth is looked up.

    `day` is the day number of the first flower or leaf; `back` how many days before the note that was, and
    how far they stray.
    """

    entry: BloomNote
    target: str
    season: int
    day: float
    back: tuple[float, float]

    @property
    def rank(self) -> tuple[float, dt.date]:
        """Of several notes of a season the lowest counts: that nearest the first flower, then the oldest."""
        return abs(self.back[0]), self.entry.on


class Observations:
    """All notes of a garden that tell when its plants open or come into leaf.

    Parameters
    ----------
    priors : mapping of target to BloomPrior
    lengths : mapping of plant id to Lengths
    """

    def __init__(
        self, weather: SeasonWeather, priors: Mapping[str, BloomPrior], lengths: Mapping[str, Lengths]
    ) -> None:
        self._weather = weather
        self._priors = priors
        self._lengths = lengths
        self.unused: list[Unused] = []

    def read(self, entries: Iterable[Entry], plants: Iterable[Plant], before: int) -> list[Observation]:
        """What counts, oldest first: of each plant and season the earliest stage noted.

        Parameters
        ----------
        entries : iterable of Entry
            Notes not taken back.
        plants : iterable of Plant
            For usual dates stated in the garden file.
        before : int [day number]
            Of this season: notes from this day of its axis on are of the next.
        """
        best: dict[tuple[str, int, str | None], _Seen] = {}
        for entry in of_kind(entries, BloomNote):
            found = self._seen(entry, before)
            if found is not None:
                key = (found.target, found.season, entry.by)
                if key not in best or found.rank < best[key].rank:
                    best[key] = found
        kept: list[_Seen] = []
        of_target: dict[str, int] = {}
        for one in sorted(best.values(), key=lambda one: one.entry.on)[::-1]:
            of_target[one.target] = of_target.get(one.target, 0) + 1
            if of_target[one.target] <= MOST_NOTES and len(kept) < MOST_IN_ALL:
                kept.append(one)
        return [*self._stated(plants), *map(self._observation, reversed(kept))]

    def _seen(self, entry: BloomNote, before: int) -> _Seen | None:
        """What a note says of its plant's bloom or leaf-out; None if of neither, or of a time to come."""
        plant = entry.plant
        if entry.stage in ("none this year", "leaf fall"):
            return None
        leaf = entry.stage == "bud break" or (entry.stage is None and entry.bbch in range(7, 13))
        target = plant + LEAF if leaf else plant
        if target not in self._priors:
            if plant not in self._priors and not leaf:
                self.unused.append(Unused(plant, entry.on, "nothing is known of when it opens"))
            return None
        back = (0.0, 1.0) if leaf else self._lengths[plant].after_first_open(entry)
        if back is None:
            return None
        season, day = self._place(entry.on, self._priors[target])
        opened = day - back[0] / self._rate(day - back[0] / 2) if back[0] else day
        if season == self._weather.axis.year and self._weather.axis.day(entry.on) >= before:
            return None
        usual = self._priors[target].typical_day
        if abs(opened - usual) > FAR_OFF_DAYS:
            self.unused.append(Unused(plant, entry.on, "it lies months from when its kind opens"))
            return None
        late = 0.0 if leaf else self._lengths[plant].late
        return _Seen(entry, target, season, opened - late, back)

    def _observation(self, seen: _Seen) -> Observation:
        entry, (_, stray) = seen.entry, seen.back
        note = self._note(seen.target, seen.season, seen.day, stray, entry.by)
        return Observation(note, entry.plant, entry.on, entry.stage or f"BBCH {entry.bbch}")

    def _rate(self, day: float) -> float:
        """How many usual days of a stage pass in a day of the usual weather about a day number."""
        usual = self._weather.usual.tmean.mean(axis=0)
        middle = int(day) + self._weather.axis.day(self._weather.axis.start)
        around = usual[max(middle - AROUND_DAYS, 0) : max(middle + AROUND_DAYS, 1)]
        return float(rate_at(around).mean()) if len(around) else 1.0

    def season_of(self, on: dt.date, prior: BloomPrior) -> int | None:
        """The season that a date of a kind's bloom belongs to; none where it lies months from any."""
        season, day = self._place(on, prior)
        return season if abs(day - prior.typical_day) <= FAR_OFF_DAYS else None

    def _place(self, on: dt.date, prior: BloomPrior) -> tuple[int, float]:
        """The season a date falls in for a kind, and its day number there (1 January 1; south: 1 July 1)."""
        held = SeasonAxis.holding(on, self._weather.axis.southern)
        _, season, day = min(
            (abs(day - prior.typical_day), axis.year, day)
            for axis in (held.before, held, held.next)
            for day in [(on - axis.start).days + 1.0]
        )
        return season, day

    def _note(
        self, target: str, season: int, day: float, stray: float, by: str | None, lasting: bool = False
    ) -> LevelNote:
        level, growth, variance = self._level(target, season, day, lasting)
        return LevelNote(
            target=target, season=season, level=level, day=day, growth=growth, weather_variance=variance,
            reading_variance=(stray * growth) ** 2, lasting=lasting, by=by,
        )  # fmt: skip

    def _level(self, target: str, season: int, day: float, lasting: bool) -> tuple[float, float, float]:
        """Level by noon of a day, its growth, and its variance where that season's weather is not known."""
        weather, timing = self._weather, self._priors[target].response
        on_axis = day - 1 + (weather.axis.start - weather.axis.first).days
        if season == weather.axis.year and not lasting:
            levels, growth = weather.warmth.level_at(timing, on_axis)
        elif not lasting and weather.past is not None and weather.past.known(season, day) >= ENOUGH:
            return (*level_on(weather.past_sums(timing, season), day), 0.0)
        else:
            levels, growth = weather.usual_warmth.level_at(timing, on_axis)
        return median(levels), median(growth), 0.0 if lasting else float(np.var(levels))

    def _stated(self, plants: Iterable[Plant]) -> Iterator[Observation]:
        """Usual dates of first open that the garden file states."""
        axis = self._weather.axis
        for plant in plants:
            if plant.opens is None or plant.id not in self._priors:
                continue
            on = date_in(axis.year, plant.opens)
            season, day = self._place(on, self._priors[plant.id])
            note = self._note(plant.id, season, day, STATED_DAYS, None, lasting=True)
            yield Observation(note, plant.id, on, "stated in the garden file")
