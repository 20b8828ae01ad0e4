"""When to turn a compost heap: by its readings, by days, by the warmth of the air."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

import numpy as np

from leafturn.base import day_words, prose, quantities
from leafturn.base.arrays import FloatArray
from leafturn.base.evidence import Basis
from leafturn.base.explained_days import ExplainedDays, Told
from leafturn.season.axis import SeasonAxis
from leafturn.season.ensemble import Ensemble
from leafturn.season.garden_day import GardenDay
from leafturn.season.stage_duration import Pace
from leafturn.soil.compost.batches import batch_of
from leafturn.soil.compost.maturity import air_of, maturity

FIRST_TURNS = 4  # guess: after four turns a heap has done most of its heating
WORKS_FOR = dt.timedelta(days=183)  # turns longer ago belong to a heap that is ripe by now (Plymouth, read)


def turn_due(
    heap: str, day: GardenDay, turned: dt.date | None, ensemble: Ensemble, pace: Pace
) -> ExplainedDays:
    """When to turn a working heap next.

    Parameters
    ----------
    heap : str
        Its id.
    day : GardenDay
        Of its notes readings (`temp_c`) since the last turn are used, and none of a heap that lay in the bay
        before it was emptied.
    turned : date or None
        When it was last turned; without it the day the bay was emptied serves, or a reading of this
        season. With none of these it wants a look today, whatever the day, and is never late.
    ensemble, pace : Ensemble, Pace
        The season's weather and the pace of rotting that goes with it.

    Notes
    -----
    Turn when the core, once in the hot range, has fallen out of it (NRAES-54, Rynk 1992, recalled), and at
    once when it is too hot. Without readings by days, quicker in the warm: a fortnight apart for the first
    turns and then a month (Miami University, composting tour, read: every two weeks or month; Plymouth,
    Minnesota, read: ready in about six months, once it no longer heats and crumbles). One that is ripe by
    its warmth is not turned any more.
    """
    axis, on, numbers = ensemble.axis, day.on, day.numbers
    batch = batch_of(heap, day)
    if batch.begun and turned and turned < batch.begun:
        turned = None
    since = turned or max(batch.begun or axis.start, axis.start)
    readings = [(date, celsius) for date, celsius in batch.readings if since <= date]
    since_turn = _since(turned, batch.begun, on)
    if turned is None and batch.begun is None and not readings:
        # When it was built is not known either: nothing to count days from, so it cannot be late.
        today = np.full(ensemble.draws, float(axis.day(on)))
        return _explained(today, _unknown(heap, batch.readings), "guess")
    worked = sum(on - WORKS_FOR <= date for date in batch.turns) >= FIRST_TURNS
    apart = numbers["heap_later_days" if worked else "heap_usual_days"]
    by_days = pace.after(np.full(ensemble.draws, float(axis.day(since))), apart)
    if not readings:
        done = ' Cool, dark and crumbly it is done: write stage = "curing".' if worked else ""
        says = f"{prose.capital(since_turn)}, and no temperature noted since.{done}"
        return _explained(by_days, says, "guess")
    ripe = maturity(batch.readings, air_of(ensemble), turned)
    if ripe.mature:
        return ExplainedDays(
            np.full(ensemble.draws, np.inf), lambda: Told(says=ripe.says), basis="own record"
        )
    days, says = _by_readings(heap, readings, by_days, axis, day)
    hot = readings[-1][1] >= numbers["heap_too_hot_c"]
    says = f"{says}: {too_hot_words(numbers['heap_too_hot_c'])}" if hot else f"{says}, {since_turn}."
    return _explained(days, says, "own record")


def _explained(days: FloatArray, says: str, basis: Basis) -> ExplainedDays:
    """Days that count from the last turn, with a sentence that tells of it."""
    return ExplainedDays(days, lambda: Told(says=says, tells_last_done=True), basis=basis)


def _by_readings(
    heap: str,
    readings: Sequence[tuple[dt.date, float]],
    by_days: FloatArray,
    axis: SeasonAxis,
    day: GardenDay,
) -> tuple[FloatArray, str]:
    """The days (draws,) by the readings since the last turn, else `by_days`; and what was read."""
    numbers = day.numbers
    (last_on, last), (peak_on, peak) = readings[-1], max(readings, key=lambda reading: reading[1])
    when = day_words.near_day(last_on, day.on) if last_on == day.on else f"on {day_words.day(last_on)}"
    was = f"{quantities.celsius(last, 0)} {when}"
    at_once = np.full_like(by_days, float(axis.day(last_on)))
    if last >= numbers["heap_too_hot_c"]:
        return at_once, f"{heap} was {was}"
    if last >= numbers["heap_hot_c"]:
        return np.maximum(by_days, at_once + 3.0), f"{heap} was still {was}"
    if peak >= numbers["heap_hot_c"] and last < numbers["heap_cooled_c"]:
        return at_once, f"{heap} was {_peak(peak, peak_on)} and {was}"
    return by_days, f"{heap} was {was}"


def _peak(celsius: float, on: dt.date) -> str:
    return f"{quantities.celsius(celsius, 0)} on {day_words.day(on)}"


def too_hot_words(limit: float) -> str:
    """What too much heat means, and what to do about it."""
    return f"over {quantities.celsius(limit, 0)} what rots it dies; turn it, and wet it where it is dry."


def _unknown(heap: str, before: Sequence[tuple[dt.date, float]]) -> str:
    """That nothing tells when a heap was last turned, and which note would."""
    noted = (
        f"no turn is noted, nor a temperature since {day_words.day(before[-1][0])}"
        if before
        else ("no turn or temperature is noted yet")
    )
    return f"Of {heap} {noted}: note one, and the next turn is told from it."


def _since(turned: dt.date | None, begun: dt.date | None, on: dt.date) -> str:
    if turned:
        return f"{prose.count((on - turned).days, 'day')} since it was turned"
    if begun:
        return f"not turned since the bay was emptied on {day_words.day(begun)}"
    return "no turn noted"
