"""What is said of frost where a moment hangs on it: how likely the last is past, what tonight may bring."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from leafturn import wording
from leafturn.tasks.frost_threat import threats
from leafturn.tasks.rules import Applies
from leafturn.tasks.season_state import SeasonState
from leafturn.tasks.subjects import Subject

# What rules that hang on "frost threat" are told by, as "cover-from-frost" has it.
COLD = Applies(frost_within_days=5, frost_chance_over=0.15)


def last_frost_words(name: str, days: NDArray[np.float64], season: SeasonState) -> str:
    """When the last frost comes and how likely it is past.

    Parameters
    ----------
    name : str
        "frost", or "frost of -2.2 C".
    days : (draws,) array
        Day numbers of the last one.
    """
    gone = float(np.mean(days <= season.today))
    if gone >= 0.95:
        return f"The last {name} is past in nearly every version of this year."
    when = wording.about(season.weather.now.likely(days), season.on)
    tenths = round(gone * 10)
    if tenths == 0:
        return f"The last {name} is {when}; it is past in hardly any version of this year."
    return f"The last {name} is {when}; chances are {tenths} in 10 that it is past."


def frost_threat(subject: Subject, season: SeasonState) -> tuple[int, str]:
    """In how many days a cold night calls, and what it would take.

    Returns
    -------
    days : int
        0 where the night after the day of asking likely takes a tenth of the flowers of a plant.
    said : str
        Empty where nothing is known of the plants or the nights.
    """
    first = next(iter(threats(subject, COLD, season)), None)
    if first is None:
        return 0, ""
    ahead = first.days_ahead(COLD.frost_chance_over)
    limit = first.limit
    told = (
        f"Tonight may fall to {_degrees(first.tonight_c)} C here. "
        f"One {limit.part} in ten dies at {_degrees(limit.tenth_c)} C."
    )
    if ahead == 0:
        return 0, told
    odds = "nearly sure" if first.chance >= 0.95 else f"{max(round(first.chance * 10), 1)} in 10"
    return ahead, f"{told} That a night within {first.nights} days takes so many is {odds}."


def _degrees(celsius: float) -> str:
    """Degrees to a tenth, without a tenth that is nought: "-3", "-2.2"."""
    return f"{round(celsius, 1) + 0.0:.1f}".removesuffix(".0")
