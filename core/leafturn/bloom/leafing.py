"""When leaves come out, by warmth as the buds of spring count it, and how long frost leaves them."""

from __future__ import annotations

from leafturn.base.arrays import FloatArray
from leafturn.base.kept import kept
from leafturn.base.tunables import Numbers
from leafturn.bloom.priors.stated import LeafNeed, leaf_prior, need_of_leaves
from leafturn.bloom.warmth import warmth_of
from leafturn.kinds.fact import value_of
from leafturn.kinds.model import Kind
from leafturn.season.ensemble import Ensemble


def leaf_need(kind: Kind | None, numbers: Numbers) -> LeafNeed:
    """What leaves of a kind wait for, by the heat that the library states or the garden's own number."""
    if kind is None:
        return LeafNeed(heat=numbers["leaf_out_heat"])
    return need_of_leaves(kind, value_of(kind.leaf.out_heat, numbers["leaf_out_heat"]))


def fall_after_frost(kind: Kind | None, numbers: Numbers) -> float:
    """Days from the first frost to leaf fall, likewise."""
    fact = kind.leaf.fall_after_frost_days if kind else None
    return value_of(fact, numbers["leaf_fall_after_frost_days"])


@kept  # plants of a kind share it
def leaf_out_days(ensemble: Ensemble, need: LeafNeed) -> FloatArray:
    """Leaf-out in every ensemble member, (members,) [day number]; inf where it does not come.

    Parameters
    ----------
    ensemble : Ensemble
    need : LeafNeed
        Its heat is that at the climate of the books.
    """
    prior = leaf_prior(need)
    return warmth_of(ensemble).day_reached(prior.response, prior.usual.levels.middle)
