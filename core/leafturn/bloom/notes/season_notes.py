"""The garden's notes read for one season: levels to expect, stages seen, springs noted, and what was odd."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable

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

    Attributes
    ----------
    known : Thresholds
        Levels to expect, by target.
    """

    def __init__(self, targets: Targets, weather: SeasonWeather) -> None:
        axis, entries = weather.axis, targets.day.entries
        self._year, self._names = axis.year, targets.names
        reader = Observations(weather, targets.priors, targets.lengths)
        noted = reader.read(entries, targets.living, axis.day(axis.next.first))
        spreads = {target: here.levels for target, here in targets.here.items()}
        notes = [one.note for one in noted]
        common = common_share(notes, spreads, targets.names, axis.year, stated().spreads.common)
        place = PLACE_BY_LATITUDE if weather.now.by_latitude else PLACE
        self.known: Thresholds = thresholds(spreads, targets.names, notes, axis.year, common, place)
        self._by_target: dict[str, list[tuple[Observation, float, float]]] = {}
        for one, weight, miss in zip(noted, self.known.weights, self.known.misses, strict=True):
            self._by_target.setdefault(one.note.target, []).append((one, float(weight), float(miss)))
        self._springs = self._springs_of(noted)
        self._observed = self._observed_stages(entries, reader, targets, axis)
        self.noted_kinds = frozenset(targets.names[one.note.target] for one in noted)
        self.unused = tuple(
            f"{one.plant} noted on {day_words.full_day(one.on)} is not used: {one.why}."
            for one in reader.unused
        )

    def of(self, target: str) -> list[LevelNote]:
        """The notes of one target."""
        return [one.note for one, _, _ in self._by_target.get(target, [])]

    def observed(self, plant: str) -> dict[str, dt.date]:
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

    def _springs_of(self, noted: Iterable[Observation]) -> dict[str, dict[str, set[int]]]:
        """Earlier springs of bloom notes, by kind and plant."""
        found: dict[str, dict[str, set[int]]] = {}
        for one in noted:
            if one.note.season != self._year and not one.note.target.endswith(LEAF):
                of_kind = found.setdefault(self._names[one.note.target], {})
                of_kind.setdefault(one.plant, set()).add(one.note.season)
        return found

    @staticmethod
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
