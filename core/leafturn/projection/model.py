"""What a warmer climate changes here, as frozen values."""

from __future__ import annotations

import datetime as dt
from typing import NamedTuple

from leafturn.base.date_range import Likely
from leafturn.base.value import Value


class Span(NamedTuple):
    """A figure with its range."""

    low: float
    likely: float
    high: float


class ClimateThen(Value):
    """The garden's weather in one year to come, as it would usually be.

    Parameters
    ----------
    warming : Span [degC]
        Added to every day since now.
    last_frost, first_frost : Likely
        Dates as in the season of the day of asking.
    frost_free, chill, heat : Span
        Days without frost; chill portions by 1 April (south: 1 October); degree-days above 5 degC of the
        twelve months. One year in ten has less than `low`, one in ten more than `high`, uncertainty of the
        warming included.
    coldest : Span [degC]
        Mean of each year's lowest temperature; the range is that of the warming.
    """

    year: int
    warming: Span
    last_frost: Likely
    first_frost: Likely
    frost_free: Span
    chill: Span
    heat: Span
    coldest: Span


class PlantThen(Value):
    """One plant in one year to come.

    Parameters
    ----------
    first_open : Likely
        Year-to-year range, the uncertainty of the warming included.
    shift : Span [d]
        How much later it opens than now (below 0: earlier); the range is that of the warming.
    frost, chill_short, unripe : Span or None
        Chance that frost takes a third of the crop or more, that winter chill falls short, and that
        fruit is not ripe before the first hard frost; None where nothing is known of it.
    """

    year: int
    first_open: Likely
    shift: Span
    frost: Span | None = None
    chill_short: Span | None = None
    unripe: Span | None = None


class PlantProjection(Value):
    """Plants of one kind and cultivar, now and then; the first of `then` is now."""

    plants: tuple[str, ...]
    kind: str
    then: tuple[PlantThen, ...]


class Edge(Value):
    """A plant near an edge of its climate: which edge, and a sentence."""

    plants: tuple[str, ...]
    edge: str
    says: str


class ClimateProjection(Value):
    """Climate drift of a garden.

    Parameters
    ----------
    stated : float [degC a decade]
        As the garden file states; 0 where it states nothing, and then nothing is warmed.
    uncertainty : float
        Share of the stated warming by which it may be less or more.
    record : Span [degC a decade]
        What the garden's own record shows, pulled to what land does; `record_years` were used.
    climates : tuple of ClimateThen
        Now and in each of the years looked at.
    plants : tuple of PlantProjection
        By first bloom.
    edges : tuple of Edge
    notes : tuple of str
        What was assumed, in sentences.
    """

    on: dt.date
    stated: float
    uncertainty: float
    record: Span
    record_years: int
    climates: tuple[ClimateThen, ...]
    plants: tuple[PlantProjection, ...] = ()
    edges: tuple[Edge, ...] = ()
    notes: tuple[str, ...] = ()

    @property
    def years(self) -> tuple[int, ...]:
        """Now and the years looked at."""
        return tuple(climate.year for climate in self.climates)
