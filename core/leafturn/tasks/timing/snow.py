"""When wet snow last fell: as someone noted it, or as the garden's own record has it."""

from __future__ import annotations

import datetime as dt

import numpy as np

from leafturn.base import day_words
from leafturn.base.explained_days import ExplainedDays, Told
from leafturn.journal.entries import WeatherNote
from leafturn.journal.noted import of_kind
from leafturn.season.snow import is_wet_snow
from leafturn.tasks.season_model import SeasonModel

LOOKED_BACK_DAYS = 10  # guess: by then it has slid off, thawed or frozen fast


def wet_snow(season: SeasonModel, done: dt.date | None) -> ExplainedDays:
    """The latest day of wet snow since the job was done; never where none fell in the ten days before.

    Parameters
    ----------
    done : date or None
        When what it bent was last freed of it.
    """
    on, draws = season.day.on, season.weather.now.draws
    last = max((day for day in _days(season) if done is None or day > done), default=None)
    if last is None:
        return ExplainedDays(np.full(draws, np.inf))
    says = f"Wet snow fell on {day_words.near_day(last, on)}."
    days = np.full(draws, float(season.axis.day(last)))
    return ExplainedDays(days, telling=lambda: Told(says=says), basis="own record")


def _days(season: SeasonModel) -> list[dt.date]:
    """Days of wet snow among the last ones."""
    on = season.day.on
    lately = [on - dt.timedelta(days=n) for n in range(LOOKED_BACK_DAYS + 1)]
    noted = {note.on for note in of_kind(season.day.entries, WeatherNote) if note.snow}

    def recorded(day: dt.date) -> bool:
        low, high, rain = (season.weather.observed(which, day) for which in ("tmin", "tmax", "rain"))
        return bool(is_wet_snow(low, high, rain))

    return [day for day in lately if day >= season.axis.first and (day in noted or recorded(day))]
