"""The commands that write into the garden file: `leafturn add`, `change`, `move` and `gone`."""

from __future__ import annotations

import argparse
import datetime as dt
import sys
from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING

from leafturn.base.faults import clipped, did_you_mean
from leafturn.files.reasons import reason
from leafturn.garden.beginning.answers import helper_changes, helper_typed
from leafturn.garden.editing.edits import Edit, NotTaken, TooUnusual
from leafturn.garden.editing.garden_text import free_id, garden_text
from leafturn.garden.editing.kept_edits import KeptEdit, KeptEdits
from leafturn.garden.editing.typed import CHANGEABLE, key_in, key_in_words, key_typed, place_keys, value_typed
from leafturn.garden.reading.planted import far_ahead
from leafturn.garden.reading.reader import reading_of
from leafturn.garden.things import helper_named
from leafturn.journal.entries import LossNote, MovedNote
from leafturn.kinds.names import normalised
from leafturn.kinds.search import FoundKind, KindSearch
from leafturn_tui.cli.arguments import Parser, day_of, parser_for, split_named
from leafturn_tui.cli.notes import Kept, keep
from leafturn_tui.cli.opening import open_garden
from leafturn_tui.cli.statuses import FINE, UNREADABLE
from leafturn_tui.notes import NotUnderstood, grammar
from leafturn_tui.notes.names import plant_id
from leafturn_tui.render.parts.edit_lines import printed_edit
from leafturn_tui.safe_text import safe_text
from leafturn_tui.text import phrases

if TYPE_CHECKING:
    from leafturn.garden.model import Helper, Plant
    from leafturn.kinds.library import Library
    from leafturn_tui.almanac_face import AlmanacFace

TAKEN_BACK = "leafturn take-back, or u in the pages, takes it back."
NOT_TAKEN_BACK = "It cannot be taken back: nothing can be kept in your cache folder."
SHOW = "only show the lines that would be written"
MOST_NAMED = 8
ADD = """\
Add a plant to the garden file. WORDS are parts of the names of its kind and cultivar, as: pear comice. Every
other line of the file stays as it is.
"""
CHANGE = """\
Change what the garden file says of a plant, as: leafturn change weir-meadow comice-1 year 2012, or
... "age when planted" 2. Without a value its line is taken away. Of a helper: the name, hours a week and what
they can do, as: leafturn change weir-meadow "bench helper" 3 seated. Every other line stays as it is.
"""
MOVE = """\
Note that a plant was moved, and write its new place into the garden file, as: leafturn move weir-meadow
comice-1 "5 paces north of gate".
"""
GONE = """\
Note that a plant is gone, and what took it, and write that into the garden file, as: leafturn gone
weir-meadow comice-1 voles --on "12 April".
"""


def add(words: list[str], today: dt.date) -> int:
    """`leafturn add [GARDEN] WORDS`."""
    parser = _parser("add", ADD, "WORDS", "the garden (default: here), then kind and cultivar")
    parser.add_argument("--rootstock", metavar="NAME", default="")
    parser.add_argument("--year", default="", help="when it was planted")
    parser.add_argument("--at", metavar="PLACE", default="", help='as "5 paces north of gate", or "5n"')
    given = parser.parse_intermixed_args(words)
    almanac, rest = _opened(given, parser, today)
    found = _meant(almanac.library, " ".join(rest), parser)

    def make() -> Edit:
        fields = {
            "id": free_id(almanac.garden, found.cultivar or found.kind), "kind": found.kind,
            "cultivar": found.cultivar, "rootstock": given.rootstock, "year": value_typed("year", given.year),
            **place_keys(given.at, "gate", almanac.garden.place),
        }  # fmt: skip
        return garden_text(almanac.file).adding(fields)

    return _write(almanac, make, parser, only_show=given.show)


def change(words: list[str], today: dt.date) -> int:
    """`leafturn change [GARDEN] PLANT KEY [VALUE]`."""
    parser = _parser("change", CHANGE, "PLANT", "the garden (default: here), then plant, key and value")
    given = parser.parse_intermixed_args(words)
    almanac, rest = _opened(given, parser, today)
    if len(rest) < 2:
        parser.error("name a plant and a key, as in: leafturn change weir-meadow comice-1 year 2012")
    helper = helper_named(almanac.garden, rest[0])
    if helper is not None and almanac.garden.plant(rest[0]) is None:
        return _change_helper(almanac, helper, rest[1:], parser, only_show=given.show)
    plant = _plant(almanac, rest[0], parser)
    key, value = _key_and_value(rest[1:], almanac.garden.place.units, parser)
    changes = {key: value_typed(key, value)}
    return _write(
        almanac, lambda: garden_text(almanac.file).changing(plant.id, changes), parser, only_show=given.show
    )


def _change_helper(
    almanac: AlmanacFace, helper: Helper, said: list[str], parser: Parser, *, only_show: bool
) -> int:
    """Hours of a helper, and what they can do, changed in the file."""

    def make() -> Edit:
        fields = helper_typed(" ".join((helper.name, *said)), usual=helper.can)
        if "hours_per_week" not in fields:
            example = f'leafturn change weir-meadow "{helper.name}" 3 seated'
            raise NotTaken(f"Write hours a week, and what they can do if that changes, as in: {example}")
        return garden_text(almanac.file).changing_helper(helper.name, helper_changes(helper, fields))

    return _write(almanac, make, parser, only_show=only_show)


def _key_and_value(words: list[str], units: str, parser: Parser) -> tuple[str, str]:
    """What is to change and to what: as many of the first words as make a key, then the rest."""
    for count in range(len(words), 0, -1):
        if key := key_typed(" ".join(words[:count]), units):
            return key, " ".join(words[count:])
    said = [key_in_words(key_in(units, key)) for key in CHANGEABLE]
    near = did_you_mean(words[0], [*said, *CHANGEABLE])
    parser.error(
        f"{clipped(words[0])!r} is nothing that is changed here. {near or 'It may be: ' + '; '.join(said)}"
    )


def move(words: list[str], today: dt.date) -> int:
    """`leafturn move [GARDEN] PLANT PLACE`."""
    parser = _parser("move", MOVE, "PLANT", "the garden (default: here), then the plant and its place")
    parser.add_argument(
        "--correct",
        action="store_true",
        help="it was not moved: only the file was wrong, and nothing is noted",
    )
    given = parser.parse_intermixed_args(words)
    almanac, rest = _opened(given, parser, today)
    if len(rest) < 2:
        parser.error('name a plant and a place, as in: leafturn move weir-meadow comice-1 "5n of gate"')
    plant = _plant(almanac, rest[0], parser)

    def make() -> Edit:
        at = place_keys(" ".join(rest[1:]), "gate", almanac.garden.place)
        return garden_text(almanac.file).changing(plant.id, at)

    if given.correct:
        return _write(almanac, make, parser, only_show=given.show)
    note = MovedNote(on=almanac.on, plant=plant.id)
    noting = partial(keep, almanac, note, today, offer=False)
    return _write(almanac, make, parser, only_show=given.show, noting=noting)


def gone(words: list[str], today: dt.date) -> int:
    """`leafturn gone [GARDEN] PLANT [CAUSE]`."""
    parser = _parser("gone", GONE, "PLANT", "the garden (default: here), then the plant and what took it")
    parser.add_argument("--all", action="store_true", help="of several under one id, all of them")
    given = parser.parse_intermixed_args(words)
    almanac, rest = _opened(given, parser, today)
    plant = _plant(almanac, rest[0], parser)
    if almanac.on > today:
        parser.error(f"{phrases.long_day(almanac.on)} is still to come")
    if plant.count > 1 and not given.all:
        parser.error(f"{plant.id} is {plant.count} plants: with --all they are all lost, of some note damage")
    note = grammar.lost(LossNote, plant.id, " ".join(rest[1:]), almanac.on)
    return _write(
        almanac,
        lambda: garden_text(almanac.file).changing(plant.id, {"state": "gone"}),
        parser,
        only_show=given.show,
        noting=partial(keep, almanac, note, today, question="", offer=False),
    )


def _parser(command: str, said: str, word: str, help_text: str) -> Parser:
    parser = parser_for(command, said, garden=False)
    parser.add_argument("words", nargs="+", metavar=word, help=help_text)
    parser.add_argument("--show", action="store_true", help=SHOW)
    return parser


def _opened(given: argparse.Namespace, parser: Parser, today: dt.date) -> tuple[AlmanacFace, list[str]]:
    garden, rest = split_named(given.words, parser)
    return open_garden(garden, day_of(given.on, parser, today)), rest


def _plant(almanac: AlmanacFace, name: str, parser: Parser) -> Plant:
    try:
        meant = plant_id(name, almanac.garden)
    except NotUnderstood as why:
        parser.error(f"there is {why}")
    return next(plant for plant in almanac.garden.plants if plant.id == meant)


def _meant(library: Library, words: str, parser: Parser) -> FoundKind:
    """The kind or cultivar that words mean: the only one found, or one that is called just so."""
    found = KindSearch(library).find(words, most=MOST_NAMED + 1)
    exact = [
        one
        for one in found
        if normalised(words) in (normalised(one.kind), normalised(f"{one.kind} {one.cultivar}"))
    ]
    if len(found) == 1 or exact:
        return (exact or found)[0]
    if not found:
        own = (
            "one of your own is told in kinds.toml beside the garden file: leafturn kinds --check kinds.toml"
        )
        parser.error(f"no kind and no cultivar has a name with {clipped(words)!r}; {own}")
    names = ", ".join(f"{one.kind} {one.cultivar}".strip() for one in found[:MOST_NAMED])
    more = " and others" if len(found) > MOST_NAMED else ""
    parser.error(f"{clipped(words)!r} may be {names}{more}. Name one")


def _write(
    almanac: AlmanacFace,
    make: Callable[[], Edit],
    parser: Parser,
    *,
    only_show: bool,
    noting: Callable[..., Kept] | None = None,
) -> int:
    """Make an edit and show its lines; unless they were only to be shown, write them.

    `noting` writes them with a note, given them as `edit`. What was written is kept, so that the pages can
    take both back.
    """
    try:
        edit = make()
    except TooUnusual as why:
        print(
            safe_text(str(why)), *(f"    {safe_text(line)}" for line in why.lines), sep="\n", file=sys.stderr
        )
        return UNREADABLE
    except NotTaken as why:
        parser.error(str(why))
    for line in printed_edit(edit):
        print(safe_text(line, limit=2000))
    for doubt in _doubts(edit, almanac.on.year):
        print(safe_text(doubt))
    if only_show:
        print("Nothing was written.")
        return FINE
    status, after = FINE, almanac
    try:
        if noting is None:
            edit.write()
        else:
            status, after = noting(edit=edit)
    except NotTaken as why:
        return _not_written(str(why))
    except OSError as why:
        return _not_written(f"{edit.file.name}: nothing was written: {reason(why, writing=True)}.")
    if noting is not None and after is almanac:
        print("Nothing was written.")
        return status
    print("Written.")
    last = after.takeable()
    newest = last.id if last is not None else ""
    kept = KeptEdit.of(edit, newest if noting is not None else "", newest)
    lasts = KeptEdits(almanac.file).remember(kept)
    print(TAKEN_BACK if lasts else NOT_TAKEN_BACK)
    return status


def _doubts(edit: Edit, now: int) -> list[str]:
    """What is doubted of a plant's year as the file will have it."""
    changed = reading_of(edit.after, edit.file).garden.plant(edit.about)
    doubt = far_ahead(changed.year, now) if changed is not None and changed.year is not None else ""
    return [f"{edit.about}, year: {doubt}"] if doubt else []


def _not_written(why: str) -> int:
    """Say why an edit that was shown was not written, which no other words would mend; the exit status."""
    sys.stdout.flush()
    print(safe_text(why), file=sys.stderr)
    return UNREADABLE
