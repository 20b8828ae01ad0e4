"""When leaves come out, by warmth as the buds of spring count it."""

from __future__ import annotations

import numpy as np

from leafturn.base.arrays import FloatArray
from leafturn.bloom.priors.stated import leaf_prior
from leafturn.bloom.warmth import warmth_of
from leafturn.season.ensemble import Ensemble


def leaf_out_days(heat: float, ensemble: Ensemble) -> FloatArray:
    """Leaf-out in every ensemble member, (members,) [day number]; inf where it does not come.

    Parameters
    ----------
    heat : float [degC d]
        What the library states: degree-days above 5 degC from the season's start, at the climate of the
        books.
    ensemble : Ensemble
    """
    prior = leaf_prior(heat)
    return warmth_of(ensemble).day_reached(prior.response, np.array([prior.usual.levels.middle]))
