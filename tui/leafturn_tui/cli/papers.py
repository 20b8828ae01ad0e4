"""The commands that make papers: `leafturn sheet`, `away`, `feed`, `handover` and `card`."""

from __future__ import annotations

import argparse
import datetime as dt
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from leafturn.base.faults import clipped, did_you_mean
from leafturn.papers.sheet_numbers import number_in
from leafturn_tui.cli.arguments import Parser, day_of, is_garden, parser_for, split_garden
from leafturn_tui.cli.faults import tell_faults
from leafturn_tui.cli.opening import open_garden
from leafturn_tui.cli.printing import add_forms, form_of, put
from leafturn_tui.cli.questions import known_helper
from leafturn_tui.cli.statuses import UNREADABLE
from leafturn_tui.notes import NotUnderstood
from leafturn_tui.render.parts.printed import printed as as_text
from leafturn_tui.safe_text import safe_text

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace
    from leafturn_tui.cli.several import Gardens
    from leafturn_tui.papers.printed import Printed

SHEET = """\
Print the week sheet: one page of at most 60 lines of 72 columns, to tick with a pencil.

The journal keeps the sheet's number with its lines, so that the key e (or `leafturn sheet --done "3 5 8"`)
can enter the ticks afterwards. The same sheet printed twice keeps its number. Of several gardens, or of one
whose file names others as `also`, each has its sheet on the same paper, with a number of its own.
"""


def sheet(words: list[str], today: dt.date) -> int:
    """`leafturn sheet [GARDEN ...]`."""
    from leafturn_tui.cli.several import gathered
    from leafturn_tui.papers.week import make_sheet, printed

    parser = parser_for("sheet", SHEET, several=True)
    add_forms(parser)
    parser.add_argument(
        "--done", metavar="LINES", help='enter the ticked lines, such as "3 5 8" or "16-B 3 by Ann 20; 5 8"'
    )
    given = parser.parse_args(words)
    on = day_of(given.on, parser, today)
    form_of(given)
    found = gathered(given.garden, on)
    almanac = found[0].garden
    if len(found) > 1 or almanac is None:
        return _several_sheets(found, given, on, today, parser)
    if given.done is not None:
        return _enter(almanac, given.done, today, parser)
    almanac, made = make_sheet(almanac, today)
    return _put(almanac, printed(almanac, made), given)


def _several_sheets(
    found: Gardens, given: argparse.Namespace, on: dt.date, today: dt.date, parser: Parser
) -> int:
    """The sheets of several gardens on one paper, or the ticked lines of one of them."""
    from leafturn_tui.cli.several import faults_of
    from leafturn_tui.papers.several_weeks import garden_of_sheet, make_sheets

    if given.done is None:
        put(make_sheets(found, on, today), given)
        return tell_faults(faults_of(found))
    if len(given.garden) < 2 and number_in(given.done) is None and found[0].garden is not None:
        return _enter(found[0].garden, given.done, today, parser)
    try:
        almanac = garden_of_sheet(found, given.done)
    except NotUnderstood as why:
        parser.error(f"nothing was noted: {why}")
    return _enter(almanac, given.done, today, parser)


AWAY = """\
Print the away sheet: what to do before you go, what someone must do meanwhile and who can, and what
will be waiting or past when you are back. --to is the day you are at home again.
"""


def away(words: list[str], today: dt.date) -> int:
    """`leafturn away [GARDEN] --from DATE --to DATE`."""
    from leafturn_tui.papers.away import day_back, make_away, who_goes, wrong_dates

    parser = parser_for("away", AWAY)
    add_forms(parser)
    parser.add_argument("--from", dest="leave", metavar="DATE", required=True, help="the day of leaving")
    parser.add_argument("--to", dest="back", metavar="DATE", required=True, help="the day of return")
    help_text = "the helper who goes; may be given again (default: the steward)"
    parser.add_argument("--helper", metavar="NAME", action="append", help=help_text)
    given = parser.parse_args(words)
    on = day_of(given.on, parser, today)
    leave = day_of(given.leave, parser, on)
    try:
        back = day_back(given.back, leave)
    except NotUnderstood as why:
        parser.error(str(why))
    wrong = wrong_dates(on, leave, back)
    if wrong:
        parser.error(wrong)
    form_of(given)
    almanac = open_garden(given.garden, on)
    absent = tuple(known_helper(almanac, name, parser) or "" for name in given.helper or ())
    return _put(almanac, make_away(almanac, leave, back, absent or who_goes(almanac)), given)


FEED = """\
Write calendar files (iCalendar, RFC 5545) into papers/ beside the garden file: one for each helper with the
jobs on the days they are best done by, and one of expected bloom. Written again, events that moved are
updated, and those that are done are called off. A phone opens the files or is pointed at them.
"""


def feed(words: list[str], today: dt.date) -> int:
    """`leafturn feed [GARDEN]`."""
    from leafturn_tui.papers.calendar import write_feeds

    parser = parser_for("feed", FEED)
    parser.add_argument(
        "--into", metavar="FOLDER", help="where to write them (default: papers/ beside the garden)"
    )
    given = parser.parse_args(words)
    almanac = open_garden(given.garden, day_of(given.on, parser, today))
    paths, refused = write_feeds(almanac, Path(given.into) if given.into else None)
    for said in refused:
        print(safe_text(said), file=sys.stderr)
    lines = [f"written: {path}" for path in paths]
    sys.stdout.write(as_text(lines if paths or refused else ["No job and no bloom lies ahead."]))
    return UNREADABLE if refused else tell_faults(almanac.faults)


HANDOVER = """\
Print the handover book: what was lost, open questions, promises, what could hurt someone, the first year
month by month, what stands where and why, partners, what the notes have taught, who helps.
"""


def handover(words: list[str], today: dt.date) -> int:
    """`leafturn handover [GARDEN]`."""
    from leafturn_tui.papers.handover import make_handover

    parser = parser_for("handover", HANDOVER)
    add_forms(parser)
    given = parser.parse_args(words)
    form_of(given)
    almanac = open_garden(given.garden, day_of(given.on, parser, today))
    return _put(almanac, make_handover(almanac), given)


CARD = """\
Print a card. WHAT is month (what opens, is ripe and is to be done), bloom (what to look for, with room
for the days), looks (at failing trees: who looked and when), or a plant's id (a card to tie on it).
"""


def card(words: list[str], today: dt.date) -> int:
    """`leafturn card [GARDEN] WHAT`."""
    from leafturn_tui.papers.cards import KINDS, make_card

    parser = parser_for("card", CARD, garden=False)
    add_forms(parser)
    parser.add_argument(
        "words", nargs="+", metavar="WHAT", help="the garden (default: here), then which card"
    )
    given = parser.parse_intermixed_args(words)
    garden, rest = split_garden(given.words)
    only_a_garden = len(given.words) == 1 and rest[0] not in KINDS and is_garden(rest[0])
    if len(rest) != 1 or only_a_garden:
        parser.error("give one card, as in: leafturn card weir-meadow month")
    form_of(given)
    almanac = open_garden(garden, day_of(given.on, parser, today))
    try:
        paper = make_card(almanac, rest[0])
    except KeyError:
        near = did_you_mean(rest[0], [*KINDS, *(p.id for p in almanac.garden.plants)])
        hint = near or f"The cards are {', '.join(KINDS)}, or a plant's by its id."
        parser.error(f"there is no card and no plant {clipped(rest[0])!r} here. {hint}")
    return _put(almanac, paper, given)


def _put(almanac: AlmanacFace, paper: Printed, given: argparse.Namespace) -> int:
    """Print a paper or write it, then tell the garden's faults; the exit status."""
    put(paper, given)
    return tell_faults(almanac.faults)


def _enter(almanac: AlmanacFace, typed: str, today: dt.date, parser: argparse.ArgumentParser) -> int:
    """Note the ticked lines of a sheet as done: all of them, or none."""
    from leafturn_tui.cli.notes import not_noted
    from leafturn_tui.papers.week import ticks

    try:
        found = ticks(almanac, typed)
    except NotUnderstood as why:
        parser.error(f"nothing was noted: {why}")
    if almanac.read_only:
        return not_noted("the journal cannot be written; leafturn check says why")
    almanac, _ = almanac.note_many(found.entries, today)
    sys.stdout.write(as_text([found.said]))
    return tell_faults(almanac.faults)
