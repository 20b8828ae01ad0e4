"""The command `leafturn tonight`: a cold night foreseen, and what it would do."""

from __future__ import annotations

import datetime as dt
import re
import sys
from typing import TYPE_CHECKING

from leafturn.base import prose
from leafturn.base.faults import Unreadable
from leafturn.journal.entries import ColdNightNote
from leafturn.season.temperature_words import NotATemperature, is_temperature, read_temperature
from leafturn_tui.cli.arguments import day_of, is_garden, parser_for, split_garden
from leafturn_tui.cli.asking import sure
from leafturn_tui.cli.faults import status_of, tell_faults
from leafturn_tui.cli.notes import keep
from leafturn_tui.cli.opening import open_garden
from leafturn_tui.cli.statuses import FINE
from leafturn_tui.render.parts.printed import printed
from leafturn_tui.render.parts.values import json_text, unreadable

if TYPE_CHECKING:
    from leafturn.answers.cold_night import Tonight
    from leafturn_tui.almanac_face import AlmanacFace

TONIGHT = """\
What a cold night would do to each plant that cold can hurt now, worst first. DEGREES is the minimum
foreseen in the garden: -3, -3C or 27F; without it that of the garden's forecast file is taken. Nothing is
written unless --note is given.
"""


def tonight(words: list[str], today: dt.date) -> int:
    """`leafturn tonight [GARDEN] DEGREES`."""
    parser = parser_for("tonight", TONIGHT, garden=False, json=True)
    parser.add_argument(
        "words", nargs="*", metavar="DEGREES", help="the garden (default: here), then degrees"
    )
    parser.add_argument("--station", action="store_true", help="DEGREES are the weather station's")
    parser.add_argument("--note", action="store_true", help="also note the night, so that jobs know of it")
    given = parser.parse_intermixed_args([_plain_minus(word) for word in words])
    on = day_of(given.on, parser, today)
    try:
        garden, typed = _understood(given.words)
    except NotATemperature as why:
        parser.error(str(why))
    almanac = _opened(garden, on, as_json=given.json)
    try:
        # A bare number is of the garden's own degrees.
        celsius, question = read_temperature(typed) if typed else (_foreseen(almanac, garden), None)
    except NotATemperature as why:
        parser.error(str(why))
    if question and not given.json and not sure(prose.capital(question), "It was taken as typed."):
        return FINE
    night = almanac.tonight(celsius, at_station=given.station or not typed)
    status = _told(almanac, night, question, as_json=given.json)
    if not given.note:
        return status
    entry = ColdNightNote(on=almanac.on, tmin_c=round(night.garden_c, 1))
    return max(status, keep(almanac, entry, today, quiet=given.json).status)


def _plain_minus(word: str) -> str:
    """A word such as "-3F" with a minus sign that is not taken for the dash of an option."""
    return f"−{word[1:]}" if re.match(r"-[\d.,]", word) else word


def _understood(words: list[str]) -> tuple[str, str]:
    """The garden, and the degrees as typed; none where only a garden is named."""
    garden, rest = split_garden(words)
    if not rest or (len(rest) == 1 and is_garden(rest[0])):
        return (*rest, ".")[0], ""
    typed = " ".join(rest)
    if not is_temperature(typed) and len(rest) > 1 and is_temperature(" ".join(rest[1:])):
        return rest[0], " ".join(rest[1:])  # opening it says that it is not there
    if not is_temperature(typed):
        read_temperature(typed)  # says what is wrong
    return garden, typed


def _foreseen(almanac: AlmanacFace, garden: str) -> float:
    """The station's minimum of the night to come, as it is foreseen."""
    night = next((night for night in almanac.foreseen() if night.eve == almanac.on), None)
    if night is None:
        raise NotATemperature(
            f"how cold? Write the night's minimum too: leafturn tonight {garden} -3; or name a file that has "
            'it under [place], forecast = "forecast.csv"'
        )
    return night.station_c


def _opened(garden: str, on: dt.date, *, as_json: bool) -> AlmanacFace:
    try:
        return open_garden(garden, on)
    except Unreadable as why:
        if as_json:
            print(json_text(unreadable(why.fault, on)))
        raise


def _told(almanac: AlmanacFace, night: Tonight, question: str | None, *, as_json: bool) -> int:
    from leafturn_tui.render.parts.cold_night import night_as_json, night_lines

    if not as_json:
        sys.stdout.write(printed(night_lines(almanac, night)))
        return tell_faults(almanac.faults)
    print(json_text(night_as_json(almanac, night, question)))
    return status_of(almanac.faults)
