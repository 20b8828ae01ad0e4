"""What a frost would undo: the chance that open flowers meet a killing night."""

from __future__ import annotations

import numpy as np

from leafturn.bloom.model import BloomForecast
from leafturn.kinds.model import Kind
from leafturn.season.ensemble import REPEATS, Ensemble


def loss_chance(forecast: BloomForecast, kind: Kind, ensemble: Ensemble, pocket_c: float) -> float | None:
    """Chance of a night, between first open and end of bloom, that kills a tenth of the flowers or more.

    Parameters
    ----------
    forecast : BloomForecast
    kind : Kind
        Its critical temperature at full bloom is used for the whole of flowering.
    ensemble : Ensemble
        Nights to come and nights observed alike.
    pocket_c : float [degC]
        How much the garden is colder than the station on still nights.

    Returns
    -------
    float or None
        None where the kind's critical temperature is not known.

    References
    ----------
    .. [1] Extension tables of critical bud temperatures (10 % kill after thirty minutes).
    """
    limits = kind.frost.full_bloom
    if limits is None:
        return None
    nights = ensemble.tmin + pocket_c
    days = nights.shape[1]
    killing = nights <= limits.value[0]
    total = np.zeros((killing.shape[0], days + 1))
    np.cumsum(killing, axis=1, out=total[:, 1:])
    member = np.repeat(np.arange(nights.shape[0]), REPEATS)
    first = np.clip(np.nan_to_num(forecast.first_open, posinf=days), 0, days).astype(int)
    after = np.clip(np.nan_to_num(forecast.end, posinf=days) + 1, 0, days).astype(int)
    return float(np.mean(total[member, np.maximum(after, first)] - total[member, first] > 0))
