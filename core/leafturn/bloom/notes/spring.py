"""How much of one spring's departure from the expected level all kinds have in common."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from leafturn.base.arrays import median
from leafturn.bloom.notes.level_notes import LevelNote
from leafturn.bloom.priors.prior import LevelSpreads

DEFAULT_SPRINGS = 10.0  # the default weighs as much as so many own springs: rule of thumb
MOST = 0.8


def common_share(
    notes: Sequence[LevelNote],
    spreads: Mapping[str, LevelSpreads],
    kinds: Mapping[str, str],
    season: int,
    default: float,
) -> float:
    """Share of a spring's chance that kinds have in common, from this garden's past springs and a default.

    Parameters
    ----------
    notes : sequence of LevelNote
    spreads, kinds : mappings of target
    season : int
        The season asked for, whose notes do not count.
    default : float
        From open records.

    Returns
    -------
    float
        `(springs * own + 10 * default) / (springs + 10)`, held between 0 and 0.8.
    """
    own_levels: dict[str, list[float]] = {}
    for note in notes:
        if not note.lasting:
            own_levels.setdefault(note.target, []).append(note.level)
    middle = {target: median(levels) for target, levels in own_levels.items()}
    springs: dict[int, dict[str, list[float]]] = {}
    for note in notes:
        if note.season == season or note.lasting or len(own_levels[note.target]) < 2:
            continue
        chance = spreads[note.target].chance + note.weather_variance
        late = (note.level - middle[note.target]) / chance**0.5
        springs.setdefault(note.season, {}).setdefault(kinds[note.target], []).append(late)
    products = []
    for by_kind in springs.values():
        z = np.clip([float(np.mean(values)) for values in by_kind.values()], -3, 3)
        if len(z) >= 2:
            products.append((float(z.sum()) ** 2 - float(z @ z)) / (len(z) * (len(z) - 1)))
    own = float(np.mean(products)) if products else 0.0
    used = (len(products) * own + DEFAULT_SPRINGS * default) / (len(products) + DEFAULT_SPRINGS)
    return min(max(used, 0.0), MOST)
