"""One plant's noted springs read against its kind, and the date that follows, without a garden round it."""

from __future__ import annotations

import math
from collections.abc import Mapping

import numpy as np

from leafturn.base.arrays import FloatArray
from leafturn.base.value import Value
from leafturn.bloom.intervals import DaySpread
from leafturn.bloom.notes.dates_share import share_by_dates
from leafturn.bloom.notes.level_notes import Level, LevelNote
from leafturn.bloom.notes.thresholds import thresholds
from leafturn.bloom.priors.prior import BloomPrior, KindHere
from leafturn.bloom.priors.response import level_at
from leafturn.bloom.site_years import ENOUGH, SiteYears, stacked

QUESTIONED = 0.5  # weight under which a note is named
COMMON = 0.3  # share of a spring's chance that kinds have in common; of no weight for a plant alone
ENOUGH_SPRINGS, DRAWN = 3, 0.2  # notes of three springs outweigh where others see the kind open


class NotesRead(Value, eq=False):
    """What a plant's notes say.

    Parameters
    ----------
    level : Level
        Its level in the spring asked for.
    by_dates : float
        Chance that its dates are better taken by themselves, 0 to 1.
    questioned : tuple of int
        Seasons whose notes lie far from the others.
    here : KindHere
        Its kind in the climate of the site.
    own : mapping of season to day number
        The notes themselves, also those of seasons whose weather is not known.
    """

    level: Level
    by_dates: float
    questioned: tuple[int, ...]
    here: KindHere
    own: Mapping[int, float]


def read_notes(
    prior: BloomPrior, here: KindHere, own: Mapping[int, float], site: SiteYears, season: int
) -> NotesRead:
    """Read notes whose seasons have known weather; without any the kind alone speaks.

    Parameters
    ----------
    prior : BloomPrior
    here : KindHere
        The same kind in the climate of the site.
    own : mapping of season to day number
    site : SiteYears
    season : int
        The one asked for.
    """
    years = [year for year, day in own.items() if site.known(year, day) >= ENOUGH]
    notes: list[LevelNote] = []
    if years:
        days = np.array([own[year] for year in years], dtype=float)
        levels, growth = level_at(prior.response.sums(*stacked(site, years)), days)
        notes = [
            LevelNote(target="plant", season=year, level=float(level), day=float(day), growth=float(a_day))
            for year, level, day, a_day in zip(years, levels, days, growth, strict=True)
        ]
    known = thresholds({"plant": here.levels}, {"plant": "kind"}, notes, season, COMMON)
    level = known.levels["plant"]
    share = date_share(notes, level, here)
    if own and not years:
        share = 1.0
    slips = tuple(year for year, weight in zip(years, known.weights, strict=True) if weight < QUESTIONED)
    return NotesRead(level=level, by_dates=share, questioned=slips, here=here, own=own)


def date_share(notes: list[LevelNote], level: Level, here: KindHere) -> float:
    """Chance that a plant's dates are better taken by themselves; 0 without notes of known weather."""
    if not notes:
        return 0.0
    return share_by_dates(
        np.array([note.level for note in notes]), np.array([note.growth for note in notes]),
        np.array([note.day for note in notes]), level.chance + here.levels.drifting / 2, here.year_spread,
        level.stranger, here.degrees_outside,
    )  # fmt: skip


def bloom_spread(prior: BloomPrior, read: NotesRead, sums: FloatArray) -> DaySpread:
    """When a plant opens by its notes and its kind.

    Parameters
    ----------
    prior : BloomPrior
    read : NotesRead
    sums : (members, days)
        Warmth of the season in every ensemble member, from `Response.sums`.
    """
    dates = DaySpread.by_dates(*dates_alone(read.here, list(read.own.values()), read.here.day))
    return by_warmth(prior, read, sums).mixed(dates, read.by_dates)


def by_warmth(prior: BloomPrior, read: NotesRead, sums: FloatArray) -> DaySpread:
    """When a plant opens by its level alone; parameters as above."""
    return DaySpread.by_weather(sums, read.level.mean, level_sd(prior, read), prior.widening_ahead)


def level_sd(prior: BloomPrior, read: NotesRead) -> float:
    """Standard deviation of one spring's level after some notes, a logarithm of warmth."""
    return prior.widening * math.sqrt(read.level.variance)


def dates_alone(here: KindHere, days: list[float], usual: float) -> tuple[float, float]:
    """Mean and standard deviation of the next date by own dates alone, drawn to the kind's usual day here."""
    drawn = (here.year_spread / here.site_spread) ** 2 * (DRAWN if len(days) >= ENOUGH_SPRINGS else 1.0)
    mean = (sum(days) + drawn * usual) / (len(days) + drawn)
    return mean, here.year_spread * math.sqrt(1 + 1 / (len(days) + drawn))
