"""The level of warmth at which each plant opens, from its kind and from every note of the garden.

A level is the sum of parts, all normal: the kind's as books or records have it; what the place adds, the same
for all kinds; what the kind does here and what is the plant's own; what drifts over the years (another branch
watched, the plant growing old); how early a watcher calls things open; and the spring's chance, part of it
common to all kinds, part to the kind. Their sizes come from open records, so what to expect after some notes
follows from the rules of the multivariate normal distribution: recent notes count more, each further note
less, notes of one kind tell of the others through the place and the spring. A note far from what the others
say loses weight, as under a Student distribution. Notes that agree among themselves win over the book.

References
----------
.. [1] Rasmussen, C. E. and Williams, C. K. I. (2006). Gaussian processes for machine learning. MIT Press,
   ch. 2 (the formulas).
.. [2] Lange, K. L., Little, R. J. A. and Taylor, J. M. G. (1989). Robust statistical modeling using the t
   distribution. J. Am. Stat. Assoc. 84: 881-896 (weights).
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Mapping, Sequence

import numpy as np
from msgspec.structs import replace

from leafturn.base.arrays import FloatArray, IndexArray
from leafturn.base.value import Value
from leafturn.bloom.notes.agreement import lasting_uncertainty, scatter
from leafturn.bloom.notes.level_notes import Level, LevelNote
from leafturn.bloom.priors.prior import LevelSpreads

FREEDOM = 5.0  # of the Student distribution of one spring's chance; common practice
ROUNDS = 4
SETTLED = 0.02  # weights that move no further than this are left

# Variance of what a place adds to all kinds. Korean series of seven kinds, noted beside the weather
# station, give 0.0003 to 0.0017; gardens lie farther from their station, so a little more: guess.
PLACE = 0.0025
PLACE_BY_LATITUDE = 0.16  # the same where the year is guessed from the latitude: 4 C either way; guess
OF_KIND_HERE = 0.8  # of the uncertainty left, what all plants of the kind share here; guess
OF_KIND = 0.3  # of a spring's chance, what plants of one kind share beyond what all kinds do; guess
WATCHER = 0.003  # variance between two who call one plant open, about two days; guess
SAME_WEATHER = 0.7  # of the uncertainty of a spring without weather, what all its notes share; guess


class Thresholds(Value, eq=False):
    """Levels of all targets, and what the notes turned out to be worth.

    Parameters
    ----------
    levels : mapping of target to Level
    place : (float, float)
        What the place adds to all levels, and its standard deviation.
    weights : (notes,)
        1 for a note that fits the others, towards 0 for one far off.
    misses : (notes,)
        How much more warmth each had than kind and other notes say, a logarithm.
    """

    levels: dict[str, Level]
    place: tuple[float, float]
    weights: FloatArray
    misses: FloatArray

    @property
    def place_days(self) -> tuple[float, float]:
        """What the place adds in days of a usual April, and its standard deviation."""
        growth = 0.03  # [1/day] of a level about apple bloom
        return self.place[0] / growth, self.place[1] / growth


def thresholds(
    spreads: Mapping[str, LevelSpreads],
    kinds: Mapping[str, str],
    notes: Sequence[LevelNote],
    season: int,
    common: float,
    place: float = PLACE,
) -> Thresholds:
    """Levels to expect in a season.

    Parameters
    ----------
    spreads : mapping of target to LevelSpreads
        Of its kind in this climate.
    kinds : mapping of target to str
    notes : sequence of LevelNote
        Of targets in `spreads`.
    season : int
    common : float
        Share of a spring's chance that is common to all kinds.
    place : float
        Variance of what the place adds to all kinds; more where its warmth is guessed.
    """
    model = _Model(spreads, kinds, notes, common, place)
    pulls = model.solved()
    before = pulls
    if any(note.season == season and not note.lasting for note in notes):
        before = model.solved(without=season)
    # what is learnt of the place holds for kinds not noted, so it is learnt with the book at its word
    book = model.at_its_word(pulls)
    book_before = book if before is pulls else model.at_its_word(before)
    added = model.place(book)
    # what is not noted itself is known as well as any other plant of its kind that is not
    alike: dict[tuple[str, LevelSpreads], Level] = {}
    levels: dict[str, Level] = {}
    for target, spread in spreads.items():
        key = (kinds[target], spread)
        if target in model.of_target:
            levels[target] = model.level(target, season, pulls, before, added[1] ** 2)
        else:
            if key not in alike:
                now, then = (pulls, before) if kinds[target] in model.kinds_observed else (book, book_before)
                alike[key] = model.level(target, season, now, then, added[1] ** 2)
            levels[target] = alike[key]
    return Thresholds(levels=levels, place=added, weights=pulls.weights, misses=pulls.misses)


class _Solved(Value, eq=False, kw_only=False):
    """The inverse of the notes' covariance and what it makes of their departures."""

    used: IndexArray
    inverse: FloatArray
    pull: FloatArray
    weights: FloatArray
    misses: FloatArray


class _Model:
    """The covariances between notes, and between notes and what is asked."""

    def __init__(
        self,
        spreads: Mapping[str, LevelSpreads],
        kinds: Mapping[str, str],
        notes: Sequence[LevelNote],
        common: float,
        place: float,
    ) -> None:
        self.spreads, self.kinds, self.notes, self.common = spreads, kinds, notes, common
        self.whole_place, guessed = place, max(place - PLACE, 0.0)
        self.of_target: dict[str, list[int]] = {}
        for number, note in enumerate(notes):
            self.of_target.setdefault(note.target, []).append(number)
        self.off = np.array([note.level - spreads[note.target].middle for note in notes])
        own = {target: [notes[n] for n in self.of_target.get(target, ())] for target in spreads}
        self.scatter = {target: scatter(own[target], spreads[target]) for target in spreads}
        self.lasting: dict[str, float] = {}
        self.strangers: dict[str, float] = {}
        self.published: dict[str, float] = {}
        self.place_of: dict[str, float] = {}
        of_kind: dict[str, dict[str, list[LevelNote]]] = {}
        for target, kind in kinds.items():
            of_kind.setdefault(kind, {})[target] = own[target]
        for kind, by_target in of_kind.items():
            spread = spreads[next(iter(by_target))]
            # a place cannot add more to a kind than places differ in it
            share = min(PLACE, spread.lasting / 2)
            self.place_of[kind] = share + guessed
            spread = replace(spread, lasting=spread.lasting - share)
            uncertainty = lasting_uncertainty(by_target, spread, self.scatter)
            self.published[kind], self.lasting[kind], self.strangers[kind] = uncertainty
        names = [kinds[note.target] for note in notes]
        self.code = {name: number for number, name in enumerate(dict.fromkeys([*kinds.values(), *spreads]))}
        self.kind_of = np.array([self.code[name] for name in names])
        self.target_of = np.array([self.code[note.target] for note in notes])
        self.years = np.array([float(note.season) for note in notes])
        self.steady = np.array([note.lasting for note in notes], dtype=bool)
        self.weather = np.sqrt([note.weather_variance for note in notes])
        chance = [spreads[n.target].chance * self.scatter[n.target] for n in notes]
        self.chance = np.where(self.steady, 0.0, chance)
        self.drift = np.array([spreads[n.target].drifting * self.scatter[n.target] for n in notes])
        self.drift_years = np.array([spreads[n.target].drift_years for n in notes])
        self.kinds_observed = frozenset(names)
        self.share = np.sqrt([self.place_of[name] for name in names])
        self.big = np.array([self.lasting[name] for name in names])
        self.plain = np.array([self.published[name] for name in names])
        most = Counter(note.by for note in notes if note.by).most_common(1)
        usual = most[0][0] if most else None
        people = {by: number for number, by in enumerate(dict.fromkeys(n.by for n in notes), 1)}
        self.watcher = np.array([people[n.by] if n.by and n.by != usual else 0 for n in notes])
        alone = (1 - self.common - OF_KIND) * self.chance + (1 - SAME_WEATHER) * self.weather**2
        self.own = np.maximum(alone + np.array([note.reading_variance for note in notes]), 1e-6)

    def _between(self, lasting: FloatArray) -> FloatArray:
        """Covariance of the notes' levels, given what lasts of each one's kind, but for what none shares."""
        same = self.years[:, None] == self.years[None, :]
        same &= ~(self.steady[:, None] | self.steady[None, :])
        kind = self.kind_of[:, None] == self.kind_of[None, :]
        target = self.target_of[:, None] == self.target_of[None, :]
        watcher = (self.watcher[:, None] == self.watcher[None, :]) & (self.watcher[:, None] != 0)
        root = np.sqrt(self.chance)
        apart = np.abs(self.years[:, None] - self.years[None, :]) / self.drift_years[:, None]
        between: FloatArray = self.share[:, None] * self.share[None, :]
        between += kind * OF_KIND_HERE * lasting[:, None]
        between += target * ((1 - OF_KIND_HERE) * lasting[:, None] + self.drift[:, None] * np.exp(-apart))
        between += same * (self.common + OF_KIND * kind) * root[:, None] * root[None, :]
        between += same * SAME_WEATHER * self.weather[:, None] * self.weather[None, :]
        return np.asarray(between + watcher * WATCHER)

    def solved(self, without: int | None = None) -> _Solved:
        """All notes together, or those of other seasons; notes far from the others lose weight by rounds."""
        used = np.arange(len(self.notes))
        if without is not None:
            used = np.flatnonzero((self.years != without) | self.steady)
        levels, own, chance = self.off[used], self.own[used], self.chance[used]
        between = self._between(self.big)[np.ix_(used, used)] if len(used) else np.zeros((0, 0))
        weights, misses = np.ones(len(used)), np.zeros(len(used))
        inverse: FloatArray = np.zeros((0, 0))
        pull: FloatArray = np.zeros(0)
        for _ in range(ROUNDS):
            if not len(used):
                break
            slack = chance * (1 / weights - 1)
            inverse = np.asarray(np.linalg.inv(between + np.diag(own + slack)), dtype=np.float64)
            pull = inverse @ levels
            if len(used) == 1:
                break  # one note has no others that could call it a slip
            alone = 1 / np.diag(inverse)
            misses = pull * alone
            off = misses / np.sqrt(np.maximum(alone - slack, 1e-9))
            settled, weights = weights, np.minimum((FREEDOM + 1) / (FREEDOM + off**2), 1.0)
            if np.abs(settled - weights).max() < SETTLED:
                break
        return _Solved(used, inverse, pull, weights, misses)

    def at_its_word(self, solved: _Solved) -> _Solved:
        """The same notes with the book taken at its word, each with the weight that it has come to."""
        used = solved.used
        if not len(used):
            return solved
        alone = self.own[used] + self.chance[used] * (1 / solved.weights - 1)
        between = self._between(self.plain)[np.ix_(used, used)] + np.diag(alone)
        inverse = np.asarray(np.linalg.inv(between), dtype=np.float64)
        return replace(solved, inverse=inverse, pull=inverse @ self.off[used])

    def _towards(self, target: str, season: int, used: IndexArray) -> FloatArray:
        """Covariance of some notes with the level of a target in a season."""
        spread, kind = self.spreads[target], self.kinds[target]
        scatter, lasting = self.scatter[target], self.lasting[kind]
        same_kind = self.kind_of[used] == self.code[kind]
        mine = self.target_of[used] == self.code[target]
        now = (self.years[used] == season) & ~self.steady[used]
        chance = np.sqrt(self.chance[used] * spread.chance * scatter)
        drift = spread.drifting * scatter * np.exp(-np.abs(self.years[used] - season) / spread.drift_years)
        towards = math.sqrt(self.place_of[kind]) * self.share[used]
        towards += same_kind * OF_KIND_HERE * lasting
        towards += mine * ((1 - OF_KIND_HERE) * lasting + drift)
        towards += now * (self.common + OF_KIND * same_kind) * chance
        # a spring of unknown weather was early or late for all: what it was for one tells of the others
        towards += now * SAME_WEATHER * self.weather[used] ** 2
        return towards

    def place(self, solved: _Solved) -> tuple[float, float]:
        """What the place adds to all levels, and its standard deviation."""
        if not len(solved.used):
            return 0.0, math.sqrt(self.whole_place)
        towards = math.sqrt(self.whole_place) * self.share
        left = self.whole_place - float(towards @ solved.inverse @ towards)
        return float(towards @ solved.pull), math.sqrt(max(left, 0.0))

    def level(
        self, target: str, season: int, solved: _Solved, before: _Solved, place_variance: float
    ) -> Level:
        """The level of one target, and what of its uncertainty others share."""
        spread, kind = self.spreads[target], self.kinds[target]
        scatter, lasting = self.scatter[target], self.lasting[kind]
        chance = spread.chance * scatter
        stays = self.place_of[kind] + lasting + spread.drifting * scatter
        towards = self._towards(target, season, solved.used)
        mean = float(towards @ solved.pull)
        same_kind = self.kind_of[solved.used] == self.code[kind]
        kind_adds = OF_KIND_HERE * lasting * float(same_kind @ solved.pull)
        place_adds = math.sqrt(self.place_of[kind]) * float(self.share[solved.used] @ solved.pull)
        moved = 0.0
        if before is not solved:
            moved = mean - float(self._towards(target, season, before.used) @ before.pull)
        variance = max(stays + chance - float(towards @ solved.inverse @ towards), 0.2 * chance)
        # a part is known as far as the whole is: what notes took off the uncertainty they took off what lasts
        known = min(max((variance - chance) / stays, 0.0), 1.0)
        common = min(place_variance * known**0.5 + chance * self.common, variance)
        of_kind = min(known * lasting * OF_KIND_HERE + chance * OF_KIND, variance - common)
        numbers = self.of_target.get(target, [])
        springs = {self.notes[n].season for n in numbers if self.notes[n].season != season}
        return Level(
            mean=spread.middle + mean, variance=variance, common=common, of_kind=max(of_kind, 0.0),
            springs=len(springs),
            own=spread.middle + float(np.mean(self.off[numbers])) if numbers else None,
            stranger=self.strangers[kind], chance=chance, moved=moved,
            place_adds=place_adds, kind_adds=kind_adds,
        )  # fmt: skip
