"""What would help a tree that lacks pollen: each help with the year it works and the chance then."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from functools import cached_property

import msgspec
import numpy as np

from leafturn.base import day_words, prose
from leafturn.base.arrays import FloatArray, median
from leafturn.base.closed_words import LASTING_WOOD
from leafturn.base.tunables import Numbers
from leafturn.base.value import Value
from leafturn.garden.model import Point
from leafturn.garden.reading.places import compass
from leafturn.kinds.library import Library
from leafturn.kinds.model import Kind
from leafturn.partners.advice.planting_room import PlantingRoom
from leafturn.partners.advice.wanted import WantedWords, dichogamous
from leafturn.partners.bloom_overlap.flowering_age import (
    OLD_ENOUGH,
    flowering_age_of_bought,
    share_flowering,
    year_flowering,
)
from leafturn.partners.bloom_overlap.overlap import OPPOSITE, mean_overlaps, receptive, shedding
from leafturn.partners.chance.pollen_plants import PollenPlant
from leafturn.partners.distance.pollen_distance import counts
from leafturn.partners.genetics.genotype import stated
from leafturn.partners.model import Remedy
from leafturn.partners.words import metres_words
from leafturn.season.axis import SeasonAxis

GAIN = 0.02  # a help that adds less is not worth a line
LEAST_FLOWERS = 0.01  # guess: a lower chance that the tree itself flowers is counted as this
YOUNG_ENOUGH_TO_MOVE = 3.0  # years; common practice, no source
SET_BACK = 1.0  # guess: years of flowering that moving a young plant costs
GRAFT_YEARS = (2, 3)  # guess: a scion on a bearing tree flowers in its second or third spring
SLOW_KIND = 5.0  # years to flower on a grafted tree, above which a grafted branch takes the longer time
PLANT_FLOWERS = 0.75  # a planted partner is given the year by which three of four flower


class RemedyFinder(Value, eq=False):
    """Finds remedies for the trees of one garden.

    Parameters
    ----------
    axis : SeasonAxis
        The season the forecasts belong to.
    on : date
        The day of asking; days before it are past.
    planting_room : PlantingRoom
        Says where there is room.
    """

    library: Library
    numbers: Numbers
    axis: SeasonAxis
    planting_room: PlantingRoom
    on: dt.date
    too_tall: frozenset[str] = frozenset()

    def remedies(
        self, tree: PollenPlant, by_year: FloatArray, half: float, waited_for: PollenPlant | None,
        movable: Sequence[tuple[PollenPlant, float, float]], *, too_young: bool = False,
    ) -> tuple[Remedy, ...]:  # fmt: skip
        """All remedies for one tree that add something, soonest first.

        Parameters
        ----------
        tree : PollenPlant
        by_year : (years,)
            Chance that it flowers and gets enough pollen, this and later years, if nothing is done.
        half : float [m]
        waited_for : PollenPlant or None
            The partner that adds most in later years.
        movable : sequence of (donor, metres, worth)
            Compatible plants too far off, each with what it would give at no distance if it flowered.
        too_young : bool
            Whether its partners would do and only its own age does not: then waiting alone helps.
        """
        now, flowers = float(by_year[0]), tree.flowering[1, : len(by_year)]
        failing = tree.plant is not None and tree.plant.state == "declining"  # nobody is sent up it
        pollen = np.minimum(by_year / np.maximum(flowers, LEAST_FLOWERS), 1.0)
        if too_young:
            found = [self._wait_for_itself(tree, by_year)]
        else:
            found = [
                *(() if failing else (self._borrow(tree, pollen), self._graft(tree, pollen))),
                self._wait(pollen, waited_for),
                self._plant(tree, pollen, half),
                *(self._move(tree, pollen, half, *one) for one in movable),
            ]
        # pollen is of use only in years in which the tree itself flowers
        useful = [
            msgspec.structs.replace(
                remedy, adequacy=remedy.adequacy * _in_year(flowers, remedy.year - self.axis.year)
            )
            for remedy in found
            if remedy is not None
        ]
        adding = [
            remedy
            for remedy in useful
            if remedy.adequacy - now >= GAIN and prose.of_ten(remedy.adequacy) != prose.of_ten(now)
        ]
        return tuple(sorted(adding, key=lambda remedy: (remedy.year, -remedy.adequacy)))

    def _wait_for_itself(self, tree: PollenPlant, by_year: FloatArray) -> Remedy | None:
        """Do nothing until the tree itself is as likely to flower as not."""
        grown = self._half_grown(tree)
        if grown is None or not 0 < grown - self.axis.year < len(by_year):
            return None
        return Remedy(
            what=f"wait until {grown}: {tree.label} itself comes to flower",
            year=grown,
            adequacy=float(by_year[grown - self.axis.year])
            / max(float(tree.flowering[1, grown - self.axis.year]), LEAST_FLOWERS),
            effort="nothing to do",
            way="wait",
        )

    def _borrow(self, tree: PollenPlant, by_year: FloatArray) -> Remedy | None:
        """Bring pollen by hand on the days when the tree's flowers take it."""
        if tree.bloom is None or float(tree.flowering[1, 0]) < 0.2:
            return None
        if tree.label in self.too_tall or tree.genotype.carried_only_by:
            return None
        window = receptive(*tree.bloom, tree.genotype.flower_order if dichogamous(tree) else None)
        days = [median(edge) for edge in window]
        if not np.isfinite(days).all():
            return None
        first, last = self.axis.date(days[0]), self.axis.date(days[1])
        past = last < self.on
        if past:
            when = " next season"
        elif first <= self.on:
            when = f" by about {day_words.day(last)}"
        else:
            when = f" about {day_words.stretch(first, last)}"
        return Remedy(
            what=f"borrow pollen of {self._words.partner(tree)}{when}",
            year=self.axis.year + past,
            adequacy=_with(float(by_year[int(past)]), self.numbers["partner_borrow"]),
            effort="two dry afternoons with a brush",
            way="borrow",
            first_day=None if past else first,
            last_day=None if past else last,
            guess=True,
        )

    def _wait(self, by_year: FloatArray, waited_for: PollenPlant | None) -> Remedy | None:
        """Do nothing until the partner that adds most is as likely to flower as not.

        Waiting is no help where the tree would lack a partner for all that.
        """
        best, enough = float(by_year.max()), self.numbers["partner_lacks_below"]
        if best - float(by_year[0]) < GAIN or best < enough or waited_for is None:
            return None
        years = int(np.argmax(by_year >= (by_year[0] + best) / 2))
        grown = self._half_grown(waited_for)
        if grown is not None and 0 < grown - self.axis.year < len(by_year):
            years = grown - self.axis.year
        years = max(years, int(np.argmax(by_year >= enough)))
        year = self.axis.year + years
        return Remedy(
            what=f"wait until {year}: {waited_for.label} comes to flower",
            year=year,
            adequacy=float(by_year[years]),
            effort="nothing to do",
            way="wait",
        )

    def _graft(self, tree: PollenPlant, by_year: FloatArray) -> Remedy | None:
        """Set a scion of a compatible genotype into the tree itself."""
        grafted = tree.kind.age.grafted_years
        if tree.kind.habit not in LASTING_WOOD or grafted is None or not stated(grafted):
            return None
        slow = grafted.value > SLOW_KIND
        years = GRAFT_YEARS[1] if slow else GRAFT_YEARS[0]
        chance = (
            self.numbers["partner_graft_flowers"] * self.numbers["partner_graft_pollen"] * self._overlap(tree)
        )
        return Remedy(
            what=f"graft {self._words.scion(tree)} onto {tree.label}",
            year=self.axis.year + years,
            adequacy=_with(_in_year(by_year, years), chance),
            effort="one scion cut while dormant, set in at bud break, tied and watched for a summer",
            way="graft",
            guess=True,
        )

    def _plant(self, tree: PollenPlant, by_year: FloatArray, half: float) -> Remedy | None:
        """Plant a partner near by; counted from the year by which most such plants flower."""
        age = flowering_age_of_bought(tree.kind)
        if age is None:
            return None
        ages = np.arange(1, len(by_year))
        flowers = share_flowering(ages.astype(float), age.middle, age.spread)
        grown = flowers >= PLANT_FLOWERS
        years = 1 + int(np.argmax(grown)) if grown.any() else len(flowers)
        place, metres, where = self._place(tree, tree.kind, half)
        chance = float(flowers[years - 1]) * self._overlap(tree) * _near(metres, half)
        return Remedy(
            what=f"plant {self._words.partner(tree)} {where}",
            year=self.axis.year + 1 + years,
            adequacy=_with(_in_year(by_year, 1 + years), chance),
            effort="one plant to find, set, guard and water",
            way="plant",
            guess=True,
            place=place,
        )

    def _place(self, tree: PollenPlant, kind: Kind, half: float) -> tuple[Point | None, float, str]:
        """Where there is room near a tree, how far off, and in words; half-way to `half` where not known."""
        crown, at = kind.size.grown_radius, tree.point
        spot = self.planting_room.spot(at, crown, half) if at else None
        if at is None or spot is None:
            return None, half / 2, f"within {metres_words(half / 2)}"
        metres = at.metres_to(spot)
        return spot, metres, f"{metres_words(metres)} {compass(at, spot)[0]} of {tree.label}"

    def _move(
        self,
        tree: PollenPlant,
        by_year: FloatArray,
        half: float,
        donor: PollenPlant,
        metres: float,
        worth: float,
    ) -> Remedy | None:
        """Move a young plant close; counted from the year by which it flowers as likely as not."""
        plant = donor.plant
        young = plant is not None and (plant.age(self.axis.year) or np.inf) <= YOUNG_ENOUGH_TO_MOVE
        if plant is None or donor.age is None or plant.year is None or not young or metres <= half / 2:
            return None
        ages = self.axis.year + np.arange(len(by_year)) - plant.year + plant.age_when_planted - SET_BACK
        flowers = share_flowering(ages.astype(float), donor.age.middle, donor.age.spread)
        likely = flowers >= OLD_ENOUGH
        likely[0] = False  # it cannot stand elsewhere before the next dormant season
        if not likely.any():
            return None
        years = int(np.argmax(likely))
        place, near, where = self._place(tree, donor.kind, half)
        if near >= metres:
            return None
        there = float(flowers[years]) * worth * _near(near, half)
        return Remedy(
            what=f"move {donor.label} to {where if place else f'{where} of {tree.label}'}",
            year=self.axis.year + years,
            adequacy=max(float(by_year[years]), _with(0.0, there)),
            effort="two people, half a day, while it is dormant",
            way="move",
            place=place,
        )

    def _overlap(self, tree: PollenPlant) -> float:
        """Chance that a partner as early as itself would cover enough of the tree's receptive days."""
        if tree.bloom is None:
            return self.numbers["partner_unknown_overlap"]
        order = tree.genotype.flower_order if dichogamous(tree) else None
        start, end = tree.bloom
        needed, stray = (self.numbers[f"partner_{name}"] for name in ("enough_overlap", "stray_days"))
        taking = receptive(start[None], end[None], order)
        earlier_and_later = np.array([[-stray], [stray]])
        giving = shedding(start + earlier_and_later, end + earlier_and_later, OPPOSITE.get(order))
        chances, _ = mean_overlaps(taking, giving, np.array([0, 0]), np.array([0, 1]), needed)
        return float(chances.mean())

    def _half_grown(self, donor: PollenPlant) -> int | None:
        return year_flowering(donor.plant, donor.age) if donor.plant and donor.age else None

    @cached_property
    def _words(self) -> WantedWords:
        return WantedWords(self.library, self.numbers)


def _near(metres: float, half: float) -> float:
    return float(counts(np.array(metres / half)))


def _with(chance: float, added: float) -> float:
    return 1.0 - (1.0 - chance) * (1.0 - added)


def _in_year(by_year: FloatArray, years: int) -> float:
    return float(by_year[min(years, len(by_year) - 1)])
