"""Whether a plant of the garden file stands in the garden yet in some season."""

from __future__ import annotations

from leafturn.garden.model import Plant

FAR_YEARS = 20  # what is planned is planted within these; a guess


def is_planted(plant: Plant, year: int, *, southern: bool) -> bool:
    """Whether a plant has been planted by the end of a season; one without a year has.

    Parameters
    ----------
    year : int
        The season's year. A southern season, named by the July it starts in, ends in the year after.
    """
    return plant.year is None or plant.year <= year + southern


def far_ahead(year: int, now: int) -> str:
    """What is said of a year of planting that is most likely a slip; empty for any other.

    Parameters
    ----------
    year, now : int
        Of planting, and of the day of asking.
    """
    if year - now <= FAR_YEARS:
        return ""
    return (
        f"{year} is {year - now} years ahead, and until then the plant counts as not planted: is it a slip?"
    )
