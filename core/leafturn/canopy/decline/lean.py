"""A noted lean beside the side the light comes from: a lean away from the light is odd."""

from __future__ import annotations

import math
import re

import numpy as np

from leafturn.canopy.stand.sky import Sampling
from leafturn.canopy.stand.stand import Stand
from leafturn.garden.reading.place_phrases import BETWEEN_POINTS, POINTS
from leafturn.garden.reading.places import point_at

_CLEAR = 0.02  # share of the light missing on one side, below which no side is the brighter; a guess
_AGREES, _AGAINST = 67.5, 112.5  # degrees between lean and bright side; a guess
_WORDS = {
    said: BETWEEN_POINTS * n for n, (word, letters) in enumerate(POINTS) for said in (word, letters.lower())
}


def lean_bearing(lean: str) -> float | None:
    """Where a lean points [degrees clockwise from north], from words such as "10 deg NE" or "to the west"."""
    found = [_WORDS[word] for word in re.findall(r"[a-z-]+", lean.lower()) if word in _WORDS]
    return found[0] if found else None


def bright_side(stand: Stand, n: int, sampling: Sampling) -> float | None:
    """Where the most of its light comes in past its neighbours [degrees clockwise from north].

    Parameters
    ----------
    stand : Stand
    n : int
        Number of the plant.
    sampling : Sampling
        Of the growing season.

    Returns
    -------
    float or None
        The side opposite to the light that neighbours take; None where they take alike all round.
    """
    each = len(stand.points(stand.year).at) // len(stand.plants)
    depths = stand.depths_now(sampling)[n * each : (n + 1) * each]
    taken = (1 - np.exp(-depths)).mean(axis=0) * sampling.weights
    east, north = (float(taken @ sampling.rays[:, axis]) for axis in (0, 1))
    if math.hypot(east, north) < _CLEAR:
        return None
    return math.degrees(math.atan2(-east, -north)) % 360


def lean_words(stand: Stand, sampling: Sampling) -> tuple[str, ...]:
    """A sentence for every plant whose lean is noted and points somewhere."""
    said = []
    for n, plant in enumerate(stand.plants):
        leans = lean_bearing(plant.lean) if plant.lean else None
        if leans is None:
            continue
        bright = bright_side(stand, n, sampling)
        if bright is None:
            said.append(f"{plant.id} leans {_name(leans)}; no side of it is clearly the brighter.")
            continue
        apart = abs((leans - bright + 180) % 360 - 180)
        if apart <= _AGREES:
            said.append(f"{plant.id} leans {_name(leans)}, towards its bright side, as trees do.")
        elif apart >= _AGAINST:
            said.append(
                f"{plant.id} leans {_name(leans)}, though its bright side is {_name(bright)}: light does not "
                "explain that lean. Have someone competent look at its roots and its footing."
            )
        else:
            said.append(f"{plant.id} leans {_name(leans)}; its bright side is {_name(bright)}.")
    return tuple(said)


def _name(bearing: float) -> str:
    return point_at(bearing)[1]
