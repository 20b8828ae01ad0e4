"""Which plants have probably just reached a stage: the list one picks a note from."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping

import numpy as np

from leafturn.base import day_words
from leafturn.base.arrays import FloatArray, median
from leafturn.base.bloom_stages import FLOWERING
from leafturn.base.date_range import Likely
from leafturn.base.name_order import name_order
from leafturn.bloom.model import BloomForecast, LikelyStage
from leafturn.journal.entries import HarvestNote
from leafturn.journal.noted import of_kind
from leafturn.season.ensemble import Ensemble
from leafturn.season.garden_day import GardenDay

JUST = 6  # a stage reached within so many days is worth noting now
PICKED_LATELY_DAYS = 30  # guess: what was picked within so many days is likely picked again


def likely_stages(
    forecasts: Mapping[str, BloomForecast], ensemble: Ensemble, on: dt.date
) -> tuple[LikelyStage, ...]:
    """One line a plant: the next stage not yet noted, likeliest to have just come first.

    Parameters
    ----------
    forecasts : mapping of plant id to BloomForecast
    ensemble : Ensemble
    on : date
        The day of asking.
    """
    today = ensemble.axis.day(on)
    guesses = []
    for plant, forecast in forecasts.items():
        if "none this year" in forecast.observed or not np.isfinite(median(forecast.first_open)):
            continue
        if following := _next_stage(forecast, today):
            guesses.append(_guess(plant, *following, ensemble, today))
    return tuple(sorted(guesses, key=lambda g: (-round(g.chance, 1), _distance(g, on), name_order(g.plant))))


def likely_harvests(
    pickings: Mapping[str, tuple[BloomForecast, Ensemble]], day: GardenDay
) -> tuple[LikelyStage, ...]:
    """Plants that are probably ripe, likeliest first; those picked lately come before the rest.

    Parameters
    ----------
    pickings : mapping of plant id to (BloomForecast, Ensemble)
        Each with the season whose fruit it is: of a picking that goes on over the start of a season, the one
        before.
    day : GardenDay
        The day of asking; harvests are among its notes.
    """
    picked = of_kind(day.entries, HarvestNote)
    lately = {e.plant for e in picked if 0 <= (day.on - e.on).days <= PICKED_LATELY_DAYS}
    guesses = []
    for plant, (forecast, ensemble) in pickings.items():
        if forecast.ripe is None or forecast.picked is None or not np.isfinite(median(forecast.ripe)):
            continue
        today = ensemble.axis.day(day.on)
        chance = float(np.mean((forecast.ripe <= today) & (today <= forecast.picked)))
        when = ensemble.likely(forecast.ripe)
        words = "picked lately" if plant in lately else _begins(when, day.on)
        guesses.append(LikelyStage(plant=plant, stage="harvest", when=when, chance=chance, words=words))

    def place(guess: LikelyStage) -> tuple[float, int, str]:
        likelier = guess.chance + (guess.plant in lately) / 2
        return -round(likelier, 1), _distance(guess, day.on), guess.plant

    return tuple(sorted(guesses, key=place))


def _next_stage(forecast: BloomForecast, today: int) -> tuple[str, FloatArray] | None:
    """The first stage of bloom that is neither noted nor long past; None once petals have fallen."""
    stages = [(stage.name, days) for stage, days in forecast.course() if stage in FLOWERING]
    noted = [n for n, (name, _) in enumerate(stages) if name in forecast.observed]
    following = stages[max(noted) + 1 :] if noted else stages
    for name, days in following[:-1]:
        if median(days) > today - JUST:
            return name, days
    return following[-1] if following else None


def _guess(plant: str, stage: str, days: FloatArray, ensemble: Ensemble, today: int) -> LikelyStage:
    chance = float(np.mean((days > today - JUST) & (days < today + 1)))
    when = ensemble.likely(days)
    on = ensemble.axis.date(today)
    words = "likely today" if chance >= 0.5 else _begins(when, on)
    return LikelyStage(plant=plant, stage=stage, when=when, chance=chance, words=words)


def _begins(when: Likely, on: dt.date) -> str:
    """ "since 13 Apr", "from 19 Jun": whether it is likely to have come, told by its day alone."""
    since = when.likely is not None and when.likely <= on
    return f"{'since' if since else 'from'} {day_words.near_day(when.likely, on)}"


def _distance(guess: LikelyStage, on: dt.date) -> int:
    return abs((guess.when.likely - on).days) if guess.when.likely else 10_000
