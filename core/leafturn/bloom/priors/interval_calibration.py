"""How much wider ranges must be than computed, tried on the sites that a prior was learnt from."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Mapping
from statistics import NormalDist

import numpy as np
from msgspec.structs import replace

from leafturn.base.arrays import median
from leafturn.base.value import Value
from leafturn.bloom.intervals import DaySpread, days_of_members
from leafturn.bloom.notes.one_plant import NotesRead, by_warmth, level_sd, read_notes
from leafturn.bloom.priors.fit import Days
from leafturn.bloom.priors.prior import BloomPrior, KindHere
from leafturn.bloom.site_years import ENOUGH, SiteYears
from leafturn.bloom.years_ahead import season_members

TRIED_NOTES = 300  # guess: so many of all, drawn at random
NOTES_BEFORE = 3
USUAL, USUAL_NOTES = 1.1, 40.0  # used where there are few notes to try; guess
# [d] before a site's usual day: ranges ahead are tried from a month and from a season before it, by turns
AHEAD_DAYS = (30, 90)
AHEAD_STEPS = np.arange(0.8, 2.01, 0.05)
HELD = 0.8
_WITHIN = NormalDist().inv_cdf((1 + HELD) / 2)  # standard deviations from the middle that hold four in five


class _Trial(Value, eq=False, kw_only=False):
    """One noted day with what the three notes before it say."""

    site: SiteYears
    here: KindHere
    season: int
    observed: float
    asked: dt.date
    read: NotesRead


def with_calibrated_intervals(
    prior: BloomPrior, days: Mapping[str, Days], sites: Mapping[str, SiteYears]
) -> BloomPrior:
    """The prior with the factors under which four in five noted days fall in their 80 % range.

    Each tried note is forecast from the three notes before it at its site: once with the weather observed,
    and once as it stood a month, or by turns a season, before the site's usual day.

    Parameters
    ----------
    prior : BloomPrior
    days : mapping of site to mapping of season to day number
    sites : mapping of site to SiteYears
    """
    plain = replace(prior, widening=1.0, widening_ahead=1.0)
    trials = _trials(plain, days, sites)
    observed = replace(plain, widening=_eked_out(_with_weather(plain, trials), len(trials)))
    return replace(observed, widening_ahead=_eked_out(_ahead(observed, trials), len(trials)))


def _eked_out(factor: float, trials: int) -> float:
    share = trials / (trials + USUAL_NOTES)
    return math.exp(share * math.log(max(factor, 0.1)) + (1 - share) * math.log(USUAL))


def _with_weather(prior: BloomPrior, trials: list[_Trial]) -> float:
    """The factor on the spread of levels."""
    apart = []
    for trial in trials:
        weather = trial.site.season(trial.season)[:, None]
        spread = by_warmth(prior, trial.read, prior.response.sums(weather[0], weather[1]))
        apart.append(abs(trial.observed - spread.mean) / max(spread.sd, 0.1))
    return float(np.quantile(apart, HELD)) / _WITHIN if apart else USUAL


def _ahead(prior: BloomPrior, trials: list[_Trial]) -> float:
    """The factor on what the weather to come adds: the least under which enough days are held."""
    held = np.zeros(len(AHEAD_STEPS))
    tried = 0
    for trial in trials:
        known = trial.site.until(trial.asked)
        if known.covered < ENOUGH:
            continue
        weather = season_members(known, trial.season)
        sd = level_sd(prior, trial.read)
        days = days_of_members(prior.response.sums(weather[0], weather[1]), trial.read.level.mean, sd)
        tried += 1
        for step, factor in enumerate(AHEAD_STEPS):
            spread = DaySpread.of_members(days, factor)
            held[step] += spread.day((1 - HELD) / 2) <= trial.observed <= spread.day((1 + HELD) / 2)
    if not tried:
        return USUAL
    return float(np.interp(HELD, np.maximum.accumulate(held / tried), AHEAD_STEPS))


def _trials(prior: BloomPrior, days: Mapping[str, Days], sites: Mapping[str, SiteYears]) -> list[_Trial]:
    """Some notes with others before them, the same at every run, whose dates go with the weather."""
    all_notes = [
        (name, season)
        for name, own in days.items()
        for season in sorted(own)[1:]
        if name in sites and sites[name].known(season, own[season]) >= ENOUGH
    ]
    chosen = np.random.default_rng(1999).permutation(len(all_notes))[:TRIED_NOTES]
    here = {name: prior.at(site.winter) for name, site in sites.items()}
    found: list[_Trial] = []
    for name, season in (all_notes[i] for i in sorted(chosen)):
        own, site = days[name], sites[name]
        before = {y: own[y] for y in sorted(y for y in own if y < season)[-NOTES_BEFORE:]}
        read = read_notes(prior, here[name], before, site, season)
        if read.by_dates < 0.5:
            usual = median(list(own.values()))
            ahead = AHEAD_DAYS[len(found) % len(AHEAD_DAYS)]
            asked = site.start(season) + dt.timedelta(days=round(usual) - 1 - ahead)
            found.append(_Trial(site, here[name], season, own[season], asked, read))
    return found
