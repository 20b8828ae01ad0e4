"""What the set seen in past years tells of the chance of enough pollen.

Notes
-----
The computed chance `a` of a year stands for a Beta belief of `w a` good years and `w (1 - a)` bad ones,
where `w` is what it weighs (a guess, two years by default). Each year noted adds one year of what was seen,
as far as it tells of the year asked about; as far as it does not, one year of the computed chance. A poor
set tells nothing of years in which partners are clearly abler than then, a good one nothing of years in
which they are clearly less so: a set of none while the only partner was a sapling says little of the years
in which it flowers. The chance so believed never falls when the computed one rises.

References
----------
.. [1] Gelman et al. 2013, Bayesian Data Analysis, 2.4: the Beta as a count of seen successes (from memory).
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from leafturn.base import prose
from leafturn.base.arrays import FloatArray
from leafturn.base.closed_words import FruitSet
from leafturn.base.tunables import Numbers

SetNotes = Mapping[int, FruitSet]  # by year


def set_shares(notes: SetNotes, numbers: Numbers) -> FloatArray:
    """What each noted set counts as, (notes,) in order of years, 0 to 1."""
    worth = {
        "none": numbers["partner_set_none"],
        "poor": numbers["partner_set_poor"],
        "fair": numbers["partner_set_fair"],
        "good": numbers["partner_set_good"],
    }
    return np.array([worth[notes[year]] for year in sorted(notes)])


def relevance(computed: FloatArray, then: FloatArray, observed: FloatArray, numbers: Numbers) -> FloatArray:
    """How much each noted year tells of each year asked about, (years, notes), 0 to 1.

    Parameters
    ----------
    computed : (years,)
        Chances of the years asked about.
    then : (notes,)
        Chances computed for the noted years.
    observed : (notes,)
        See `set_shares`.
    numbers : Numbers
    """
    abler = computed[:, None] - then[None, :]
    lowers = observed[None, :] < computed[:, None]
    unlike = np.where(lowers, np.maximum(abler, 0.0), np.maximum(-abler, 0.0))
    return np.asarray(np.maximum(1.0 - unlike / numbers["partner_set_alike"], 0.0))


def posterior(computed: FloatArray, tells: FloatArray, observed: FloatArray, numbers: Numbers) -> FloatArray:
    """Chances once the noted years are counted in.

    Parameters
    ----------
    computed : (years,)
    tells : (years, notes)
        See `relevance`.
    observed : (notes,)
        See `set_shares`.
    numbers : Numbers

    Returns
    -------
    (years,)
    """
    moved = (tells * (observed[None, :] - computed[:, None])).sum(axis=1)
    return np.asarray(computed + moved / (numbers["partner_set_weighs"] + len(observed)))


def evidence_words(notes: SetNotes, computed: float, now: float) -> str:
    """What was noted and by how much it moves the chance, as a sentence."""
    by_word: dict[str, list[str]] = {}
    for year in sorted(notes):
        by_word.setdefault(notes[year], []).append(str(year))
    observed = prose.joined([f"{word} in {prose.joined(years)}" for word, years in by_word.items()])
    before, after = prose.of_ten(computed, "spring"), prose.of_ten(now, "spring")
    if before == after:
        return f"Set noted {observed}: the chance stays as computed, {before}."
    way = "raises" if now > computed else "lowers"
    return f"Set noted {observed}: that {way} the computed chance from {before} to {after}."
