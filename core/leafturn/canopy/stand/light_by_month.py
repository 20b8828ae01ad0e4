"""Light at plants of a stand in each month of this year, with all crowns or without one of them."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import cached_property

import numpy as np

from leafturn.base.arrays import FloatArray
from leafturn.base.tunables import Numbers
from leafturn.canopy.stand.leaf_months import leaf_months
from leafturn.canopy.stand.sky import Sampling, Site, in_leaf, sampling
from leafturn.canopy.stand.stand import Stand
from leafturn.season.heat import HeatSums


class LightByMonth:
    """Reckoned for a plant when it is first asked for, and kept.

    Parameters
    ----------
    usual : callable or None
        Gives the heat of this garden's usual year, from which months in leaf are told; without it leaves are
        taken to be there from May to September.
    pocket_c : float [degC]
        How much warmer the garden is than the station on still nights.
    """

    def __init__(
        self,
        stand: Stand,
        site: Site,
        numbers: Numbers,
        usual: Callable[[], HeatSums] | None,
        pocket_c: float,
    ) -> None:
        self._stand, self._site, self._numbers = stand, site, numbers
        self._usual, self._pocket_c = usual, pocket_c
        self._known: dict[str | None, dict[str, tuple[float, ...]]] = {}  # by the plant that is left out

    def of(self, plants: Iterable[str], gone: str | None = None) -> dict[str, tuple[float, ...]]:
        """January first, of those of some plants that have a place [% of open]; `gone` is left out."""
        index = self._stand.index
        placed = [plant for plant in plants if plant in index]
        known = self._known.setdefault(gone, {})
        if new := [plant for plant in placed if plant not in known]:
            of = np.array([index[plant] for plant in new], dtype=np.intp)
            found = self._stand.light_by_month(of, self._leaf, self._skies, index.get(gone or ""))
            known |= {plant: tuple(round(float(v), 1) for v in found[:, n]) for n, plant in enumerate(new)}
        return {plant: known[plant] for plant in placed}

    @cached_property
    def _skies(self) -> tuple[Sampling, ...]:
        direct = self._numbers["light_direct_share"]
        return tuple(sampling(self._site, (month,), direct) for month in range(1, 13))

    @cached_property
    def _leaf(self) -> FloatArray:
        """Share of its leaves that each crown carries by month, (12, plants)."""
        stand = self._stand
        if self._usual is None:
            months = [in_leaf(month, self._site.latitude) for month in range(1, 13)]
            return np.array([months] * len(stand.plants)).T.reshape(12, -1)
        usual = self._usual()
        kinds = {kind.name: kind for kind in stand.kinds}
        by_kind = {
            name: leaf_months(kind, usual, self._numbers, self._pocket_c) for name, kind in kinds.items()
        }
        return np.array([by_kind[kind.name] for kind in stand.kinds]).T.reshape(12, -1)
