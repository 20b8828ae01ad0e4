"""Whether a plant of the garden file stands in the garden yet in some season."""

from __future__ import annotations

from leafturn.garden.model import Plant


def is_planted(plant: Plant, year: int, *, southern: bool) -> bool:
    """Whether a plant has been planted by the end of a season; one without a year has.

    Parameters
    ----------
    year : int
        The season's year. A southern season, named by the July it starts in, ends in the year after.
    """
    return plant.year is None or plant.year <= year + southern
