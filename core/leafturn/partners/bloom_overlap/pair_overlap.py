"""When the flowers of a group meet, pair by pair, also where an order or a date is not known."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import cached_property

import numpy as np

from leafturn.base.arrays import BoolArray, FloatArray, IndexArray
from leafturn.base.closed_words import FLOWER_ORDERS
from leafturn.base.tunables import Numbers
from leafturn.partners.bloom_overlap.kept_order import steadied
from leafturn.partners.bloom_overlap.overlap import (
    Window,
    covered,
    enough,
    mean_overlaps,
    receptive,
    shedding,
)
from leafturn.partners.bloom_overlap.pollination_days import Clock, every_day
from leafturn.partners.chance.pollen_plants import PollenPlant


class BloomOverlaps:
    """The days on which the recipients of a group are receptive and its donors shed pollen.

    Parameters
    ----------
    recipients, donors : sequence of PollenPlant
    clock : callable
        How the carrier counts days, draw by draw; by default each day counts whole.
    """

    def __init__(
        self,
        recipients: Sequence[PollenPlant],
        donors: Sequence[PollenPlant],
        numbers: Numbers,
        clock: Clock = every_day,
    ) -> None:
        self._numbers, self._clock = numbers, clock
        self._needed = numbers["partner_enough_overlap"]
        bloom = steadied([*donors, *recipients], numbers["partner_stray_days"])
        self._takes, self._gives = _rows(recipients, bloom), _rows(donors, bloom)
        self._take_may, self._give_may = _may_be(recipients), _may_be(donors)
        self._recipient_known = np.array([b.bloom is not None for b in recipients], dtype=bool)
        self._donor_known = np.array([b.bloom is not None for b in donors], dtype=bool)
        self._over_fence = np.array([b.plant is None for b in donors], dtype=bool)

    def overlaps(
        self, recipient: IndexArray, donor: IndexArray, worth: BoolArray
    ) -> tuple[FloatArray, FloatArray]:
        """Chance that the donor covers enough of the recipient's receptive days, for pairs.

        Parameters
        ----------
        recipient, donor : (pairs,) int
            Positions in the two lists.
        worth : (pairs,) bool
            Only these are worked out; the others stay at 0.

        Returns
        -------
        overlap : (3, pairs)
            Low, likely and high; apart where a forecast or an order of flowering is not known.
        days : (pairs,) [d]
            As the carrier counts them.
        """
        overlap, days = np.zeros((3, len(recipient))), np.zeros(len(recipient))
        known = self._recipient_known[recipient] & self._donor_known[donor]
        overlap[:, ~known & worth] = np.array([[0.0], [self._numbers["partner_unknown_overlap"]], [1.0]])
        some = np.flatnonzero(known & worth)
        if len(some):
            share, met = self._by_order(recipient[some], donor[some])
            fence = self._over_fence[donor[some]]
            share[0, fence] *= 0.5  # a neighbour's bloom is taken to be that of a like plant here
            share[2, fence] = 1.0 - 0.5 * (1.0 - share[2, fence])
            overlap[:, some], days[some] = share, met
        return overlap, days

    def by_draw(self, recipient: IndexArray, donor: IndexArray) -> FloatArray:
        """Whether enough of the receptive days is covered, 0 to 1, (pairs, draws).

        It is 0 where the recipient does not flower. Where a forecast is not known all draws are
        alike; where an order is not, the ways are averaged.
        """
        draws = max(self._takes.start.shape[1], self._gives.start.shape[1])
        shares = np.full((len(recipient), draws), self._numbers["partner_unknown_overlap"])
        known = np.flatnonzero(self._recipient_known[recipient] & self._donor_known[donor])
        shares[known] = 0.0
        ways = np.zeros(len(recipient))
        for t, g, which in self._orders(recipient[known], donor[known]):
            pairs = known[which]
            taking, giving = self._taking[t], self._giving[g]
            _, share = covered(
                Window(taking.start[recipient[pairs]], taking.end[recipient[pairs]]),
                Window(giving.start[donor[pairs]], giving.end[donor[pairs]]),
            )
            shares[pairs] += enough(np.nan_to_num(share), self._needed)
            ways[pairs] += 1
        shares[known] /= ways[known, None]
        return shares

    def receptive_days(self) -> FloatArray:
        """Receptive days as the carrier counts them, (recipients, draws) [d]; 0 without bloom.

        Where an order is not known the ways are averaged.
        """
        total = np.zeros(self._takes.start.shape)
        for t, taking in self._taking.items():
            with np.errstate(invalid="ignore"):
                length = np.nan_to_num(taking.end - taking.start, nan=0.0)
            total += length * self._take_may[:, t, None]
        return np.asarray(total / self._take_may.sum(axis=1)[:, None])

    def _by_order(self, recipient: IndexArray, donor: IndexArray) -> tuple[FloatArray, FloatArray]:
        """Overlaps under every order of flowering that a pair may have: least, mean and most."""
        low, high = np.full(len(recipient), np.inf), np.zeros(len(recipient))
        total, met, ways = np.zeros(len(recipient)), np.zeros(len(recipient)), np.zeros(len(recipient))
        for t, g, which in self._orders(recipient, donor):
            share, days = mean_overlaps(
                self._taking[t], self._giving[g], recipient[which], donor[which], self._needed
            )
            low[which] = np.minimum(low[which], share)
            high[which] = np.maximum(high[which], share)
            total[which] += share
            met[which] += days
            ways[which] += 1
        # where an order is not known the pair is not taken for proven, however much the best way would give
        doubted = np.maximum(low, np.minimum(total / ways, self._numbers["partner_unknown_order"] * high))
        return np.stack([low, np.where(ways > 1, doubted, total / ways), high]), met / ways

    def _orders(self, recipient: IndexArray, donor: IndexArray) -> Iterator[tuple[int, int, IndexArray]]:
        """Every pair of orders with the pairs that may have it."""
        for t in range(len(FLOWER_ORDERS)):
            for g in range(len(FLOWER_ORDERS)):
                which = np.flatnonzero(self._take_may[recipient, t] & self._give_may[donor, g])
                if len(which):
                    yield t, g, which

    @cached_property
    def _taking(self) -> dict[int, Window]:
        return {t: self._counted(receptive(*self._takes, FLOWER_ORDERS[t])) for t in _used(self._take_may)}

    @cached_property
    def _giving(self) -> dict[int, Window]:
        return {g: self._counted(shedding(*self._gives, FLOWER_ORDERS[g])) for g in _used(self._give_may)}

    def _counted(self, days: Window) -> Window:
        """Days as the carrier counts them; of a group of which no day is known there is nothing to count."""
        if not np.isfinite(days.start).any():
            return days
        return Window(self._clock(days.start), self._clock(days.end))


def _used(may: BoolArray) -> list[int]:
    return [int(n) for n in np.flatnonzero(may.any(axis=0))]


def _rows(plants: Sequence[PollenPlant], bloom: Mapping[int, Window]) -> Window:
    """First-open and end days of all plants as (plants, draws); inf where there is no forecast."""
    draws = next((len(window.start) for window in bloom.values()), 1)
    never = Window(np.full(draws, np.inf), np.full(draws, np.inf))
    windows = [bloom.get(id(b), never) for b in plants]
    return Window(np.stack([w.start for w in windows]), np.stack([w.end for w in windows]))


def _may_be(plants: Sequence[PollenPlant]) -> BoolArray:
    """Which of FLOWER_ORDERS each plant may have: both halves where a dichogamous tree's is not noted."""
    may = np.zeros((len(plants), len(FLOWER_ORDERS)), dtype=bool)
    for row, pollen_plant in zip(may, plants, strict=True):
        if pollen_plant.genotype.system != "dichogamous":
            row[2] = True
        elif pollen_plant.genotype.flower_order is None:
            row[:2] = True
        else:
            row[FLOWER_ORDERS.index(pollen_plant.genotype.flower_order)] = True
    return may
