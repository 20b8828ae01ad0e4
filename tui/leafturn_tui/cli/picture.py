"""`leafturn picture`: a picture of a page as an SVG file."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from typing import TYPE_CHECKING

from leafturn.base.faults import clipped, did_you_mean
from leafturn_tui.cli.arguments import add_one_of, day_of, is_garden, parser_for, split_garden
from leafturn_tui.cli.opening import open_garden
from leafturn_tui.cli.printing import write_named
from leafturn_tui.cli.statuses import FINE
from leafturn_tui.safe_text import safe_text

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace
    from leafturn_tui.pages.base import Page

ABOUT = "Write one of the pages' pictures as an SVG file, for papers and web pages."
LOOKS = ("light", "dark", "none")
COLUMNS = 100
ENDING = ".svg"
LEAST, MOST = 60, 240
HIGH = 44  # lines of the window that a picture is drawn for


def _season(view: str) -> Page:
    from leafturn_tui.pages.season import SeasonPage

    page = SeasonPage()
    page.view = view
    return page


def _plants(view: str) -> Page:
    from leafturn_tui.pages.plants import PlantsPage

    page = PlantsPage()
    page.view = view
    return page


def _named(name: str) -> Page:
    from leafturn_tui.pages import pages

    return next(page() for page in pages().values() if page.command == name)


PICTURES: dict[str, Callable[[], Page]] = {
    "strip": lambda: _season("strip"),
    "year": lambda: _season("year"),
    "plan": lambda: _plants("plan"),
    "light": lambda: _plants("light"),
    "heat": lambda: _season("heat"),
    "partners": lambda: _named("partners"),
    "climbers": lambda: _named("climbers"),
    "heaps": lambda: _named("heaps"),
    "larder": lambda: _named("larder"),
    "heed": lambda: _named("heed"),
    "round": lambda: _named("round"),
}


def picture(words: list[str], today: dt.date) -> int:
    """Write a picture; the exit status."""
    parser = parser_for("picture", ABOUT, garden=False)
    known = sorted(PICTURES)
    said = f"the garden (default: here), then which picture: {', '.join(known)}"
    parser.add_argument("words", nargs="+", metavar="WHAT", help=said)
    parser.add_argument("-o", "--out", metavar="FILE", help="the SVG file; never overwritten")
    add_one_of(parser, "--look", LOOKS, "its colours (default: light)", LOOKS[0])
    parser.add_argument("--columns", type=int, default=COLUMNS, help=f"its width (default: {COLUMNS})")
    given = parser.parse_intermixed_args(words)
    garden, rest = split_garden(given.words)
    named = rest[0] if len(rest) == 1 else ""
    if not named or (named not in PICTURES and is_garden(named)):
        parser.error("say which picture, as in: leafturn picture weir-meadow strip -o season.svg")
    if named not in PICTURES:
        hint = did_you_mean(named, known) or f"The pictures are {', '.join(known)}."
        parser.error(f"there is no picture {clipped(named)!r}. {hint}")
    if given.out is None:
        parser.error(f"say into which file, as in: leafturn picture weir-meadow {named} -o {named}.svg")
    if not given.out.lower().endswith(ENDING):
        parser.error(f"a picture is an SVG file: let its name end in {ENDING}, as in {named}{ENDING}")
    columns = min(MOST, max(LEAST, given.columns))
    almanac = open_garden(garden, day_of(given.on, parser, today))
    write_named(given.out, drawn(almanac, named, given.look, columns).encode())
    return FINE


def drawn(almanac: AlmanacFace, name: str, look: str, columns: int) -> str:
    """One picture as the text of an SVG file.

    Parameters
    ----------
    almanac : AlmanacFace
    name : str
        One of `PICTURES`.
    look : str
        `light`, `dark` or `none`.
    columns : int
        Width [cells].
    """
    from leafturn_tui.text.layout import BLANK, MARGINS, Piece, Row, question_row
    from leafturn_tui.text.styles import Look, season_of
    from leafturn_tui.text.svg import svg_of

    page = PICTURES[name]()
    page.colours, page.height = look != "none", HIGH
    place = almanac.garden.place
    colours = Look(look, season=season_of(almanac.on.month, place.southern))
    rows = page.rows(almanac, columns - MARGINS)
    under = next((row for row in rows if row.key), None)
    indented = [Row((Piece("  " if row.key or row.joined else " "), *row.pieces)) for row in rows]
    shown = [
        BLANK,
        question_row(page.heading(almanac), page.sum(almanac), columns),
        *page.heads(almanac, columns - MARGINS),
        *indented,
        *page.below(almanac, under, columns),
        BLANK,
    ]
    return svg_of(shown, colours, columns, safe_text(f"{page.question.asked} {place.name} {almanac.on}"))
