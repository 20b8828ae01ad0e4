"""Bloom dates learnt from other sites and from a plant's own noted springs.

`fit_prior` learns a kind from many sites. `predict` says when one plant of it opens in one year, from the
site's weather and from what was noted of the plant. Both stand on what a garden's pages stand on: the same
priors, the same reading of notes, the same days. The method, and how well it does, are in docs/skill.md.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping

import numpy as np

from leafturn.base.value import Value
from leafturn.bloom.intervals import DaySpread
from leafturn.bloom.notes.one_plant import bloom_spread, dates_alone, read_notes
from leafturn.bloom.priors.fit import learnt
from leafturn.bloom.priors.interval_calibration import with_calibrated_intervals
from leafturn.bloom.priors.prior import BloomPrior
from leafturn.bloom.season_dates import day_before_new_year, season_days, season_of, typical_day
from leafturn.bloom.site_years import ENOUGH, SiteYears, site_years
from leafturn.bloom.years_ahead import season_members
from leafturn.weather.record import DailyRecord

Notes = Mapping[int, float] | Iterable[tuple[int, float]]

MOST_NOTES = 12  # those nearest in time; older ones hardly count any more
LOOK_BEYOND = 15  # [d] after the usual day, up to where an observed season's weather must be known


class BloomDay(Value):
    """When a plant opens in one year; days are days of that calendar year, 1 for 1 January.

    Parameters
    ----------
    mean, likely : float
        Mean and median. May be below 1 for a kind that opens about New Year.
    early, late : float
        One year in ten before `early`, one in ten after `late`.
    sd : float [d]
        Standard deviation.
    book : float
        What the kind alone says for this weather (median).
    own : float or None
        Mean of the own dates; None without notes.
    notes : int
        How many own notes were used.
    own_share : float
        Share of the answer that rests on the own dates by themselves, because they do not go with the
        weather as the kind's do, or because there is no weather.
    questioned : tuple of int
        Years whose notes lie far from what the others say, and count for less.
    weather : str
        "observed", "known to a day, then past years" or "none".
    """

    year: int
    mean: float
    likely: float
    early: float
    late: float
    sd: float
    book: float
    own: float | None
    notes: int
    own_share: float
    questioned: tuple[int, ...] = ()
    weather: str


def fit_prior(records: Mapping[str, Mapping[int, float]], weather: Mapping[str, DailyRecord]) -> BloomPrior:
    """Learn a kind from noted days at many sites.

    Parameters
    ----------
    records : mapping of site to mapping of year to day of the year
    weather : mapping of site to DailyRecord
        Sites without weather teach nothing.

    Returns
    -------
    BloomPrior

    Raises
    ------
    ValueError
        If no note falls in a season whose weather is known.
    """
    sites = {name: site_years(weather[name]) for name in records if name in weather and records[name]}
    if not sites:
        raise ValueError("no site has both notes and weather, so nothing can be learnt")
    southern = {name: site.southern for name, site in sites.items()}
    typical = typical_day({name: records[name] for name in sites}, southern)
    days = {name: season_days(records[name], typical, southern[name]) for name in sites}
    return with_calibrated_intervals(learnt(days, sites, typical), days, sites)


def predict(
    prior: BloomPrior,
    notes: Notes,
    weather: DailyRecord | None,
    year: int,
    known_until: dt.date | int | None = None,
) -> BloomDay:
    """When a plant opens in a year.

    Parameters
    ----------
    prior : BloomPrior
        The kind, from `fit_prior`.
    notes : mapping of year to day of the year, or pairs of them
        Of this plant. A note of the year itself is left out.
    weather : DailyRecord or None
        Of the site, with as many past years as there are. With None only dates can be used.
    year : int
        In the south a kind that opens after New Year is asked for by the calendar year it opens in.
    known_until : date or int, optional
        The last day whose weather is known, a date or a day of `year`. What follows is taken from the site's
        own past years, moved by the warming since. Weather and notes after it are not looked at. With None
        the weather of the whole season counts as observed.

    Returns
    -------
    BloomDay
    """
    if isinstance(known_until, int):
        known_until = dt.date(year, 1, 1) + dt.timedelta(days=known_until - 1)
    site = None if weather is None else site_years(weather)
    southern = site is not None and site.southern
    season = season_of(year, prior.typical_day, southern)
    own = season_days(dict(notes), prior.typical_day, southern)
    own.pop(season, None)
    if site is not None and known_until is not None:
        site = site.until(known_until)
        own = {y: d for y, d in own.items() if site.start(y) + dt.timedelta(days=round(d) - 1) <= known_until}
    own = dict(sorted(own.items(), key=lambda note: abs(note[0] - season))[:MOST_NOTES])
    here = prior.at(None if site is None else site.winter)
    shift = -day_before_new_year(season, year, southern)
    dates = DaySpread.by_dates(*dates_alone(here, list(own.values()), here.day))
    if site is None or _too_thin(site, season, dates.mean, known_until):
        spreads = dates, DaySpread.by_dates(*dates_alone(here, [], here.day))
        return _answer(year, shift, spreads, own, 1.0 if own else 0.0, (), "none")
    members = site.season(season)[:, None] if known_until is None else season_members(site, season)
    sums = prior.response.sums(members[0], members[1])
    read, alone = (read_notes(prior, here, notes_of, site, season) for notes_of in (own, {}))
    spread, book = bloom_spread(prior, read, sums), bloom_spread(prior, alone, sums)
    words = "observed" if known_until is None else "known to a day, then past years"
    return _answer(year, shift, (spread, book), own, read.by_dates, read.questioned, words)


def _too_thin(site: SiteYears, season: int, usual_day: float, known_until: dt.date | None) -> bool:
    """Whether a record knows too little of the season, or of seasons at all, to go by the weather."""
    if known_until is None:
        return site.known(season, usual_day + LOOK_BEYOND) < ENOUGH
    return site.covered < ENOUGH


def _answer(
    year: int,
    shift: float,
    spreads: tuple[DaySpread, DaySpread],
    own: Mapping[int, float],
    own_share: float,
    questioned: tuple[int, ...],
    weather: str,
) -> BloomDay:
    """The answer in days of the calendar year, which lie `shift` days after day numbers.

    `spreads` are the day with the notes and by the book alone.
    """
    spread, book = spreads
    return BloomDay(
        year=year, mean=spread.mean + shift, likely=spread.day(0.5) + shift, early=spread.day(0.1) + shift,
        late=spread.day(0.9) + shift, sd=spread.sd, book=book.day(0.5) + shift,
        own=float(np.mean(list(own.values()))) + shift if own else None, notes=len(own), own_share=own_share,
        questioned=questioned, weather=weather,
    )  # fmt: skip
