"""Heavy and light years: plants whose harvests swing from one year to the next."""

from __future__ import annotations

import datetime as dt
import itertools
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from leafturn.base.value import Value
from leafturn.journal.entries import Entry, HarvestNote
from leafturn.journal.noted import of_kind
from leafturn.season.axis import SeasonAxis

LEAST_HARVESTS = 4  # below it nothing is said of heavy and light years
ALTERNATES = 0.5  # guess: an index above it is told
# Guesses: a smaller swing is told where even and odd years differ so much that a shuffle of the same crops
# would do it in a tenth of the cases at most. Five crops or fewer never get there.
SWINGS, BY_CHANCE = 0.2, 0.1
MOST_COUNTED = 14  # latest seasons in the shuffle: there are few enough ways of parting them to try all


class OnOff(Value):
    """How far a plant swings between heavy and light years, 0 (never) to 1 (nothing every other year)."""

    plant: str
    index: float
    years: int
    says: str


def alternate_bearing(crops: Sequence[float]) -> float:
    """Index of alternate bearing of the crops of years that follow one another, 0 to 1.

    Notes
    -----
    The mean of ``|a - b| / (a + b)`` over neighbouring years. Hoblyn, Grubb, Painter and Wates 1936, Studies
    in biennial bearing, Journal of Pomology 14: 39-76; from memory, not re-read.
    """
    pairs = [(a, b) for a, b in pairwise(crops) if a + b > 0]
    return sum(abs(a - b) / (a + b) for a, b in pairs) / len(pairs) if pairs else 0.0


def swings(entries: Iterable[Entry], southern: bool) -> Iterator[OnOff]:
    """Plants whose harvests swing, told only from four seasons in a row with kilograms noted."""
    by_plant: dict[str, dict[int, float]] = {}
    latest: dict[str, dt.date] = {}
    for e in of_kind(entries, HarvestNote):
        if e.plant and e.kg is not None:
            years = by_plant.setdefault(e.plant, {})
            year = SeasonAxis.holding(e.on, southern).year
            years[year] = years.get(year, 0.0) + e.kg
            latest[e.plant] = max(e.on, latest.get(e.plant, e.on))
    for plant, years in by_plant.items():
        run = _latest_run(sorted(years))
        if len(run) < LEAST_HARVESTS:
            continue
        crops = [years[y] for y in run]
        index = alternate_bearing(crops)
        parted = index >= SWINGS and chance_of_parting(crops[-MOST_COUNTED:]) <= BY_CHANCE
        if index < ALTERNATES and not parted:
            continue
        heavy = crops[-1] > crops[-2]
        says = (
            f"{plant} swings between heavy and light years (index {index:.1f} over {len(run)} seasons): "
            f"{latest[plant].year} was {'heavy, so expect less' if heavy else 'light, so expect more'} next."
        )
        yield OnOff(plant=plant, index=index, years=len(run), says=says)


def _latest_run(years: Sequence[int]) -> list[int]:
    run: list[int] = []
    for year in years:
        run = [*run, year] if run and year == run[-1] + 1 else [year]
    return run


def chance_of_parting(crops: Sequence[float]) -> float:
    """How often a shuffle of crops parts even from odd years as far as they are parted, 0 to 1.

    Notes
    -----
    A permutation test (Fisher 1935) of the difference of their means, every parting tried.
    """
    half = len(crops) // 2
    if not half:
        return 1.0
    total, odd = sum(crops), len(crops) - half

    def apart(some: Sequence[float]) -> float:
        return abs(sum(some) / half - (total - sum(some)) / odd)

    found = apart(crops[1::2]) * (1 - 1e-9)
    ways = [apart(some) >= found for some in itertools.combinations(crops, half)]
    return sum(ways) / len(ways)
