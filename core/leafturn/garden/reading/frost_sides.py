"""Pairs of frost dates that cannot both be meant: those of the other hemisphere, or one of them never."""

from __future__ import annotations

import msgspec

from leafturn.base.faults import clipped
from leafturn.garden.model import Climate
from leafturn.garden.reading.frost_dates import month_and_day
from leafturn.garden.reading.tables import Spot

TROPIC = 23.5  # degrees; nearer the equator frost keeps to no half of the year
# Stretches that the usual date cannot lie in north of the tropic, first and last day. Wide of any climate
# that fruit grows in, so that only a slip lands there: rule of thumb.
NEVER_NORTH = {"last_frost": ("08-16", "11-15"), "first_frost": ("02-16", "06-15")}
SEASONS = {"last_frost": "spring", "first_frost": "autumn"}


def without_swapped_frosts(
    climate: Climate | None, latitude: float, spots: tuple[Spot, ...]
) -> Climate | None:
    """The climate without frost dates that belong to the other half of the year, each said.

    Parameters
    ----------
    climate : Climate or None
        As read.
    latitude : float
        Degrees; south is negative.
    spots : tuple of Spot
        The tables that may hold the dates.
    """
    if climate is None or abs(latitude) <= TROPIC:
        return climate
    wrong = [key for key in NEVER_NORTH if _lies_wrong(climate, key, latitude)]
    for key in wrong:
        usual = getattr(climate, key).usual
        side, sign = ("north", "-") if latitude > 0 else ("south", "")
        spot = _spot_of(key, spots)
        spot.add_fault(
            f"{key} {clipped(usual)!r} is no day of {SEASONS[key]} {side} of the equator; it is left out.",
            f"Write lat = {sign}{abs(latitude):g} if you are on its other side, or check the two dates.",
            key,
        )
    return msgspec.structs.replace(climate, **dict.fromkeys(wrong))


def _lies_wrong(climate: Climate, key: str, latitude: float) -> bool:
    date = getattr(climate, key)
    if date is None or date.usual is None:
        return False
    usual = date.usual if latitude > 0 else _half_a_year_on(date.usual)
    first, last = NEVER_NORTH[key]
    return first <= usual <= last


def _half_a_year_on(day: str) -> str:
    """A month and day six months on: the south's dates as the north would have them."""
    month = (int(day[:2]) + 5) % 12 + 1
    return month_and_day(f"{month}-{day[3:]}") or f"{month:02}-28"


def without_half_never(climate: Climate | None, spots: tuple[Spot, ...]) -> Climate | None:
    """The climate without a "never" beside another frost that comes: one winter has both.

    Parameters
    ----------
    climate : Climate or None
        As read.
    spots : tuple of Spot
        The tables that may hold the dates.
    """
    if climate is None or climate.last_frost is None or climate.first_frost is None:
        return climate
    last_comes, first_comes = climate.last_frost.years > 0, climate.first_frost.years > 0
    if last_comes == first_comes:
        return climate
    key, other = ("first_frost", "last_frost") if last_comes else ("last_frost", "first_frost")
    spot = _spot_of(key, spots)
    message = f"{key} never comes, but {other} does: one winter has both; the never is left out."
    spot.add_fault(message, 'Write "never" for both, or a day or "1 year in 5".', key)
    return msgspec.structs.replace(climate, **{key: None})


def _spot_of(key: str, spots: tuple[Spot, ...]) -> Spot:
    """The table that holds a key, the first where none does."""
    return next((spot for spot in spots if spot.line(key) != spot.line()), spots[0])
