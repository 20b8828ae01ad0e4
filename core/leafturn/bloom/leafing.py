"""When leaves come out, by warmth as the buds of spring count it, and how long frost leaves them."""

from __future__ import annotations

import numpy as np

from leafturn.base.arrays import FloatArray
from leafturn.base.kept import kept
from leafturn.base.tunables import Numbers
from leafturn.bloom.priors.stated import leaf_prior
from leafturn.bloom.warmth import warmth_of
from leafturn.kinds.fact import value_of
from leafturn.kinds.model import Kind
from leafturn.season.ensemble import Ensemble


def leaf_heat(kind: Kind | None, numbers: Numbers) -> float:
    """Degree-days to leaf-out [degC d] as the library states them, or the garden's own number."""
    fact = kind.leaf.out_heat if kind else None
    return value_of(fact, numbers["leaf_out_heat"])


def fall_after_frost(kind: Kind | None, numbers: Numbers) -> float:
    """Days from the first frost to leaf fall, likewise."""
    fact = kind.leaf.fall_after_frost_days if kind else None
    return value_of(fact, numbers["leaf_fall_after_frost_days"])


@kept  # plants of a kind share it
def leaf_out_days(ensemble: Ensemble, heat: float) -> FloatArray:
    """Leaf-out in every ensemble member, (members,) [day number]; inf where it does not come.

    Parameters
    ----------
    ensemble : Ensemble
    heat : float [degC d]
        What the library states: degree-days above 5 degC from the season's start, at the climate of the
        books.
    """
    prior = leaf_prior(heat)
    return warmth_of(ensemble).day_reached(prior.response, np.array([prior.usual.levels.middle]))
