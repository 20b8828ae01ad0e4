"""The weather file that a fetch writes into a garden, and how one that nobody changed is known again."""

from __future__ import annotations

import hashlib
import os
from pathlib import Path

import numpy as np

from leafturn.base.faults import Fault, Unreadable
from leafturn.files.reading import file_bytes
from leafturn.files.reasons import reason
from leafturn.files.writing import write_whole
from leafturn.weather.fetch.source import Fetched
from leafturn.weather.readers.file_rows import LARGEST_FILE
from leafturn.weather.record import DailyRecord

MARK = "# leafturn weather fetch wrote this; it writes it anew only while it is as written: "


def file_text(fetched: Fetched, fetched_on: str) -> str:
    """The text of the file: its mark, where it is from, and a row a day.

    Parameters
    ----------
    fetched : Fetched
    fetched_on : str
        The day, in words for whoever reads the file.
    """
    source = f"# {fetched.archive}, {fetched.where}, fetched {fetched_on}\n"
    rest = source + "date,tmin_c,tmax_c,rain_mm\n" + "".join(_rows(fetched.record))
    return f"{MARK}{_seal(rest)}\n{rest}"


def is_own(text: str) -> bool:
    """Whether a text was written here and not changed since."""
    head, _, rest = text.partition("\n")
    return head == f"{MARK}{_seal(rest)}"


def may_write(file: Path) -> None:
    """Say if a file may not be written.

    Raises
    ------
    Unreadable
        If something stands there that no fetch wrote, or that was changed since.
    """
    if not os.path.lexists(file):
        return
    try:
        if not file.is_symlink() and is_own(file_bytes(file, LARGEST_FILE).decode("utf-8")):
            return
    except (OSError, ValueError):
        pass
    message = "no fetch wrote this, or it was changed since; nothing was written."
    raise Unreadable(Fault(file=file.name, line=None, message=message, hint="Give another name with --into."))


def write(file: Path, text: str) -> None:
    """Write the file whole, beside its place first.

    Raises
    ------
    Unreadable
        If it may not or cannot be written.
    """
    may_write(file)
    try:
        write_whole(file.parent, file.name, text.encode())
    except OSError as why:
        message = f"it cannot be written: {reason(why, writing=True)}; nothing was changed."
        raise Unreadable(Fault(file=file.name, line=None, message=message)) from why


def _seal(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()


def _rows(record: DailyRecord) -> list[str]:
    days = record.days
    return [
        f"{day},{_cell(low)},{_cell(high)},{_cell(rain)}\n"
        for day, low, high, rain in zip(days, record.tmin, record.tmax, record.rain, strict=True)
    ]


def _cell(value: float) -> str:
    return "" if np.isnan(value) else f"{value:.2f}".rstrip("0").rstrip(".")
