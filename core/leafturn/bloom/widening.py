"""How much wider ranges must be than computed, tried on the sites that a prior was learnt from."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from statistics import NormalDist

import numpy as np

from leafturn.bloom.own_notes import by_warmth, read_notes
from leafturn.bloom.prior import BloomPrior
from leafturn.bloom.prior_fit import Days
from leafturn.bloom.site_years import ENOUGH, SiteYears

TRIED_NOTES = 300
NOTES_BEFORE = 3
USUAL, USUAL_NOTES = 1.1, 40.0  # used where there are few notes to try; guess
_WITHIN = NormalDist().inv_cdf(0.9)  # standard deviations from the middle that hold four in five


def widening(prior: BloomPrior, days: Mapping[str, Days], sites: Mapping[str, SiteYears]) -> float:
    """The factor on standard deviations under which four in five noted days fall in their 80 % range.

    Each tried note is forecast from the three notes before it at its site, with the weather observed.

    Parameters
    ----------
    prior : BloomPrior
    days : mapping of site to mapping of season to day number
    sites : mapping of site to SiteYears
    """
    plain = replace(prior, widening=1.0)
    here = {name: prior.at(site.winter) for name, site in sites.items()}
    apart = []
    for name, season in _tried(days, sites):
        own, site = days[name], sites[name]
        before = {y: own[y] for y in sorted(y for y in own if y < season)[-NOTES_BEFORE:]}
        read = read_notes(plain, here[name], before, site, season)
        if read.by_dates < 0.5:
            tmin, tmax = site.season(season)
            spread = by_warmth(plain, here[name], read, plain.response.sums(tmin[None], tmax[None]))
            apart.append(abs(own[season] - spread.mean) / max(spread.sd, 0.1))
    if not apart:
        return USUAL
    needed = float(np.quantile(apart, 0.8)) / _WITHIN
    share = len(apart) / (len(apart) + USUAL_NOTES)
    return math.exp(share * math.log(max(needed, 0.1)) + (1 - share) * math.log(USUAL))


def _tried(days: Mapping[str, Days], sites: Mapping[str, SiteYears]) -> list[tuple[str, int]]:
    """Some notes with others before them, the same at every run."""
    all_notes = [
        (name, season)
        for name, own in days.items()
        for season in sorted(own)[1:]
        if name in sites and sites[name].known(season, own[season]) >= ENOUGH
    ]
    chosen = np.random.default_rng(1999).permutation(len(all_notes))[:TRIED_NOTES]
    return [all_notes[i] for i in sorted(chosen)]
