"""A plant's heat need from the handbook, from the garden's notes of its kind, and from its own.

Every note says how many days the plant opened after, or before, the day on which the handbook's heat was
reached. That lateness is taken as the sum of what all the garden's plants of the kind share, what is this
plant's own, how early its watcher calls it open, and the chance of one spring. All are normal, so what to
expect follows in one step; for one plant and one watcher it is `(n * own + w * book) / (n + w)`. A note far
from what the others say loses weight and is named.

References
----------
.. [1] Lindley, D. V. and Smith, A. F. M. (1972). Bayes estimates for the linear model. J. R. Stat. Soc. B 34:
   1-41.
.. [2] Lange, K. L., Little, R. J. A. and Taylor, J. M. G. (1989). Robust statistical modeling using the t
   distribution. J. Am. Stat. Assoc. 84: 881-896 (weights).
"""

from __future__ import annotations

import datetime as dt
import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from leafturn import wording

FloatArray = NDArray[np.float64]

BOOK_WEIGHT = 3.0  # the handbook counts as much as three notes of one plant; rule of thumb
SHARED = 2 / 3  # of the doubt about the handbook's need, what all plants of the kind here share; guess
WATCHER_DAYS = 2.0  # [d] standard deviation of when two people call one plant open; guess
FREEDOM = 5.0  # of the Student distribution of one spring's chance; common practice
ROUNDS = 4
QUESTIONED = 3.0  # standard deviations from which on a note is named; common practice
LEAST_GAIN = 0.05  # [degC d/day]


@dataclass(frozen=True, kw_only=True)
class BookNeed:
    """What the library says of a kind.

    Parameters
    ----------
    heat : float [degC d]
        Or any other sum, as long as the notes are in the same.
    spread_days : float [d]
        Standard deviation of one spring's first open about what heat says.
    weight : float
        How many notes of one plant it counts for.
    """

    heat: float
    spread_days: float
    weight: float = BOOK_WEIGHT


@dataclass(frozen=True, kw_only=True)
class HeatNote:
    """One noted first open.

    Parameters
    ----------
    plant : str
    on : date
    heat : float [degC d]
        Gathered by the end of that day.
    gain : float [degC d/day]
        Gathered by one day at that time of the year; the mean of a week is best.
    by : str or None
        Who noted it.
    """

    plant: str
    on: dt.date
    heat: float
    gain: float
    by: str | None = None


@dataclass(frozen=True, kw_only=True)
class UsedNeed:
    """The need to go by.

    Parameters
    ----------
    used, book : float [degC d]
    own : float or None
        Mean of the plant's own notes; None if it has none.
    notes : int
        Notes of the plant; those of other plants of the kind have their say too.
    spread_days : float [d]
        Standard deviation of the next first open about what the used need says.
    watcher_days : mapping of person to float [d]
        By how much later than the others each calls a plant open, where two have watched.
    questioned : tuple of str
        One sentence for each of the plant's notes that lies far from the others.
    """

    used: float
    book: float
    own: float | None
    notes: int
    spread_days: float
    watcher_days: dict[str, float]
    questioned: tuple[str, ...]


def need_from_notes(
    book: BookNeed, plant: str, notes: Sequence[HeatNote], observer: str | None = None
) -> UsedNeed:
    """The heat need of one plant.

    Parameters
    ----------
    book : BookNeed
    plant : str
        Its id.
    notes : sequence of HeatNote
        All the garden's notes of the kind, this plant's among them; one a plant, year and person.
    observer : str or None
        Whose eyes the answer is for. With None, or one who has noted nothing, those of whoever noted most.

    Returns
    -------
    UsedNeed
    """
    own = [note for note in notes if note.plant == plant]
    effects = _Effects(book, plant, notes, observer)
    gain = max(float(np.median([note.gain for note in notes])), LEAST_GAIN) if notes else 0.0
    late = np.array([(note.heat - book.heat) / gain for note in notes])
    mean, covariance, misses = effects.settled(late)
    asked = effects.asked
    doubt = float(asked @ covariance @ asked)
    return UsedNeed(
        used=max(book.heat + gain * float(asked @ mean), 0.0),
        book=book.heat,
        own=float(np.mean([note.heat for note in own])) if own else None,
        notes=len(own),
        spread_days=math.sqrt(doubt + book.spread_days**2),
        watcher_days=effects.watcher_days(mean),
        questioned=tuple(
            _sentence(note, float(miss), book.spread_days)
            for note, miss in zip(notes, misses, strict=True)
            if note.plant == plant and abs(miss) >= QUESTIONED
        ),
    )


class _Effects:
    """What lateness is made of: the kind here, each plant, and each watcher but the one who noted most.

    `rows` says which of them a note has, `asked` which the answer has, `variances` how large they may be.
    """

    def __init__(self, book: BookNeed, plant: str, notes: Sequence[HeatNote], observer: str | None) -> None:
        self._variance = book.spread_days**2
        plants = list(dict.fromkeys([plant, *(note.plant for note in notes)]))
        most = Counter(note.by for note in notes).most_common()
        self._watchers = [by for by, _ in most[1:]]
        names = [("kind", ""), *(("plant", p) for p in plants), *(("watcher", by) for by in self._watchers)]
        place = {name: number for number, name in enumerate(names)}

        def row(plant: str, by: str | None) -> FloatArray:
            values = np.zeros(len(names))
            values[0] = values[place["plant", plant]] = 1
            if ("watcher", by) in place:
                values[place["watcher", by]] = 1
            return values

        doubt = self._variance / book.weight
        size = {"kind": SHARED * doubt, "plant": (1 - SHARED) * doubt, "watcher": WATCHER_DAYS**2}
        self.variances = np.array([size[what] for what, _ in names])
        self.rows = np.array([row(note.plant, note.by) for note in notes]).reshape(-1, len(names))
        self.asked = row(plant, observer)

    def settled(self, late: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray]:
        """Mean and covariance of the effects [d], and how far each note is off in standard deviations."""
        weights, misses = np.ones(len(late)), np.zeros(len(late))
        for _ in range(ROUNDS):
            weighted = self.rows.T * (weights / self._variance)
            covariance = np.linalg.inv(weighted @ self.rows + np.diag(1 / self.variances))
            mean = covariance @ weighted @ late
            own_say = np.einsum("ni,ij,jn->n", self.rows, covariance, weighted)
            # the miss from what kind and other notes say, in deviations of an ordinary note
            miss = (late - self.rows @ mean) / (1 - own_say)
            expected = self._variance * (own_say / (weights * (1 - own_say)) + 1)
            misses = miss / np.sqrt(expected)
            weights = np.minimum((FREEDOM + 1) / (FREEDOM + misses**2), 1.0)
        return mean, covariance, misses

    def watcher_days(self, mean: FloatArray) -> dict[str, float]:
        """How much later than whoever noted most each watcher calls plants open [d]."""
        if not self._watchers:
            return {}
        found = zip(self._watchers, mean[-len(self._watchers) :], strict=True)
        return {by: float(days) for by, days in found if by is not None}


def _sentence(note: HeatNote, miss: float, spread_days: float) -> str:
    """What is odd about a note, to be read by whoever wrote it."""
    days = wording.count(abs(miss) * spread_days, "day")
    side = "later" if miss > 0 else "earlier"
    return (
        f"{note.plant} noted open on {wording.day(note.on)} {note.on.year}: about {days} {side} than other "
        "notes and the handbook say for that spring's warmth. It counts for little; "
        "look whether the date is right."
    )
