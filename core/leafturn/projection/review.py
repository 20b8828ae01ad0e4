"""What the stated warming does to bloom, frost, chill and heat in fifteen and thirty years, as ranges."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping, Sequence

import numpy as np
from msgspec.structs import replace

from leafturn.base import quantities
from leafturn.base.arrays import FloatArray, at_share, median
from leafturn.base.date_range import SHARES
from leafturn.base.value import Value
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.projection.edges import edges
from leafturn.projection.model import ClimateProjection, ClimateThen, PlantProjection, PlantThen, Span
from leafturn.projection.warmed import Warmed, warmed
from leafturn.season.garden_day import GardenDay
from leafturn.season.trend import Warming

AHEAD = (0, 15, 30)
_SPAN_C = (-5.0, 10.0)  # degC in all; beyond it a statement is a slip of the pen

Progress = Callable[[int, int], None]


class _Then(Value, eq=False):
    """One year looked at under three warmings: less than stated, as stated, more."""

    year: int
    low: Warmed
    likely: Warmed
    high: Warmed

    def span(self, figure: Callable[[Warmed], float]) -> Span:
        """A figure under the three, its range in order."""
        each = [figure(one) for one in (self.low, self.likely, self.high)]
        return Span(min(each), each[1], max(each))

    def pooled(self, values: Callable[[Warmed], FloatArray]) -> FloatArray:
        """All ensemble members under the three, the middle one counting twice."""
        return np.concatenate([values(one) for one in (self.low, self.likely, self.likely, self.high)])


def climate_projection(
    day: GardenDay, usual: SeasonWeather, trend: Warming, progress: Progress | None = None
) -> ClimateProjection:
    """Bloom, frost, chill and heat now, in fifteen and in thirty years under the stated warming.

    Parameters
    ----------
    day : GardenDay
        Its place states the warming; 0 means that nothing is warmed.
    usual : SeasonWeather
        The season of the day of asking as if nothing of it were known, in today's climate.
    trend : Warming
        Of the garden's own record, shown beside the statement and not used.
    progress : callable, optional
        Called with what is reckoned and how much there is in all; it may raise to stop.

    Notes
    -----
    The same warmth is added to all days and nights of past years (the "delta" method of climate studies).
    Ranges of a shift come from warming less or more than stated by `warming_doubt`; ranges of a date hold the
    weather of the years as well.
    """
    stated, uncertainty = day.garden.place.warming_c_per_decade, day.numbers["warming_doubt"]
    thens = _thens(day, usual, stated, uncertainty, progress)
    plants = tuple(_plants(day, thens))
    climates = tuple(_climate(then) for then in thens)
    return ClimateProjection(
        on=day.on,
        stated=stated,
        uncertainty=uncertainty,
        record=Span(
            *(10 * (trend.per_year + side * 1.2816 * trend.standard_error) for side in (-1, 0, 1))
        ),  # 80 % of a normal distribution
        record_years=trend.years,
        climates=climates,
        plants=plants,
        edges=edges(day, plants, climates),
        notes=_notes(stated, uncertainty, usual.now.made_of.words),
    )


def _thens(
    day: GardenDay, usual: SeasonWeather, stated: float, uncertainty: float, progress: Progress | None
) -> list[_Then]:
    """The years looked at, each under the three warmings; notes of this season are left out."""
    earlier = tuple(entry for entry in day.entries if entry.on < usual.axis.first)
    before = replace(day, entries=earlier)
    shares = (1 - uncertainty, 1.0, 1 + uncertainty)
    wanted = {ahead: [_warming(stated, ahead, share) for share in shares] for ahead in AHEAD}
    each = sorted({celsius for three in wanted.values() for celsius in three})
    found: dict[float, Warmed] = {}
    for count, celsius in enumerate(each, 1):
        found[celsius] = warmed(before, usual, celsius)
        if progress is not None:
            progress(count, len(each))
    return [
        _Then(year=day.on.year + ahead, low=found[low], likely=found[likely], high=found[high])
        for ahead, (low, likely, high) in wanted.items()
    ]


def _warming(stated: float, ahead: int, share: float) -> float:
    return round(float(np.clip(stated * share * ahead / 10, *_SPAN_C)), 3) + 0.0


def _three(values: FloatArray) -> Span:
    return Span(*(at_share(values, share) for share in SHARES))


def _climate(then: _Then) -> ClimateThen:
    likely = then.likely.ensemble.likely
    return ClimateThen(
        year=then.year,
        warming=then.span(lambda one: one.warming),
        last_frost=likely(then.pooled(lambda one: one.last_frost)),
        first_frost=likely(then.pooled(lambda one: one.first_frost)),
        frost_free=_three(then.pooled(lambda one: one.frost_free)),
        chill=_three(then.pooled(lambda one: one.chill)),
        heat=_three(then.pooled(lambda one: one.heat)),
        coldest=then.span(lambda one: float(np.mean(one.coldest))),
    )


def _plants(day: GardenDay, thens: Sequence[_Then]) -> list[PlantProjection]:
    """One line for all plants of a kind and cultivar, by first bloom."""
    now = thens[0].likely.forecasts
    groups: dict[tuple[str, str | None], list[str]] = {}
    for plant in day.garden.plants:
        if plant.id in now and np.isfinite(median(now[plant.id].first_open)):
            same = (day.kind(plant).name, plant.cultivar)
            groups.setdefault(same, []).append(plant.id)
    rows = [
        PlantProjection(
            plants=tuple(group), kind=kind, then=tuple(_together(group, then, thens[0]) for then in thens)
        )
        for (kind, _), group in groups.items()
    ]
    return sorted(rows, key=lambda row: (row.then[0].first_open.likely or dt.date.max, row.plants))


def _together(plants: Sequence[str], then: _Then, now: _Then) -> PlantThen:
    """Plants that flower alike: dates pooled, chances as their mean."""

    def opens(one: Warmed) -> FloatArray:
        return np.concatenate([one.forecasts[plant].first_open for plant in plants])

    def later(one: Warmed) -> float:
        before, after = opens(now.likely), opens(one)
        both = np.isfinite(before) & np.isfinite(after)
        return median(after[both] - before[both]) if both.any() else 0.0

    def chance(of: Callable[[Warmed], Mapping[str, float]]) -> Span | None:
        affected = [plant for plant in plants if plant in of(now.likely)]
        return then.span(lambda one: float(np.mean([of(one)[p] for p in affected]))) if affected else None

    return PlantThen(
        year=then.year,
        first_open=then.likely.ensemble.likely(then.pooled(opens)),
        shift=then.span(later),
        frost=chance(lambda one: one.frost),
        chill_short=chance(lambda one: one.chill_short),
        unripe=chance(lambda one: one.unripe),
    )


def _notes(stated: float, uncertainty: float, basis: str) -> tuple[str, ...]:
    said = []
    if stated == 0:
        said.append(
            "To look ahead write warming_c_per_decade = 0.3, or what you hold likely, under [place]; until "
            "then the years to come are as now."
        )
    else:
        said.append(
            f"{quantities.degrees(stated, None)} a decade is what the garden file states. It may be "
            f"{100 * uncertainty:.0f} % less or more (a guess; warming_doubt under [rule] changes it), which "
            "gives the ranges of the shifts."
        )
    said.append(
        "The same warmth is added to all days and nights of this place's weather "
        f"({basis}). Real warming differs by season, and the swings from year to year may change too."
    )
    said.append(
        "Bloom is reckoned from warmth and winter chill alone, as far as kinds state them; what summers "
        "become too hot or too dry for, nothing here tells. Fruit counts as unripe where a hard frost comes "
        "first; some kinds are picked after it all the same."
    )
    return tuple(said)
