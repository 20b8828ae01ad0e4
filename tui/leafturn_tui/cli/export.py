"""`leafturn export`, the garden for other programs, and `leafturn points`, places from other programs."""

from __future__ import annotations

import datetime as dt
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from leafturn.base.faults import Fault, Unreadable
from leafturn.files.reading import file_bytes
from leafturn.files.reasons import reason
from leafturn.toml.writing import value_text
from leafturn_tui.cli.arguments import day_of, is_garden, parser_for, split_garden
from leafturn_tui.cli.faults import tell_faults
from leafturn_tui.cli.opening import open_garden
from leafturn_tui.cli.printing import write_named
from leafturn_tui.cli.statuses import FAULTS, FINE
from leafturn_tui.render.parts.printed import printed
from leafturn_tui.render.parts.values import exact_json, json_text
from leafturn_tui.text.phrases import count

if TYPE_CHECKING:
    from leafturn.garden.points.model import Placed, Surveyed
    from leafturn_tui.almanac_face import AlmanacFace

MOST_BYTES = 20_000_000  # of a file of points: some 100,000 of them

EXPORT = """\
Print the garden for other programs. WHAT is plants (GeoJSON, RFC 7946, degrees of WGS 84), bloom (the
stages noted, a comma-separated table in terms of Darwin Core with BBCH numbers), or everything (JSON of
every question). A single question is printed by its own command, with --json or --csv.
"""


def _plants(almanac: AlmanacFace) -> str:
    from leafturn.garden.points.geojson import features

    return f"{exact_json(features(almanac.garden))}\n"


def _bloom(almanac: AlmanacFace) -> str:
    from leafturn_tui.render.parts.bloom_record import bloom_csv

    return bloom_csv(almanac)


def _everything(almanac: AlmanacFace) -> str:
    from leafturn_tui.render import every_question
    from leafturn_tui.render.parts.values import shell

    answers = {one.command: one.as_json(almanac) for one in every_question() if one.as_json is not None}
    return f"{json_text(shell(almanac) | answers)}\n"


WHATS: dict[str, Callable[[AlmanacFace], str]] = {
    "plants": _plants,
    "bloom": _bloom,
    "everything": _everything,
}


def export(words: list[str], today: dt.date) -> int:
    """`leafturn export [GARDEN] WHAT`."""
    parser = parser_for("export", EXPORT, garden=False)
    parser.add_argument(
        "words", nargs="+", metavar="WHAT", help=f"the garden (default: here), then {', '.join(WHATS)}"
    )
    parser.add_argument(
        "-o", "--out", metavar="FILE", help="write it to a new file; never over one that is there"
    )
    given = parser.parse_intermixed_args(words)
    garden, rest = split_garden(given.words)
    if len(rest) != 1 or rest[0] not in WHATS:
        parser.error(f"say what, as in: leafturn export weir-meadow plants; there is {', '.join(WHATS)}")
    almanac = open_garden(garden, day_of(given.on, parser, today))
    text = WHATS[rest[0]](almanac)
    if given.out is None:
        sys.stdout.write(text)
    else:
        write_named(given.out, text.encode())
    return tell_faults(almanac.faults)


POINTS = """\
Print the points of FILE as lines for the garden file: metres east and north of its datum. FILE is
.geojson, .gpx (waypoints) or .csv (columns name, lat, lon, and kind if known), in degrees of WGS 84.
Nothing is written: look the lines through, and copy into the garden file what you want to keep.
"""


def points(words: list[str], today: dt.date) -> int:
    """`leafturn points [GARDEN] FILE`."""
    from leafturn.garden.points.placing import placed, read_points

    parser = parser_for("points", POINTS, garden=False)
    parser.add_argument("words", nargs="+", metavar="FILE", help="the garden (default: here), then the file")
    given = parser.parse_intermixed_args(words)
    garden, rest = split_garden(given.words)
    if len(rest) != 1 or (len(given.words) == 1 and is_garden(rest[0])):
        parser.error("give one file of points, as in: leafturn points weir-meadow survey.gpx")
    almanac = open_garden(garden, day_of(given.on, parser, today))
    file = rest[0]
    try:
        data = file_bytes(Path(file), MOST_BYTES)
    except (OSError, ValueError) as why:
        raise Unreadable(Fault(file=file, line=None, message=f"it cannot be read: {reason(why)}.")) from None
    surveyed = read_points(data, file)
    found = placed(surveyed, almanac.garden, file)
    kinds = {plant.kind for plant in found if plant.kind and almanac.library.match(plant.kind).kind.guessed}
    sys.stdout.write(printed(_lines(found, surveyed, almanac.garden.place.datum, kinds)))
    status = tell_faults(almanac.faults)
    return status if status != FINE else FAULTS if not found else FINE


def _lines(found: tuple[Placed, ...], surveyed: Surveyed, datum: str, strange: set[str]) -> Iterator[str]:
    told = f"# {count(len(found), 'point')} in metres east and north of {datum}. Nothing is written"
    yield f"{told}: copy what you want to keep into the garden file."
    if surveyed.left_out:
        yield f"# {count(surveyed.left_out, 'thing')} left out: lines, areas, or no place."
    for plant in found:
        yield ""
        yield "[[plant]]"
        yield _toml("id", plant.id)
        if not plant.kind:
            yield 'kind = ""  # which kind?'
        elif plant.kind in strange:
            yield f"{_toml('kind', plant.kind)}  # not in the library; `leafturn kinds` lists what is"
        else:
            yield _toml("kind", plant.kind)
        yield f"at = [{plant.point.east:.2f}, {plant.point.north:.2f}]"


def _toml(key: str, value: str) -> str:
    return f"{key} = {value_text(value)}"
