"""The rest of a season as it may turn out: past years of the site, moved by the warming since."""

from __future__ import annotations

import numpy as np

from leafturn.base.arrays import FloatArray
from leafturn.bloom.priors.response import DAYS, FIRST_DAY
from leafturn.bloom.site_years import ENOUGH, SiteYears
from leafturn.weather.calendar import LEAP_YEAR_DAYS
from leafturn.weather.normals.normals import PERSISTENCE, SPREAD
from leafturn.weather.synthetic.year_generator import departures

FEWEST_YEARS = 8  # with fewer past years, made-up ones stand beside them; rule of thumb
MOST_YEARS = 30  # thirty years make a normal (WMO)
FEWEST_FOR_TREND = 5

# Warming of December to May used where a site's own record is too short to tell. Land has warmed by about 0.3
# degC in ten years since 1980 (IPCC AR6 WG1 chapter 2, from memory), springs of the middle latitudes somewhat
# faster; how much sites differ is a guess.
TREND, TREND_SPREAD = 0.04, 0.02  # [degC/year]
SPRING = slice(-30 - FIRST_DAY, 130 - FIRST_DAY)  # 1 December to about 9 May

# A mild fortnight is followed by milder days than usual: this share of its departure, fading over so many
# days. Guess; shares of 0.2 to 0.4 forecast best on records of Japanese and Korean cherry.
KEPT, KEPT_OVER, KEPT_FADES = 0.3, 15, 20.0


def season_members(site: SiteYears, year: int) -> FloatArray:
    """A season in as many members as there are past years, (2, members, DAYS) [degC].

    What is known of the season is the same in all; every other day is a past year's, warmer by the trend
    since then, and moved by a part of the last fortnight's departure. With fewer than eight past years,
    made-up ones are added round the usual year.

    Parameters
    ----------
    site : SiteYears
        With nothing known after the day of asking.
    year : int
        Of the season's start.
    """
    warming = trend(site)
    whole = FIRST_DAY + DAYS - 1
    before = [int(y) for y in site.years if y < year and site.known(int(y), whole) >= ENOUGH]
    past = [site.season(y) + warming * (year - y) for y in before[-MOST_YEARS:]]
    if len(past) < FEWEST_YEARS:
        past += list(_made_up(site, year, 2 * FEWEST_YEARS - len(past), warming))
    members = np.stack(past, axis=1)
    last = site.last_known(year)
    if last < 0:
        return members
    now = site.season(year)
    lately = slice(max(last - KEPT_OVER + 1, 0), last + 1)
    departure = float((now[:, None, lately] - members[:, :, lately]).mean())
    fading = np.exp(-np.arange(1, DAYS - last) / KEPT_FADES)
    members[:, :, last + 1 :] += KEPT * departure * fading
    members[:, :, : last + 1] = now[:, None, : last + 1]
    return members


def trend(site: SiteYears) -> float:
    """Warming [degC/year]: the site's own slope, drawn towards the usual one by how well it is known."""
    apart = (site.temperatures - site.usual[:, None]).mean(axis=0)[:, SPRING]
    full = 1 - np.isnan(apart).mean(axis=1) >= ENOUGH
    if np.count_nonzero(full) < FEWEST_FOR_TREND:
        return TREND
    means, when = np.nanmean(apart[full], axis=1), site.years[full] - site.years[full].mean()
    squares = float((when**2).sum())
    slope = float((when * means).sum() / squares)
    own = squares / max(float(np.var(means - slope * when)), 1e-9)
    usual = 1 / TREND_SPREAD**2
    return (slope * own + TREND * usual) / (own + usual)


def _made_up(site: SiteYears, year: int, how_many: int, warming: float) -> FloatArray:
    """Made-up years round the usual year, (members, 2, DAYS)."""
    known = ~np.isnan(site.temperatures).all(axis=(0, 2))
    moved = SPREAD * departures(how_many, PERSISTENCE)[:, np.arange(DAYS) % LEAP_YEAR_DAYS]
    return np.asarray(site.usual[None] + moved[:, None] + warming * (year - site.years[known].mean()))
