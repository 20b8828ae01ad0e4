"""Readings of several hours a day made into days: lowest, highest, and the sum of rain."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from leafturn.base.arrays import FloatArray, median
from leafturn.base.faults import Fault
from leafturn.weather.readers.file_rows import Rows
from leafturn.weather.readers.head_words import Quantity

LEAST_READINGS = 4  # a day; with fewer, the lowest and the highest are not likely among them (a guess)
COMPLETE_SHARE = 0.75  # of a day's usual readings, else its lowest or highest may be missing (a guess)


def days_of_hours(
    dates: NDArray[np.datetime64],
    values: dict[Quantity, FloatArray],
    name: str,
    faults: list[Fault],
    notes: list[str],
) -> Rows | None:
    """A row a day from readings of several hours.

    Parameters
    ----------
    dates : (readings,)
        The day of each.
    values : mapping of quantity to (readings,)
        "temp", or "tmin" and "tmax" of each reading; "rain" since the one before. Units as written.
    name : str
    faults, notes : list
        What is wrong, and what was made of the readings, is added.

    Returns
    -------
    Rows or None
        None where there are too few readings a day to know the day's lowest and highest.
    """
    days, place, counts = np.unique(dates, return_inverse=True, return_counts=True)
    usual = int(median(counts))
    if usual < LEAST_READINGS:
        message = f"it holds {usual} readings a day; the day's lowest and highest are not known from so few."
        faults.append(Fault(file=name, line=None, message=message, hint="Name columns tmin_c and tmax_c."))
        return None
    low, high = values.get("tmin", values.get("temp")), values.get("tmax", values.get("temp"))
    assert low is not None, "a layout without daily columns has readings"
    assert high is not None, "a layout without daily columns has readings"
    found: dict[Quantity, FloatArray] = {
        "tmin": _over_days(np.fmin, low, place, len(days), np.inf),
        "tmax": _over_days(np.fmax, high, place, len(days), -np.inf),
    }
    if "rain" in values:
        known = np.where(np.isnan(values["rain"]), 0.0, values["rain"])
        found["rain"] = np.asarray(np.bincount(place, weights=known, minlength=len(days)), dtype=float)
        unknown = np.bincount(place, weights=np.isnan(values["rain"]), minlength=len(days)) == counts
        found["rain"][unknown] = np.nan
    known_readings = np.bincount(place, weights=~np.isnan(low + high), minlength=len(days))
    short = known_readings < COMPLETE_SHARE * usual
    for quantity in ("tmin", "tmax"):
        found[quantity][short] = np.nan
    said = f"{name} holds about {usual} readings a day: the lowest and the highest of each day are taken."
    if short.any():
        lack = int(short.sum())
        verbs = "day lacks over a quarter of them and counts as a gap"
        said += (
            f" 1 {verbs}." if lack == 1 else f" {lack} days lack over a quarter of them and count as gaps."
        )
    notes.append(said)
    return Rows(dates=days, values=found)


def _over_days(
    pick: np.ufunc, values: FloatArray, place: NDArray[np.intp], days: int, start: float
) -> FloatArray:
    found = np.full(days, start)
    pick.at(found, place, values)
    found[np.isinf(found)] = np.nan
    return found
