"""The garden's notes read for one season: levels to expect, stages seen, springs noted, and what was odd."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import cached_property
from types import MappingProxyType

from leafturn.base import day_words, prose
from leafturn.base.bloom_stages import FLOWERING_NAMES
from leafturn.bloom.notes.level_notes import LevelNote
from leafturn.bloom.notes.observations import LEAF, Observation, Observations
from leafturn.bloom.notes.one_plant import QUESTIONED
from leafturn.bloom.notes.spring import common_share
from leafturn.bloom.notes.thresholds import PLACE, PLACE_BY_LATITUDE, Thresholds, thresholds
from leafturn.bloom.priors.stated import stated
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.bloom.targets import Targets
from leafturn.journal.entries import BloomNote, Entry
from leafturn.journal.noted import of_kind
from leafturn.season.axis import SeasonAxis


class SeasonNotes:
    """What a garden's notes say of one season.

    Parameters
    ----------
    targets : Targets
    weather : SeasonWeather
        Of the season that is meant.
    noted : sequence of Observation
        The notes that count.
    observed : mapping of plant id to dates by stage
        What was seen of this season's bloom and leaves.
    unused : tuple of str
        One sentence for each note that moved nothing.
    only : callable, optional
        Which targets' levels are wanted; all without it.

    Attributes
    ----------
    known : Thresholds
        Levels to expect, by target.
    """

    def __init__(
        self,
        targets: Targets,
        weather: SeasonWeather,
        noted: Sequence[Observation],
        observed: Mapping[str, Mapping[str, dt.date]] = MappingProxyType({}),
        unused: tuple[str, ...] = (),
        only: Callable[[str], bool] = lambda target: True,
    ) -> None:
        self._targets, self._weather, self._noted = targets, weather, noted
        self._observed, self.unused = observed, unused
        self._year = weather.axis.year
        self.noted_kinds = frozenset(targets.names[one.note.target] for one in noted)
        notes = [one.note for one in noted]
        told_of = {note.target for note in notes}
        spreads = {t: here.levels for t, here in targets.here.items() if t in told_of or only(t)}
        kinds = {target: targets.names[target] for target in spreads}
        common = common_share(notes, spreads, kinds, self._year, stated().spreads.common)
        place = PLACE_BY_LATITUDE if weather.now.by_latitude else PLACE
        self.known: Thresholds = thresholds(spreads, kinds, notes, self._year, common, place)
        self._by_target: dict[str, list[tuple[Observation, float, float]]] = {}
        for one, weight, miss in zip(noted, self.known.weights, self.known.misses, strict=True):
            self._by_target.setdefault(one.note.target, []).append((one, float(weight), float(miss)))

    @classmethod
    def read(cls, targets: Targets, weather: SeasonWeather) -> SeasonNotes:
        """All notes of a garden."""
        axis, entries = weather.axis, targets.day.entries
        reader = Observations(weather, targets.priors, targets.lengths)
        noted = reader.read(entries, targets.living, axis.day(axis.next.first))
        unused = tuple(
            f"{one.plant} noted on {day_words.full_day(one.on)} is not used: {one.why}."
            for one in reader.unused
        )
        return cls(targets, weather, noted, _observed_stages(entries, reader, targets, axis), unused)

    def of_earlier_springs(self, only: Callable[[str], bool]) -> SeasonNotes:
        """The same without what was noted this season, and with no more levels than are wanted."""
        if self.are_earlier:
            return self
        return SeasonNotes(self._targets, self._weather, self._earlier, only=only)

    @property
    def are_earlier(self) -> bool:
        """Whether nothing was noted this season."""
        return len(self._earlier) == len(self._noted) and not self._observed

    @cached_property
    def _earlier(self) -> list[Observation]:
        return [one for one in self._noted if one.note.season != self._year or one.note.lasting]

    def of(self, target: str) -> list[LevelNote]:
        """The notes of one target."""
        return [one.note for one, _, _ in self._by_target.get(target, [])]

    def observed(self, plant: str) -> Mapping[str, dt.date]:
        """Stages noted of a plant in this season's bloom and leaves."""
        return self._observed.get(plant, {})

    def springs(self, kind: str, plant: str) -> tuple[int, int]:
        """Earlier springs noted of a plant, and of others of its kind."""
        of_kind = self._springs.get(kind, {})
        kin = {spring for other, springs in of_kind.items() if other != plant for spring in springs}
        return len(of_kind.get(plant, set())), len(kin)

    def questioned(self, plant: str) -> tuple[str, ...]:
        """One sentence for each note of earlier springs that counts for little."""
        return tuple(
            _sentence(one, miss)
            for one, weight, miss in self._by_target.get(plant, [])
            if weight < QUESTIONED and one.note.season != self._year
        )

    @cached_property
    def _springs(self) -> dict[str, dict[str, set[int]]]:
        """Earlier springs of bloom notes, by kind and plant."""
        found: dict[str, dict[str, set[int]]] = {}
        for one in self._noted:
            if one.note.season != self._year and not one.note.target.endswith(LEAF):
                of_kind = found.setdefault(self._targets.names[one.note.target], {})
                of_kind.setdefault(one.plant, set()).add(one.note.season)
        return found


def _observed_stages(
    entries: Iterable[Entry], reader: Observations, targets: Targets, axis: SeasonAxis
) -> dict[str, dict[str, dt.date]]:
    """Stages noted of this season's bloom and leaves, by plant."""
    seen: dict[str, dict[str, dt.date]] = {}
    for entry in of_kind(entries, BloomNote):
        prior = targets.priors.get(entry.plant)
        if not entry.stage or prior is None or abs(entry.on.year - axis.year) > 1:
            continue
        by_flower = entry.stage in FLOWERING_NAMES
        held = SeasonAxis.holding(entry.on, axis.southern).year
        season = reader.season_of(entry.on, prior) if by_flower else held
        if season == axis.year:
            seen.setdefault(entry.plant, {})[entry.stage] = entry.on
    return seen


def _sentence(one: Observation, miss: float) -> str:
    """What is odd about a note, to be read by whoever wrote it."""
    days = prose.count(abs(miss) / one.note.growth, "day")
    side = "later" if miss > 0 else "earlier"
    return (
        f"{one.plant} noted at {one.stage} on {day_words.full_day(one.on)}: about {days} {side} than "
        "its other notes and the book say for that spring. It counts for little; look whether the date "
        "is right."
    )
