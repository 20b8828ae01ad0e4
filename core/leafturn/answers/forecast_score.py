"""How far forecasts of the last seasons missed, beside the published date and the mean of earlier notes."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from leafturn.base import prose
from leafturn.base.bloom_stages import FIRST_OPEN
from leafturn.journal.entries import BloomNote, Entry, of_kind
from leafturn.season.axis import SeasonAxis

LEAD_DAYS = 14  # a forecast is judged by what it said so long before
SEASONS = 3

NOTHING = "No forecast can be judged yet: it takes a first open flower noted in a spring before this one."

Progress = Callable[[int, int], None]


class Hindcast(NamedTuple):
    """A hindcast of one plant: when it was to open, and when it usually does as published."""

    likely: dt.date | None
    published: dt.date | None


@dataclass(frozen=True, kw_only=True)
class Miss:
    """One noted first open, beside what was foretold and what fixed dates would have said.

    Parameters
    ----------
    noted, asked, foretold : date
        `foretold` is the forecast as it stood on `asked`.
    published : date or None
        When it opens in a usual spring here by the book or the open records alone.
    notes_mean : date or None
        Mean date of earlier notes of the plant; None without any.
    miss, fixed_miss, notes_miss : int [d]
        Of the forecast, the published date and the mean of notes; positive where they were too late.
    """

    plant: str
    noted: dt.date
    asked: dt.date
    foretold: dt.date
    published: dt.date | None
    notes_mean: dt.date | None
    miss: int
    fixed_miss: int | None
    notes_miss: int | None


@dataclass(frozen=True, kw_only=True)
class SeasonScore:
    """A season's misses and their averages [days], in absolute value.

    `forecast_mean` is over all blooms, `fixed_mean` over those with a published date, `notes_mean` over those
    with earlier notes; None where there are none. `says` compares like with like.
    """

    season: int
    misses: tuple[Miss, ...]
    forecast_mean: float
    fixed_mean: float | None
    notes_mean: float | None
    says: str


@dataclass(frozen=True, kw_only=True)
class Score:
    """The last seasons that have notes, the latest first, and the latest in words."""

    seasons: tuple[SeasonScore, ...]
    says: str


class _Opened(NamedTuple):
    """A plant's first flower of one season, as first noted."""

    plant: str
    season: SeasonAxis
    on: dt.date

    @property
    def asked(self) -> dt.date:
        return self.on - dt.timedelta(days=LEAD_DAYS)


def forecast_score(
    axis: SeasonAxis,
    entries: Iterable[Entry],
    published: Mapping[str, dt.date | None],
    hindcasts_on: Callable[[dt.date, SeasonAxis], Mapping[str, Hindcast]],
    progress: Progress | None = None,
) -> Score:
    """Judge the forecasts of the last seasons before one by their notes of first open.

    Parameters
    ----------
    axis : SeasonAxis
        The season that is not yet over; those before it are judged.
    entries : iterable of Entry
        Notes not taken back.
    published : mapping of plant to date or None
        Usual date of the plant in `axis`, to tell which season a note in midwinter is of. Only plants named
        here are judged.
    hindcasts_on : callable
        What was foretold of a season on a day, knowing nothing later; asked once for each day.
    progress : callable, optional
        Called with the days asked and how many there are; it may raise to stop.

    Returns
    -------
    Score
        Where a fixed date would have done better `says` tells it.
    """
    opened = _opened(axis, entries, published)
    years = sorted({one.season.year for one in opened if one.season < axis}, reverse=True)[:SEASONS]
    judged = [one for one in opened if one.season.year in years]
    asks = sorted({(one.asked, one.season) for one in judged})
    hindcasts: dict[tuple[dt.date, SeasonAxis], Mapping[str, Hindcast]] = {}
    for done, ask in enumerate(asks):
        if progress is not None:
            progress(done, len(asks))
        hindcasts[ask] = hindcasts_on(*ask)
    seasons = []
    for year in years:
        found = (
            _miss(one, hindcasts[one.asked, one.season].get(one.plant), opened)
            for one in judged
            if one.season.year == year
        )
        misses = tuple(miss for miss in found if miss is not None)
        if misses:
            seasons.append(_summed(year, misses))
    return Score(seasons=tuple(seasons), says=seasons[0].says if seasons else NOTHING)


def _opened(
    axis: SeasonAxis, entries: Iterable[Entry], published: Mapping[str, dt.date | None]
) -> list[_Opened]:
    """The first note of first open of each plant and season, oldest first."""
    first: dict[tuple[str, SeasonAxis], dt.date] = {}
    for entry in of_kind(entries, BloomNote):
        plant = entry.plant
        if entry.stage != FIRST_OPEN.name or plant not in published:
            continue
        key = (plant, _season(entry.on, axis, published[plant]))
        first[key] = min(entry.on, first.get(key, entry.on))
    opened = [_Opened(plant, season, on) for (plant, season), on in first.items()]
    return sorted(opened, key=lambda one: (one.on, one.plant))


def _season(on: dt.date, axis: SeasonAxis, usual: dt.date | None) -> SeasonAxis:
    """The season a note is of: that in which it lies nearest to the plant's usual day."""
    held = SeasonAxis.holding(on, axis.southern)
    if usual is None:
        return held
    day = axis.day(usual)
    return min((held, held.before, held.next), key=lambda season: abs(season.day(on) - day))


def _miss(one: _Opened, hindcast: Hindcast | None, opened: Iterable[_Opened]) -> Miss | None:
    if hindcast is None or hindcast.likely is None:
        return None
    earlier = [_days_off(o.on, one.on) for o in opened if o.plant == one.plant and o.season < one.season]
    notes = round(float(np.mean(earlier))) if earlier else None
    return Miss(
        plant=one.plant,
        noted=one.on,
        asked=one.asked,
        foretold=hindcast.likely,
        published=hindcast.published,
        notes_mean=None if notes is None else one.on + dt.timedelta(days=notes),
        miss=(hindcast.likely - one.on).days,
        fixed_miss=None if hindcast.published is None else (hindcast.published - one.on).days,
        notes_miss=notes,
    )


def _days_off(earlier: dt.date, on: dt.date) -> int:
    """Days by which a date of an earlier year lies later in the year than another."""
    year = earlier.year + round((on - earlier).days / 365.25)
    leap_day = (earlier.month, earlier.day) == (2, 29)
    return (earlier.replace(year=year, day=28 if leap_day else earlier.day) - on).days


def _summed(year: int, misses: tuple[Miss, ...]) -> SeasonScore:
    fixed, notes = (_pairs(misses, which) for which in ("fixed_miss", "notes_miss"))
    ours = _mean(abs(m.miss) for m in misses)
    over = prose.count(len(misses), "bloom")
    sentences = (
        f"In {year} forecasts made {LEAD_DAYS} days ahead missed by {ours:.1f} days on average over {over}.",
        _beside("The published date", fixed, len(misses)),
        _beside("The mean of earlier notes", notes, len(misses)),
    )
    return SeasonScore(
        season=year,
        misses=misses,
        forecast_mean=ours,
        fixed_mean=_mean(theirs for _, theirs in fixed) if fixed else None,
        notes_mean=_mean(theirs for _, theirs in notes) if notes else None,
        says=" ".join(sentence for sentence in sentences if sentence),
    )


def _pairs(misses: Iterable[Miss], which: str) -> list[tuple[int, int]]:
    """Misses of the forecast beside those of something else, where there are both."""
    found = ((m.miss, getattr(m, which)) for m in misses)
    return [(abs(ours), abs(theirs)) for ours, theirs in found if theirs is not None]


def _mean(values: Iterable[float]) -> float:
    return float(np.mean(list(values)))


def _beside(what: str, pairs: list[tuple[int, int]], blooms: int) -> str:
    """What something else missed by on the same blooms, and which did better; empty where there are none."""
    if not pairs:
        return ""
    ours, theirs = (_mean(column) for column in zip(*pairs, strict=True))
    sentence = f"{what} missed by {theirs:.1f}"
    if len(pairs) < blooms:
        sentence += f" where there is one ({len(pairs)} of {blooms}), there the forecast by {ours:.1f}"
    if f"{ours:.1f}" == f"{theirs:.1f}":
        return f"{sentence}: no better and no worse."
    return f"{sentence}: {'it would have done better' if theirs < ours else 'the forecast did better'}."
