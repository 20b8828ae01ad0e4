"""How near the minima that were given for cold nights came to what the nights brought."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable

import numpy as np

from leafturn.base import prose, quantities
from leafturn.base.value import Value
from leafturn.journal.entries import ColdNightNote, Entry
from leafturn.journal.noted import of_kind
from leafturn.weather.calendar import day_of_leap_year
from leafturn.weather.normals.normals import Normals
from leafturn.weather.record import DailyRecord


class NightMiss(Value):
    """One cold night [degC, in the garden]: what was given on its eve, what came, and the usual minimum."""

    eve: dt.date
    given_c: float
    came_c: float
    usual_c: float


class NightScore(Value):
    """All nights given whose minimum is known, and how far off they were on average [degC]."""

    nights: tuple[NightMiss, ...]
    given_mean_c: float
    usual_mean_c: float
    says: str


def night_score(
    entries: Iterable[Entry], record: DailyRecord | None, normals: Normals, pocket_c: float
) -> NightScore | None:
    """Judge the minima given for cold nights, beside the usual minimum of the day; None without any.

    Parameters
    ----------
    entries : iterable of Entry
        Notes not taken back. Of one eve the last note counts.
    record : DailyRecord or None
        Up to the day of asking, with weather noted by hand; of the weather station.
    normals : Normals
    pocket_c : float [degC]
        How much warmer the garden is than the station on still nights.
    """
    given = {e.on: e.tmin_c for e in of_kind(entries, ColdNightNote) if e.tmin_c is not None}
    nights = []
    for eve, celsius in sorted(given.items()):
        morning = eve + dt.timedelta(days=1)
        came = _minimum(record, morning)
        if came is not None:
            usual = float(normals.tmin[day_of_leap_year(morning, 1)[0]])
            nights.append(
                NightMiss(eve=eve, given_c=celsius, came_c=came + pocket_c, usual_c=usual + pocket_c)
            )
    if not nights:
        return None
    ours = float(np.mean([abs(n.given_c - n.came_c) for n in nights]))
    theirs = float(np.mean([abs(n.usual_c - n.came_c) for n in nights]))
    better = "the usual minimum would have been nearer" if theirs < ours else "what was given was nearer"
    return NightScore(
        nights=tuple(nights),
        given_mean_c=ours,
        usual_mean_c=theirs,
        says=(
            f"Cold nights: what was given on the eve missed by {quantities.degrees(ours)} on average over "
            f"{prose.count(len(nights), 'night')}, the usual minimum of the day by "
            f"{quantities.degrees(theirs)}: {better}."
        ),
    )


def _minimum(record: DailyRecord | None, day: dt.date) -> float | None:
    if record is None or not 0 <= (place := (day - record.first).days) < len(record):
        return None
    return None if np.isnan(record.tmin[place]) else float(record.tmin[place])
