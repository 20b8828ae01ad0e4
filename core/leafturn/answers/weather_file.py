"""How a weather file is read, beside what a garden would count with without it."""

from __future__ import annotations

from pathlib import Path

from leafturn.answers.weather import Recorded, UsualMonth, recorded, usual_months
from leafturn.base.faults import Fault
from leafturn.base.value import Value
from leafturn.garden.model import Garden
from leafturn.weather.normals.normal_year import normal_year
from leafturn.weather.normals.normals import NormalsBasis, from_record
from leafturn.weather.normals.rough_year import year_by_place
from leafturn.weather.readers.columns_read import ColumnRead
from leafturn.weather.readers.reading import read_weather


class WeatherFileRead(Value):
    """A weather file as it would be used.

    Parameters
    ----------
    name : str
    columns : tuple of ColumnRead
        What each column was read as.
    recorded : Recorded or None
        Its days, gaps and what was set aside; None if nothing could be used.
    faults : tuple of Fault
        What is to be mended in it.
    notes : tuple of str
        What else is to be said of how it was read.
    months : tuple of UsualMonth
        What is usual in it; empty if it has too few days to tell.
    without : tuple of UsualMonth
        What the garden counts with where it has no such file; empty where no garden is known.
    basis : str or None
        Where `without` comes from.
    """

    name: str
    columns: tuple[ColumnRead, ...]
    recorded: Recorded | None
    faults: tuple[Fault, ...]
    notes: tuple[str, ...]
    months: tuple[UsualMonth, ...]
    without: tuple[UsualMonth, ...]
    basis: NormalsBasis | None


def weather_file(path: Path, garden: Garden | None) -> WeatherFileRead:
    """Read a weather file as a garden would, without using it.

    Parameters
    ----------
    path : Path
        Of the file, wherever it lies.
    garden : Garden or None
        The place against which it is held; None where none is known.
    """
    rough = None
    without = None
    if garden is not None:
        rough = year_by_place(garden.place)
        without = normal_year(garden.place, garden.climate)
    reading = read_weather(path, path.name, rough)
    record = reading.record
    usual = None if record is None else from_record(record)
    set_aside = () if record is None else record.notes
    return WeatherFileRead(
        name=path.name,
        columns=reading.columns,
        recorded=None if record is None else recorded(record),
        faults=reading.faults,
        notes=tuple(note for note in reading.notes if note not in set_aside),
        months=() if usual is None else usual_months(usual),
        without=() if without is None else usual_months(without),
        basis=None if without is None else without.basis,
    )
