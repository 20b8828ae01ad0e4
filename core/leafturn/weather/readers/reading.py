"""Reading a daily weather file of any form that is understood."""

from __future__ import annotations

from pathlib import Path

from leafturn.base.faults import Fault
from leafturn.weather.normals.normals import Normals
from leafturn.weather.readers.file_rows import WeatherReading, text_of
from leafturn.weather.readers.ghcn_daily import is_ghcn_daily, read_ghcn_daily
from leafturn.weather.readers.ghcn_table import is_ghcn_table, read_ghcn_table


def read_weather(
    path: Path, name: str, usual: Normals | None = None, within: Path | None = None
) -> WeatherReading:
    """Read a daily weather file and check its values.

    Parameters
    ----------
    path : Path
        Comma-separated values with a first line of names, or a station file of GHCN-Daily.
    name : str
        The file as the user would name it, for sentences about it.
    usual : Normals or None
        A rough year of the place, against which units are judged.
    within : Path or None
        The folder that it must really lie in; None for a file that the user named.

    Returns
    -------
    WeatherReading
        The record, with all that could be understood, and a fault for what could not.
        Nothing is raised for what the file holds.
    """
    text = text_of(path, name, within)
    if isinstance(text, Fault):
        return WeatherReading(record=None, faults=(text,))
    if is_ghcn_daily(text):
        return read_ghcn_daily(text, name)
    if is_ghcn_table(text):
        return read_ghcn_table(text, name)
    from leafturn.weather.readers.csv import read_csv_text

    return read_csv_text(text, name, usual)
