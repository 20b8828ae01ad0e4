"""Opening a garden that a command names."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from msgspec.structs import replace

from leafturn.base.faults import NoGarden

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace


def open_garden(path: str, on: dt.date) -> AlmanacFace:
    """Open a garden; the import waits until it is needed, so that --help is quick.

    Raises
    ------
    NoGarden
        With the command that begins one, where the folder holds none.
    """
    from leafturn.almanac import open_almanac

    try:
        return open_almanac(path, on)
    except NoGarden as why:
        hint = f"{why.fault.hint} Or begin one: leafturn new {path}"
        raise NoGarden(replace(why.fault, hint=hint)) from why
