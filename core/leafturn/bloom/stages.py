"""How long a plant's stages of bloom last, and when they come this season, foretold or as noted."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence

import numpy as np

from leafturn.base.arrays import FloatArray
from leafturn.base.bloom_stages import FIRST_OPEN, FLOWERING, FULL_BLOOM, PETAL_FALL
from leafturn.base.value import Value
from leafturn.journal.entries import BloomNote
from leafturn.season.axis import SeasonAxis
from leafturn.season.stage_duration import Pace

Stages = tuple[FloatArray, FloatArray, FloatArray]


class Lengths(Value):
    """How long after the first flower a plant's stages come [d]."""

    full: float
    end: float
    late: float = 0.0

    def after_first_open(self, entry: BloomNote) -> tuple[float, float] | None:
        """Usual days from first open to a noted stage and how far they stray [d]; None: it tells nothing."""
        if entry.stage == FIRST_OPEN.name:
            return 0.0, 0.0
        if entry.stage == FULL_BLOOM.name:
            return self.full, 0.4 * self.full
        if entry.stage == PETAL_FALL.name:
            return self.end, 0.3 * self.end
        scale = [FIRST_OPEN.bbch - 1, *(stage.bbch for stage in FLOWERING)]
        if entry.stage is None and entry.bbch is not None and scale[0] <= entry.bbch <= scale[-1]:
            places = float(np.interp(entry.bbch, scale, [-1.0, 0.0, self.full, self.end]))
            return places, 0.3 * abs(places) + 0.5
        return None


def stages_of(
    first_open: Sequence[FloatArray],
    lengths: Sequence[Lengths],
    observed: Sequence[Mapping[str, dt.date]],
    axis: SeasonAxis,
    pace: Pace,
) -> list[Stages]:
    """First open, full bloom and end of many plants, each (draws,) [day number].

    A stage that was noted replaces its date and moves what follows it.

    Parameters
    ----------
    first_open : sequence of (draws,) [day number]
        As foretold.
    lengths : sequence of Lengths
    observed : sequence of mapping of stage to date
    axis : SeasonAxis
    pace : Pace
    """
    if not first_open:
        return []
    opens = np.stack(
        [
            _began(days, one, noted, axis)
            for days, one, noted in zip(first_open, lengths, observed, strict=True)
        ]
    )
    to_full = np.array([[one.full] for one in lengths])
    to_end = np.array([[one.end - one.full] for one in lengths])
    full = pace.after(opens, to_full)
    _replace(full, FULL_BLOOM.name, observed, axis)
    end = pace.after(full, to_end)
    _replace(end, PETAL_FALL.name, observed, axis)
    never = ["none this year" in noted for noted in observed]
    for days in (opens, full, end):
        days[never] = np.inf
    return list(zip(opens, np.minimum(full, end), end, strict=True))


def _began(
    foretold: FloatArray, lengths: Lengths, observed: Mapping[str, dt.date], axis: SeasonAxis
) -> FloatArray:
    """First open as noted, or as a later stage that was noted tells."""
    for stage, days in zip(FLOWERING, (0.0, lengths.full, lengths.end), strict=True):
        if stage.name in observed:
            return np.full_like(foretold, axis.day(observed[stage.name]) - days)
    return foretold


def _replace(
    days: FloatArray, stage: str, observed: Sequence[Mapping[str, dt.date]], axis: SeasonAxis
) -> None:
    """Put noted days of a stage in their rows, (plants, draws)."""
    for row, noted in enumerate(observed):
        if stage in noted:
            days[row] = axis.day(noted[stage])
