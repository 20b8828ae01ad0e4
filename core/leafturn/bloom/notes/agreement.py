"""How far a garden's notes may be from the book, and from one another, before the book gives way.

Three things are learnt from the notes before levels are reckoned: how far a plant's own springs scatter;
whether its kind is another here than the book says (a name used for two species, a place beyond what is
known); and whether notes agree so well among themselves that the book should not be heard.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import NamedTuple

import numpy as np

from leafturn.base.arrays import median
from leafturn.bloom.notes.level_notes import LevelNote
from leafturn.bloom.priors.prior import LevelSpreads

STRANGER = 0.02  # share of kinds whose book is of another plant, or of a place beyond what is known; guess
STRANGER_SPREADS = 30.0  # how far off their levels lie, in spreads of the kind; guess

# How far a plant's own springs scatter is learnt again from its notes; the usual scatter counts as so many.
SCATTER_NOTES = 5.0
LEAST_SCATTER, MOST_SCATTER = 0.35, 4.0  # of the usual variance

# Notes of three springs or more that lie within about two days of one another (a standard deviation of 1.2 d)
# win, whatever the book says: it may draw them by so many days [d] and no further.
AGREEING_SPRINGS, AGREEING_DAYS, DRAWN_DAYS = 3, 1.2, 1.5
# A usual date that was stated wins too: the book is then left with so many times the variance of one spring.
STATED = 60.0


def scatter(notes: Sequence[LevelNote], spread: LevelSpreads) -> float:
    """How much a plant's springs scatter, as a share of the usual variance; 1 where notes are too few."""
    own = [note for note in notes if not note.lasting]
    if len(own) < 2:
        return 1.0
    unsure = float(np.mean([note.weather_variance + note.reading_variance for note in own]))
    usual = spread.chance + spread.drifting + unsure
    levels = np.array([note.level for note in own])
    squares = float(((levels - levels.mean()) ** 2).sum()) / usual
    learnt = (SCATTER_NOTES + squares) / (SCATTER_NOTES + len(own) - 1)
    return min(max(learnt, LEAST_SCATTER), MOST_SCATTER)


class KindUncertainty(NamedTuple):
    """Variance of what lasts of a kind here: by what is published, and where its notes agree.

    `stranger` is the chance that the kind is another here than the book's.
    """

    published: float
    agreed: float
    stranger: float


def lasting_uncertainty(
    by_target: Mapping[str, Sequence[LevelNote]], spread: LevelSpreads, scatters: Mapping[str, float]
) -> KindUncertainty:
    """What notes leave of the doubt about one kind.

    Parameters
    ----------
    by_target : mapping of target to its notes
        Of one kind.
    spread : LevelSpreads
        Of the kind, as the book has it.
    scatters : mapping of target to float
        From `scatter`.
    """
    notes = [note for own in by_target.values() for note in own]
    if not notes:
        return KindUncertainty(spread.lasting, spread.lasting, 0.0)
    one = spread.chance + float(np.mean([note.weather_variance for note in notes]))
    middle = median([note.level - spread.middle for note in notes])
    chance = stranger(spread.lasting + spread.drifting + one / len(notes), middle)
    agreed = [_agreed(own, spread, scatters[target]) for target, own in by_target.items()]
    published = spread.lasting + chance * middle**2
    return KindUncertainty(published, max(published, *agreed), chance)


def _agreed(notes: Sequence[LevelNote], spread: LevelSpreads, scatter: float) -> float:
    """The uncertainty that a book is left with beside notes that agree; 0 where they need no such help.

    A book of variance L, off by d days, draws a mean of variance V by d V / (V + L) days.
    """
    if any(note.lasting for note in notes):
        return STATED * spread.chance
    springs = {note.season: note.day for note in notes}
    if len(springs) < AGREEING_SPRINGS:
        return 0.0
    apart = float(np.std(list(springs.values())))
    agree = math.exp(-(max(apart - AGREEING_DAYS, 0.0) ** 2))
    one = spread.chance + spread.drifting + float(np.mean([note.weather_variance for note in notes]))
    off = abs(float(np.mean([(note.level - spread.middle) / note.growth for note in notes])))
    return agree * scatter * one / len(springs) * max(off / DRAWN_DAYS - 1, 0.0)


def stranger(variance: float, middle: float) -> float:
    """Chance that a median level so far from the kind's comes from outside the kind."""
    square = middle**2 / variance
    kind = math.log1p(-STRANGER) - square / 2
    other = math.log(STRANGER / STRANGER_SPREADS) - square / (2 * STRANGER_SPREADS**2)
    return 1 / (1 + math.exp(min(kind - other, 700.0)))
