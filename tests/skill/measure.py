"""Forecasting every noted bloom of a site from the notes before it, with a kind learnt from other sites."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np

from leafturn.bloom.learning import BloomDay, fit_prior, predict
from leafturn.bloom.priors.prior import BloomPrior
from leafturn.bloom.season_dates import season_days, season_start
from leafturn.bloom.site_years import ENOUGH, site_years
from leafturn.weather.record import DailyRecord

EARLIER_NOTES = 10  # a row counts from so many earlier notes of its site on
FOLDS = 3
SUMMER_SEASON = 184


@dataclass(frozen=True, kw_only=True)
class Trial:
    """One noted bloom and what was forecast of it.

    Parameters
    ----------
    observed, mean_of_notes : float
        Day numbers of its season.
    """

    site: str
    year: int
    observed: float
    mean_of_notes: float
    forecast: BloomDay


@dataclass(frozen=True, kw_only=True)
class Score:
    """How far forecasts lie from what was observed [d]; `bias` is forecast less observed.

    `unsaid` counts blooms beside the `n` for which no date was given, since the climate is too unlike any in
    which the kind was learnt.
    """

    n: int
    rmse: float
    mae: float
    bias: float
    coverage80: float
    notes_rmse: float
    notes_mae: float
    unsaid: int = 0

    def as_json(self) -> dict:
        """The figures by the names that stay."""
        notes = {"rmse": _figure(self.notes_rmse), "mae": _figure(self.notes_mae)}
        forecast = {name: _figure(getattr(self, name)) for name in ("rmse", "mae", "bias", "coverage80")}
        unsaid = {"unsaid": self.unsaid} if self.unsaid else {}
        return {"n": self.n, "forecast": forecast, "mean_of_notes": notes, **unsaid}


def _figure(value: float) -> float | None:
    return round(value, 4) if np.isfinite(value) else None


def priors(
    records: Mapping[str, Mapping[int, float]], weather: Mapping[str, DailyRecord], folds: int = FOLDS
) -> dict[str, BloomPrior]:
    """For each site a prior that never saw it: sites fall in folds by turns, each learnt from the others."""
    names = sorted(name for name in records if name in weather)
    if len(names) < 2:
        raise ValueError("two sites with notes and weather are needed: one to learn from, one to forecast")
    folds = min(folds, len(names))
    by_site = {}
    for fold in range(folds):
        others = {name: records[name] for i, name in enumerate(names) if i % folds != fold}
        prior = fit_prior(others, weather)
        by_site.update(dict.fromkeys(names[fold::folds], prior))
    return by_site


def trials(
    records: Mapping[str, Mapping[int, float]],
    weather: Mapping[str, DailyRecord],
    learnt: Mapping[str, BloomPrior],
    notes: int,
    lead: int | str | None = None,
) -> Iterator[Trial]:
    """Forecast all rows that have ten earlier notes at their site and known weather.

    Parameters
    ----------
    records, weather : mapping of site
    learnt : mapping of site to BloomPrior
        From `priors`.
    notes : int
        How many of the latest notes the forecast may use.
    lead : int or "jan1" or None
        Weather is known until so many days before the observed date, or to the season's first day, 1 January
        (south: 1 July); None: all of it.
    """
    for name, prior in learnt.items():
        site = site_years(weather[name])
        days = season_days(records[name], prior.typical_day, site.southern)
        seasons = sorted(days)
        for place in range(EARLIER_NOTES, len(seasons)):
            season = seasons[place]
            observed = days[season]
            if site.known(season, observed) < ENOUGH:
                continue
            before = {y: days[y] for y in seasons[place - notes : place]}
            start = season_start(season, site.southern)
            until = None
            if lead is not None:
                until = start if lead == "jan1" else start + dt.timedelta(days=observed - 1 - int(lead))
            year = season + (site.southern and prior.typical_day > SUMMER_SEASON)
            shift = (dt.date(year, 1, 1) - start).days
            in_calendar = {y + year - season: d - shift for y, d in before.items()}
            forecast = predict(prior, in_calendar, weather[name], year, until)
            yield Trial(
                site=name, year=year, observed=observed - shift, forecast=forecast,
                mean_of_notes=float(np.mean(list(in_calendar.values()))) if before else np.nan,
            )  # fmt: skip


def score(tried: list[Trial]) -> Score:
    """Figures over all trials.

    Raises
    ------
    ValueError
        If there are none.
    """
    if not tried:
        raise ValueError(
            f"no row has {EARLIER_NOTES} earlier notes at its site and known weather: nothing to measure"
        )
    observed = np.array([t.observed for t in tried])
    missed = np.array([t.forecast.mean for t in tried]) - observed
    by_notes = np.array([t.mean_of_notes for t in tried]) - observed
    held = [t.forecast.early <= t.observed <= t.forecast.late for t in tried]
    return Score(
        n=len(tried), rmse=float(np.sqrt(np.mean(missed**2))), mae=float(np.mean(np.abs(missed))),
        bias=float(np.mean(missed)), coverage80=float(np.mean(held)),
        notes_rmse=float(np.sqrt(np.mean(by_notes**2))), notes_mae=float(np.mean(np.abs(by_notes))),
    )  # fmt: skip
