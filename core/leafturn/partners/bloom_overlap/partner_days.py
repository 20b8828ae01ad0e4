"""On which days a tree takes pollen and its partners give it, day by day, for a strip on a page."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from leafturn.base.arrays import BoolArray, FloatArray
from leafturn.base.value import Value
from leafturn.bloom.model import BloomForecast
from leafturn.garden.model import Garden, Plant
from leafturn.kinds.specimen import Specimen
from leafturn.partners.bloom_overlap.overlap import Window, receptive, shedding
from leafturn.partners.genetics.genotype import genotype_of
from leafturn.partners.model import TreeReview
from leafturn.season.axis import SeasonAxis
from leafturn.season.garden_day import GardenDay

LEAST_SHARE = 0.05  # days on which fewer ensemble members have the tree open are left off the ends
MOST_DAYS = 120


class DayRow(Value, eq=False):
    """One plant's days: `does` is "takes", "gives" or "both"; `shares` (days,) of ensemble members."""

    plant: str
    does: str
    shares: FloatArray


class PartnerDays(Value, eq=False):
    """The tree's row, its partners' rows, and the days on which the tree and any partner meet.

    `first` is the date of the first column; all rows are as long.
    """

    first: dt.date
    tree: DayRow
    partners: tuple[DayRow, ...]
    meet: DayRow


def partner_days(
    review: TreeReview, day: GardenDay, forecasts: Mapping[str, BloomForecast], axis: SeasonAxis
) -> PartnerDays | None:
    """The days of a tree and of those of its partners that could serve it.

    Parameters
    ----------
    review : TreeReview
    day : GardenDay
    forecasts : mapping of plant id to BloomForecast
    axis : SeasonAxis
        What the forecasts' day numbers mean.

    Returns
    -------
    PartnerDays or None
        None where the tree has no forecast or does not flower this season.
    """
    tree = day.garden.plant(review.plant)
    if tree is None or tree.id not in forecasts:
        return None
    taking = _window(day.specimen(tree), forecasts[tree.id], takes=True)
    donors = _donors(review, day.garden, forecasts)
    giving = [_window(day.specimen(plant), forecasts[plant.id], takes=False) for plant in donors]
    span = _span(taking)
    if span is None:
        return None
    days = np.arange(*span)
    open_ = _open(taking, days)
    shed = [_open(window, days) for window in giving]
    met = np.logical_or.reduce(shed) & open_ if shed else np.zeros_like(open_)
    return PartnerDays(
        first=axis.date(int(days[0])),
        tree=DayRow(plant=tree.id, does="takes", shares=open_.mean(axis=1)),
        partners=tuple(
            DayRow(plant=plant.id, does="gives", shares=row.mean(axis=1))
            for plant, row in zip(donors, shed, strict=True)
        ),
        meet=DayRow(plant="", does="both", shares=met.mean(axis=1)),
    )


def _donors(review: TreeReview, garden: Garden, forecasts: Mapping[str, BloomForecast]) -> list[Plant]:
    """Partners whose pollen suits, strongest first; the tree itself where it bears a grafted branch."""
    named = dict.fromkeys(p.plant for p in review.partners if p.compatible > 0 and p.plant in forecasts)
    found = (garden.plant(name) for name in named)
    return [plant for plant in found if plant is not None]


def _window(specimen: Specimen, forecast: BloomForecast, *, takes: bool) -> Window:
    genotype = genotype_of(specimen)
    order = genotype.flower_order if genotype.system == "dichogamous" else None
    days = receptive if takes else shedding
    return days(forecast.first_open, forecast.end, order)


def _span(taking: Window) -> tuple[int, int] | None:
    """First day and the day after the last that belong on the strip."""
    known = np.isfinite(taking.start) & np.isfinite(taking.end)
    if known.mean() < LEAST_SHARE:
        return None
    first = int(np.floor(np.quantile(taking.start[known], LEAST_SHARE)))
    last = int(np.ceil(np.quantile(taking.end[known], 1 - LEAST_SHARE)))
    return first, min(max(last, first + 1), first + MOST_DAYS)


def _open(window: Window, days: NDArray[np.int_]) -> BoolArray:
    """Whether it is open at noon of each day, (days, draws)."""
    noon = days[:, None] + 0.5
    return np.asarray((window.start[None, :] <= noon) & (noon <= window.end[None, :]))
