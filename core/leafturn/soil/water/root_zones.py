"""Root zones of a garden's plants: depth, water they hold, and the crop factor of the leaves above."""

from __future__ import annotations

import datetime as dt
import math
import re
from collections.abc import Iterable, Sequence

import numpy as np

from leafturn.base.closed_words import WOODY
from leafturn.base.tunables import Numbers
from leafturn.base.value import Value
from leafturn.bloom.leafing import fall_after_frost, leaf_need, leaf_out_days
from leafturn.canopy.stand.growth import growth_of
from leafturn.garden.model import DEAD, Plant
from leafturn.journal.entries import Entry, MovedNote, PlantedNote
from leafturn.journal.job_id import subject_id
from leafturn.journal.questions import of_plant
from leafturn.kinds.fact import value_of
from leafturn.kinds.model import Kind
from leafturn.season.axis import SeasonAxis
from leafturn.season.garden_day import GardenDay
from leafturn.season.heat import HeatSums
from leafturn.season.leaf_time import leaf_fall
from leafturn.soil.water.balance import (
    AVAILABLE_MM_PER_M,
    SHARE_BY_SOIL,
    Buckets,
    factor_by_height,
    thin_cover,
    total_available,
)

UNWANTED = ("remove", "undecided")  # nobody waters these
# Radius of the ground that is watered: of a grown plant as far as its crown reaches (a band from a third of
# the way to a little beyond it: Master Gardeners of San Diego, read), but no farther than where roots share
# with all else (guess); at first the planting hole (guess).
HOLE_M, WIDEST_M = 0.4, 3.0
THIRSTY = "wants water for life"  # the trait of kinds that are watered however old
WATERED_ALL = "rainless years"  # where the year brings hardly any rain, whatever was planted is watered
THIRSTY_WHERE_PARCHED = "wants water in dry summers"  # so are these, where summers or springs are parched
# Where the rains come with summer it is the hot weeks before them: the soil is then kept moist in peach, plum
# and pear orchards (Punjab Agricultural University, as told by The Tribune, May 2021, read).
PARCHED = frozenset({"parched summers", "parched springs"})
ESTABLISHED_YEARS = 3.5  # as in the rule of watering: three summers and the one of planting
# Rooting depth of grown plants of kinds that no table lists: a guess after FAO-56 table 22 (fruit trees
# 1 to 2 m, berries 0.6 to 1.2, grapes and hops 1 to 2).
DEPTH_M = {"tree": 1.5, "shrub": 0.9, "climber": 1.1, "cane": 0.9}
_LITRES = r"([0-9]+(?:[.,][0-9]+)?)\s*(?:l|litres?|liters?)\b"


class RootZone(Value):
    """One plant's roots.

    `root_m` is how deep they draw this year, `total_mm` the water the soil holds there, `area_m2` the
    ground that is watered, `height_m` its height, `crown_m` the radius of its crown, `years_established` the
    years since it was planted or moved (None: not known), `thirsty` whether its kind is watered however old
    here. `guessed` tells that no table lists its kind.
    """

    plant: str
    root_m: float
    total_mm: float
    share: float
    area_m2: float
    height_m: float
    crown_m: float
    years_established: float | None
    guessed: bool
    thirsty: bool = False

    @property
    def established(self) -> bool:
        """Whether it is left to its roots, long out of the planting hole; also where no year tells."""
        grown = self.years_established is None or self.years_established >= ESTABLISHED_YEARS
        return grown and not self.thirsty


def drinkers(day: GardenDay) -> tuple[Plant, ...]:
    """Living plants that are to stay, of kinds that a root zone is followed for."""
    return tuple(
        p
        for p in day.garden.plants
        if p.state not in DEAD and p.plan not in UNWANTED and is_followed(day.kind(p))
    )


def is_followed(kind: Kind) -> bool:
    """Whether the water of a kind's root zone is followed: of all woody kinds, and of thirsty herbs."""
    return kind.habit in WOODY or kind.has(THIRSTY)


def settled_years(plant: Plant, entries: Iterable[Entry], axis: SeasonAxis) -> float | None:
    """Years since a plant was planted or moved here, as of the middle of the season; None if not known."""
    acts = [*of_plant(entries, PlantedNote, plant.id), *of_plant(entries, MovedNote, plant.id)]
    noted = [float(SeasonAxis.holding(act.on, axis.southern).year) for act in acts]
    years = [*noted, *([float(plant.year)] if plant.year is not None else [])]
    return axis.year - max(years) if years else None


def root_depth(grown_m: float, years_established: float | None, numbers: Numbers) -> float:
    """Depth roots draw from [m]: that of the planting hole at first, a grown plant's after some years.

    A straight line between the two, a guess; plants of unknown age are taken as grown.
    """
    start = min(numbers["young_root_m"], grown_m)
    return start + (grown_m - start) * _grown_share(years_established, numbers)


def root_ground(plant: Plant, crown_m: float, years_established: float | None, numbers: Numbers) -> float:
    """Ground [m2] that is watered: a patch, or a round for each stem, in time as wide as its crown [m]."""
    if plant.patch_m2 is not None:
        return plant.patch_m2
    widest = min(max(crown_m, HOLE_M), WIDEST_M)
    radius = HOLE_M + (widest - HOLE_M) * _grown_share(years_established, numbers)
    return plant.count * math.pi * radius**2


def _grown_share(years_established: float | None, numbers: Numbers) -> float:
    return 1.0 if years_established is None else min(max(years_established, 0.0) / numbers["root_years"], 1.0)


def is_thirsty(kind: Kind, climate: frozenset[str]) -> bool:
    """Whether a kind is watered however old it is, in a climate of such words (leafturn.season.climate)."""
    by_climate = not PARCHED.isdisjoint(climate) and kind.has(THIRSTY_WHERE_PARCHED)
    return WATERED_ALL in climate or by_climate or kind.has(THIRSTY)


def root_zone(plant: Plant, day: GardenDay, axis: SeasonAxis, climate: frozenset[str]) -> RootZone:
    """The root zone of one plant in one season, in a climate of such words (leafturn.season.climate)."""
    kind, numbers, soil = day.kind(plant), day.numbers, day.garden.place.soil
    facts = kind.water
    grown = value_of(facts.root_depth_m, DEPTH_M.get(kind.habit, 0.9))
    years_established = settled_years(plant, day.entries, axis)
    root = root_depth(grown, years_established, numbers)
    share = value_of(facts.depletion, numbers["soil_depletion"])
    growth = growth_of(day.specimen(plant), numbers, axis.year)
    crown = float(growth.radii(axis.year))
    return RootZone(
        plant=plant.id,
        root_m=root,
        total_mm=float(total_available(AVAILABLE_MM_PER_M[soil], root)),
        share=share * SHARE_BY_SOIL[soil],
        area_m2=root_ground(plant, crown, years_established, numbers),
        height_m=float(growth.heights(axis.year)),
        crown_m=crown,
        years_established=years_established,
        guessed=facts.root_depth_m is None or facts.kc_mid is None,
        thirsty=is_thirsty(kind, climate),
    )


def buckets_of(plants: Sequence[Plant], zones: Sequence[RootZone], day: GardenDay, heat: HeatSums) -> Buckets:
    """Root zones with the leaves above them, as arrays.

    Parameters
    ----------
    plants, zones : sequence
        The same plants in the same order.
    heat : HeatSums
        Gives leaf-out; leaf fall follows the first frost or short days.

    Notes
    -----
    Where the crown covers less than the ground its roots draw on, the crop factor lies between that of the
    ground and that of closed leaves (FAO-56 equation 98).
    """
    numbers = day.numbers
    members = heat.ensemble.members
    leafy = np.empty(len(plants))
    out, fall = np.empty((len(plants), members)), np.empty((len(plants), members))
    bare = np.full(len(plants), numbers["ground_crop_factor"])
    for i, plant in enumerate(plants):
        kind, height, crown = day.kind(plant), zones[i].height_m, zones[i].crown_m
        closed = kind.water.kc_mid.value if kind.water.kc_mid else float(factor_by_height(height))
        cover = 1.0 if plant.patch_m2 else min(plant.count * math.pi * crown**2 / zones[i].area_m2, 1.0)
        leafy[i] = max(float(thin_cover(closed, bare[i], cover, height)) - bare[i], 0.0)
        if kind.evergreen:
            out[i], fall[i] = -math.inf, math.inf
            continue
        out[i] = leaf_out_days(heat.ensemble, leaf_need(kind, numbers))
        after = fall_after_frost(kind, numbers)
        fall[i] = leaf_fall(heat.ensemble, day.garden.place.frost_pocket_c, numbers, after)
    return Buckets(
        total_mm=np.array([z.total_mm for z in zones]),
        share=np.array([z.share for z in zones]),
        bare=bare,
        leafy=leafy,
        leaf_out=out,
        leaf_fall=fall,
    )


class Watering(Value):
    """Water noted: `mm` on the plant's ground, inf where no litres were noted: it is taken to be filled."""

    plant: str
    on: dt.date
    mm: float


def waterings(plants: Sequence[Plant], zones: Sequence[RootZone], day: GardenDay) -> tuple[Watering, ...]:
    """Every watering noted of these plants, by their own name or that of their guild.

    Litres noted ("40 l", as the amount or in the text) are shared by ground; only plants not yet
    established are taken to have got any of a guild's.
    """
    by_name: dict[str, list[int]] = {}
    for i, (plant, zone) in enumerate(zip(plants, zones, strict=True)):
        by_name.setdefault(plant.id, []).append(i)
        if plant.guild and not zone.established:
            by_name.setdefault(subject_id(f"{plant.guild} guild"), []).append(i)
    found = []
    for subject, done in day.done("water"):
        who = by_name.get(subject, [])
        mm = _depth(done.amount or done.text, sum(zones[i].area_m2 for i in who))
        found += [Watering(plant=plants[i].id, on=done.on, mm=mm) for i in who]
    return tuple(found)


def _depth(amount: str | None, area: float) -> float:
    litres_match = re.search(_LITRES, amount.lower()) if amount else None
    return float(litres_match[1].replace(",", ".")) / area if litres_match and area > 0 else math.inf
