"""How far last season's forecasts missed, beside what a fixed date would have missed."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

import numpy as np

from leafturn import wording
from leafturn.bloom.model import BloomForecast
from leafturn.journal.entries import Entry
from leafturn.season.axis import SeasonAxis

LEAD_DAYS = 14  # a forecast is judged by what it said so long before


@dataclass(frozen=True, kw_only=True)
class Miss:
    """One noted first open beside what was foretold, and beside the mean date of earlier notes.

    `foretold` is the forecast as it stood on `asked`; misses are in days, positive where the forecast was
    too late; `fixed_miss` is None where the plant had no earlier note.
    """

    plant: str
    noted: dt.date
    asked: dt.date
    foretold: dt.date
    miss: int
    fixed_miss: int | None


@dataclass(frozen=True, kw_only=True)
class Score:
    """A season's misses and their averages [days], in absolute value.

    `mean_miss` and `fixed_mean` are over the plants that have both; None where there are none.
    """

    season: int
    misses: tuple[Miss, ...]
    mean_miss: float | None
    fixed_mean: float | None
    says: str


def forecast_score(
    axis: SeasonAxis,
    entries: Iterable[Entry],
    forecasts_on: Callable[[dt.date], Mapping[str, BloomForecast]],
) -> Score:
    """Judge the forecasts of one season by its notes of first open.

    Parameters
    ----------
    axis : SeasonAxis
        The season to judge.
    entries : iterable of Entry
        Standing notes.
    forecasts_on : callable
        The forecasts as they stood on a day, knowing nothing later; asked once for each day.

    Returns
    -------
    Score
        `says` is one sentence to read; where a fixed date would have done better it says so.
    """
    opens = [e for e in entries if e.what == "bloom" and e.stage == "first open" and e.plant]
    asked: dict[dt.date, Mapping[str, BloomForecast]] = {}
    misses = []
    for note in opens:
        if not axis.start <= note.on < axis.next.start:
            continue
        day = note.on - dt.timedelta(days=LEAD_DAYS)
        if day not in asked:
            asked[day] = forecasts_on(day)
        forecast = asked[day].get(note.plant or "")
        if forecast is not None and np.isfinite(np.median(forecast.first_open)):
            misses.append(_miss(note, day, forecast, opens, axis))
    return _summed(axis, misses)


def _miss(
    note: Entry, asked: dt.date, forecast: BloomForecast, opens: Iterable[Entry], axis: SeasonAxis
) -> Miss:
    foretold = SeasonAxis.holding(asked, axis.southern).date(float(np.median(forecast.first_open)))
    days = [_day(e.on, axis) for e in opens if e.plant == note.plant and e.on < axis.start]
    fixed = round(float(np.mean(days))) - _day(note.on, axis) if days else None
    return Miss(
        plant=note.plant or "",
        noted=note.on,
        asked=asked,
        foretold=foretold,
        miss=(foretold - note.on).days,
        fixed_miss=fixed,
    )


def _day(on: dt.date, axis: SeasonAxis) -> int:
    own = SeasonAxis.holding(on, axis.southern)
    return own.day(on)


def _summed(axis: SeasonAxis, misses: list[Miss]) -> Score:
    both = [(abs(m.miss), abs(m.fixed_miss)) for m in misses if m.fixed_miss is not None]
    if not both:
        wants = "it takes a first open noted then, and one in a year before"
        says = f"No bloom of {axis.year} can be judged: {wants}."
        return Score(season=axis.year, misses=tuple(misses), mean_miss=None, fixed_mean=None, says=says)
    ours, fixed = (float(np.mean(column)) for column in zip(*both, strict=True))
    over = f"on average over {wording.count(len(both), 'bloom')}"
    told = f"In {axis.year} forecasts made {LEAD_DAYS} days ahead missed by {ours:.1f} days {over}"
    verdict = "a fixed date would have done better" if fixed < ours else "better than a fixed date"
    return Score(
        season=axis.year,
        misses=tuple(misses),
        mean_miss=ours,
        fixed_mean=fixed,
        says=f"{told}; the mean date of earlier notes missed by {fixed:.1f}: {verdict}.",
    )
