"""The command `leafturn weather read`: how a weather file is read, before it is used."""

from __future__ import annotations

import datetime as dt
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from leafturn.base.faults import Fault, Unreadable
from leafturn_tui.cli.arguments import day_of, is_garden, parser_for
from leafturn_tui.cli.opening import open_garden
from leafturn_tui.cli.statuses import FAULTS, FINE, UNREADABLE
from leafturn_tui.render.parts.printed import printed
from leafturn_tui.render.parts.values import json_text
from leafturn_tui.render.parts.weather_file import as_json, lines

if TYPE_CHECKING:
    from leafturn.garden.model import Garden

ABOUT = """\
Show how a weather file is read: each column, the days and gaps, what is set aside and why, and its usual
months beside those of the place. Nothing is written. Without FILE it is the one that the garden names.
"""


def read(words: list[str], today: dt.date) -> int:
    """`leafturn weather read [GARDEN] [FILE]`."""
    from leafturn.answers.weather_file import weather_file

    parser = parser_for("weather read", ABOUT, garden=False, json=True)
    parser.usage = "leafturn weather read [GARDEN] [FILE] [--json]"
    parser.add_argument("words", nargs="*", metavar="FILE", help="the garden (default: here), then the file")
    given = parser.parse_args(words)
    on = day_of(given.on, parser, today)
    if len(given.words) > 2:
        parser.error("give one file, as in: leafturn weather read weir-meadow station.csv")
    named = [word for word in given.words if is_garden(word)]
    files = [word for word in given.words if word not in named]
    garden, folder = _garden(named[0] if named else None, on, needed=not files)
    if not files:
        assert garden is not None, "without a file a garden is needed"
        if garden.place.weather is None:
            message = "it names no weather file."
            hint = "Name a file here: leafturn weather read FILE"
            raise Unreadable(Fault(file=named[0] if named else ".", line=None, message=message, hint=hint))
        files = [garden.place.weather]
    path = Path(files[0])
    if not path.exists() and folder is not None:
        path = folder / files[0]
    found = weather_file(path, garden)
    sys.stdout.write(f"{json_text(as_json(found))}\n" if given.json else printed(lines(found)))
    if found.recorded is None:
        return UNREADABLE
    return FAULTS if found.faults else FINE


def _garden(word: str | None, on: dt.date, *, needed: bool) -> tuple[Garden | None, Path | None]:
    """The garden named, or the one here; none where none is and it is not needed."""
    try:
        almanac = open_garden(word or ".", on)
    except Unreadable:
        if word is not None or needed:
            raise
        return None, None
    return almanac.garden, almanac.folder
