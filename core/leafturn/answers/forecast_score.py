"""How far forecasts of the last seasons missed, beside the published date and the mean of earlier notes."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence

import numpy as np

from leafturn.answers.forecast_events import (
    FROSTS,
    LEAD_DAYS,
    OF_PLANTS,
    Event,
    Hindcast,
    ObservedEvent,
    What,
)
from leafturn.answers.night_score import NightScore
from leafturn.base import prose
from leafturn.base.bloom_stages import FIRST_OPEN
from leafturn.base.value import Value
from leafturn.season.axis import SeasonAxis

SEASONS = 3

NOTHING = "No forecast can be judged yet: it takes a first open flower noted in a spring before this one."
_CALLED: Mapping[What, str] = {
    "first open": "First open flowers", "leaf-out": "Leaf-out", "picking": "First picking",
    "leaf fall": "Leaf fall", "last frost": "The last frost", "first frost": "The first frost",
}  # fmt: skip

Progress = Callable[[int, int], None]
Hindcasts = Callable[[dt.date, SeasonAxis, Collection[str]], Mapping[Event, Hindcast]]


class Miss(Value):
    """One noted event, beside what was foretold and what fixed dates would have said.

    Parameters
    ----------
    plant : str
        Empty for frost.
    observed, asked, forecast : date
        `forecast` is the day as it stood on `asked`.
    published : date or None
        Its usual date here without any note: by the book or the open records; of frost by the years before.
    notes_mean : date or None
        Mean date of earlier notes of the plant, of frost of earlier years; None without any.
    miss, fixed_miss, notes_miss : int [d]
        Of the forecast, the published date and the mean of notes; positive where they were too late.
    what : str
        What was foretold.
    """

    plant: str
    observed: dt.date
    asked: dt.date
    forecast: dt.date
    published: dt.date | None
    notes_mean: dt.date | None
    miss: int
    fixed_miss: int | None
    notes_miss: int | None
    what: What = "first open"


class Misses(Value):
    """Misses of several forecasts and their mean sizes [days]; `says` compares like with like."""

    misses: tuple[Miss, ...]
    says: str

    @property
    def forecast_mean(self) -> float:
        """Over all that was noted."""
        return _mean_miss(self.misses)

    @property
    def fixed_mean(self) -> float | None:
        """Of the published date, over those that have one; None where there are none."""
        return _of_others(self.misses, "fixed_miss")

    @property
    def notes_mean(self) -> float | None:
        """Of the mean of notes, over those with earlier notes; None where there are none."""
        return _of_others(self.misses, "notes_miss")


class SeasonScore(Misses):
    """A season's misses of first open flowers."""

    season: int


class KindScore(Misses):
    """The misses of one kind of forecast over its last three seasons."""

    what: What


class Score(Value):
    """How forecasts did.

    `seasons` are the last that have notes of first open flowers, the latest first, which `says` has in words;
    `kinds` holds every kind of forecast that can be judged; `nights` the cold nights that were given.
    """

    seasons: tuple[SeasonScore, ...]
    says: str
    kinds: tuple[KindScore, ...] = ()
    nights: NightScore | None = None


def forecast_score(
    axis: SeasonAxis,
    noted: Sequence[ObservedEvent],
    hindcasts_on: Hindcasts,
    progress: Progress | None = None,
    nights: NightScore | None = None,
) -> Score:
    """Judge the forecasts of the last seasons before one by what was noted.

    Parameters
    ----------
    axis : SeasonAxis
        The season that is not yet over; those before it are judged.
    noted : sequence of ObservedEvent
        Oldest first.
    hindcasts_on : callable
        What was foretold of a season and some plants on a day, knowing nothing later; asked once for each
        day.
    progress : callable, optional
        Called with the days asked and how many there are; it may raise to stop.
    nights : NightScore, optional
        How cold nights did; passed on.

    Returns
    -------
    Score
        Where a fixed date would have done better `says` tells it.
    """
    judged = [one for what in (*OF_PLANTS, *FROSTS) for one in _last_seasons(noted, what, axis)]
    asked: dict[tuple[dt.date, SeasonAxis], set[str]] = {}
    for one in judged:
        asked.setdefault((one.asked, one.season), set()).add(one.event.plant)
    hindcasts: dict[tuple[dt.date, SeasonAxis], Mapping[Event, Hindcast]] = {}
    for done, ask in enumerate(sorted(asked)):
        if progress is not None:
            progress(done, len(asked))
        hindcasts[ask] = hindcasts_on(*ask, asked[ask])
    misses: dict[What, list[Miss]] = {}
    seasons: dict[int, list[Miss]] = {}
    for one in judged:
        miss = _miss(one, hindcasts[one.asked, one.season].get(one.event), noted)
        if miss is not None:
            misses.setdefault(miss.what, []).append(miss)
            if miss.what == FIRST_OPEN.name:
                seasons.setdefault(one.season.year, []).append(miss)
    by_season = tuple(_of_season(year, tuple(seasons[year])) for year in sorted(seasons, reverse=True))
    return Score(
        seasons=by_season,
        says=by_season[0].says if by_season else NOTHING,
        kinds=tuple(_of_kind(what, tuple(found)) for what, found in misses.items()),
        nights=nights,
    )


def _last_seasons(noted: Iterable[ObservedEvent], what: What, axis: SeasonAxis) -> list[ObservedEvent]:
    """What was noted of one kind in the last seasons before `axis` that have notes of it."""
    before = [one for one in noted if one.event.what == what and one.season < axis]
    years = sorted({one.season.year for one in before}, reverse=True)[:SEASONS]
    return [one for one in before if one.season.year in years]


def _miss(one: ObservedEvent, hindcast: Hindcast | None, noted: Iterable[ObservedEvent]) -> Miss | None:
    if hindcast is None or hindcast.likely is None:
        return None
    earlier = [_days_off(o.on, one.on) for o in noted if o.event == one.event and o.season < one.season]
    notes = round(float(np.mean(earlier))) if earlier else None
    return Miss(
        plant=one.event.plant,
        observed=one.on,
        asked=one.asked,
        forecast=hindcast.likely,
        published=hindcast.published,
        notes_mean=None if notes is None else one.on + dt.timedelta(days=notes),
        miss=(hindcast.likely - one.on).days,
        fixed_miss=None if hindcast.published is None else (hindcast.published - one.on).days,
        notes_miss=notes,
        what=one.event.what,
    )


def _days_off(earlier: dt.date, on: dt.date) -> int:
    """Days by which a date of an earlier year lies later in the year than another."""
    year = earlier.year + round((on - earlier).days / 365.25)
    leap_day = (earlier.month, earlier.day) == (2, 29)
    return (earlier.replace(year=year, day=28 if leap_day else earlier.day) - on).days


def _of_season(year: int, misses: tuple[Miss, ...]) -> SeasonScore:
    over = prose.count(len(misses), "bloom")
    made = f"forecasts made {LEAD_DAYS} days ahead"
    first = f"In {year} {made} missed by {_mean_miss(misses):.1f} days on average over {over}."
    return SeasonScore(season=year, misses=misses, says=_in_words(first, misses))


def _of_kind(what: What, misses: tuple[Miss, ...]) -> KindScore:
    seasons = prose.count(len({m.observed.year for m in misses}), "year")
    ahead = f"{LEAD_DAYS} days" if what == FIRST_OPEN.name else "two to three weeks"
    missed = f"forecasts made {ahead} ahead missed by {_mean_miss(misses):.1f} days on average"
    first = f"{_CALLED[what]}: {missed} over {len(misses)} in {seasons}."
    return KindScore(what=what, misses=misses, says=_in_words(first, misses))


def _in_words(first: str, misses: tuple[Miss, ...]) -> str:
    """The forecast's mean miss, then what fixed dates came to on the same events."""
    frost, of = misses[0].what in FROSTS, len(misses)
    fixed, mean = ("usual date", "earlier years") if frost else ("published date", "earlier notes")
    sentences = (
        first,
        _beside(f"The {fixed}", _pairs(misses, "fixed_miss"), of),
        _beside(f"The mean of {mean}", _pairs(misses, "notes_miss"), of),
    )
    return " ".join(sentence for sentence in sentences if sentence)


def _pairs(misses: Iterable[Miss], which: str) -> list[tuple[int, int]]:
    """Misses of the forecast beside those of something else, where there are both."""
    found = ((m.miss, getattr(m, which)) for m in misses)
    return [(abs(ours), abs(theirs)) for ours, theirs in found if theirs is not None]


def _of_others(misses: Iterable[Miss], which: str) -> float | None:
    pairs = _pairs(misses, which)
    return _mean(theirs for _, theirs in pairs) if pairs else None


def _mean_miss(misses: Iterable[Miss]) -> float:
    return _mean(abs(m.miss) for m in misses)


def _mean(values: Iterable[float]) -> float:
    return float(np.mean(list(values)))


def _beside(what: str, pairs: list[tuple[int, int]], of: int) -> str:
    """What something else missed by on the same events, and which did better; empty where there are none."""
    if not pairs:
        return ""
    ours, theirs = (_mean(column) for column in zip(*pairs, strict=True))
    sentence = f"{what} missed by {theirs:.1f}"
    if len(pairs) < of:
        sentence += f" where there is one ({len(pairs)} of {of}), there the forecast by {ours:.1f}"
    if f"{ours:.1f}" == f"{theirs:.1f}":
        return f"{sentence}: no better and no worse."
    return f"{sentence}: {'it would have done better' if theirs < ours else 'the forecast did better'}."
