"""An early spring is early for all: what the blooms noted so far tell of those still to come."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from leafturn.bloom.doubt import draws_of

FloatArray = NDArray[np.float64]

# Of the variance about what heat foretells. COMMON: mean correlation between five kinds' departures in
# one spring and place, 2,788 site-years of the Korean weather service, 1973-2023, heat above 5 degC
# (computed here). OF_KIND, what plants of one kind share beyond that, is a guess.
COMMON, OF_KIND = 0.5, 0.15
DEFAULT_SPRINGS = 10.0  # the default weighs as much as so many own springs: rule of thumb


@dataclass(frozen=True, slots=True, kw_only=True)
class Spring:
    """What this spring's notes say, in standard deviations about what heat foretells.

    Parameters
    ----------
    common, common_sd : float
        How much later than foretold this spring is for all, and the doubt of it.
    of_kind : mapping of kind to (mean, sd, share)
        What a kind adds to that, for kinds noted; where the kind itself is known, so much less of the
        common part's doubt is left: `share` of it.
    correlation : float
        Correlation used between kinds.
    kinds : int
        How many kinds were noted.
    """

    common: float
    common_sd: float
    of_kind: Mapping[str, tuple[float, float, float]]
    correlation: float
    kinds: int

    def departures(self, draws: int, kind: str, plant: str) -> FloatArray:
        """Departures of one plant not yet noted, (draws,) [standard deviations]; the same at every run."""
        own_sd = math.sqrt(max(1.0 - self.correlation - OF_KIND, 0.0))
        kind_mean, kind_sd, left = self.of_kind.get(kind, (0.0, math.sqrt(OF_KIND), 1.0))
        return np.asarray(
            self.common
            + kind_mean
            + left * self.common_sd * draws_of(draws, "spring")
            + kind_sd * draws_of(draws, f"kind {kind}")
            + own_sd * draws_of(draws, f"plant {plant}")
        )


def read_spring(seen: Mapping[str, Iterable[float]], correlation: float = COMMON) -> Spring:
    """What the noted blooms of a spring say of the others.

    Parameters
    ----------
    seen : mapping of kind to departures [standard deviations]
        Noted first opens less what heat foretold, each over its own spread; one a plant.
    correlation : float
        Between kinds; see `learnt_correlation`.

    Notes
    -----
    A departure is the sum of a part common to all kinds, a part of the kind, and the plant's own, all
    normal. Both shared parts are estimated by their posterior means given the notes (conjugate normal).
    """
    means = {kind: (float(np.mean(z)), len(z)) for kind, values in seen.items() if (z := list(values))}
    own = max(1.0 - correlation - OF_KIND, 0.05)
    precision = sum(1.0 / (OF_KIND + own / n) for _, n in means.values())
    pull = sum(mean / (OF_KIND + own / n) for mean, n in means.values())
    variance = 1.0 / (1.0 / max(correlation, 1e-6) + precision)
    common = variance * pull
    of_kind = {}
    for kind, (mean, n) in means.items():
        share = OF_KIND / (OF_KIND + own / n)
        of_kind[kind] = (share * (mean - common), math.sqrt(OF_KIND * (1.0 - share)), 1.0 - share)
    return Spring(
        common=common,
        common_sd=math.sqrt(variance),
        of_kind=of_kind,
        correlation=correlation,
        kinds=len(means),
    )


def learnt_correlation(past: Mapping[int, Mapping[str, float]]) -> float:
    """Correlation between kinds in this garden's own springs, pulled to the default by their number.

    Parameters
    ----------
    past : mapping of season to mapping of kind to departure [standard deviations]

    Returns
    -------
    float
        `(springs * own + 10 * default) / (springs + 10)`, held between 0 and 0.8.
    """
    products, springs = [], 0
    for kinds in past.values():
        z = np.clip(np.array(list(kinds.values())), -3, 3)
        if len(z) < 2:
            continue
        springs += 1
        pairs = len(z) * (len(z) - 1)
        products.append((float(z.sum()) ** 2 - float(z @ z)) / pairs)
    own = float(np.mean(products)) if products else 0.0
    used = (springs * own + DEFAULT_SPRINGS * COMMON) / (springs + DEFAULT_SPRINGS)
    return min(max(used, 0.0), 0.8)
