"""What an archive gave, before it is used."""

from __future__ import annotations

from leafturn.base.value import Value
from leafturn.weather.record import DailyRecord


class Fetched(Value, eq=False):
    """Daily weather from an archive.

    Parameters
    ----------
    record : DailyRecord
        Checked for impossible values.
    notes : tuple of str
        What the archive doubts and what was set aside.
    archive : str
        Its name.
    where : str
        What of it this is: a cell of a grid, or a station, in words.
    height_m : float or None
        Height of that above the sea, where it is told.
    """

    record: DailyRecord
    notes: tuple[str, ...]
    archive: str
    where: str
    height_m: float | None
