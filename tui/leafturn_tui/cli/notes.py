"""The command `leafturn note`, and keeping what any command notes."""

from __future__ import annotations

import datetime as dt
import sys
from typing import TYPE_CHECKING, NamedTuple

import msgspec

from leafturn.garden.editing.edits import TooUnusual
from leafturn.journal.entries import MovedNote
from leafturn_tui.cli.arguments import day_of, is_garden, parser_for, split_garden
from leafturn_tui.cli.asking import sure
from leafturn_tui.cli.faults import tell_faults
from leafturn_tui.cli.opening import open_garden
from leafturn_tui.cli.statuses import FINE, UNREADABLE
from leafturn_tui.notes import NotUnderstood, grammar
from leafturn_tui.notes.far_ahead import far_ahead
from leafturn_tui.render.parts.edit_lines import printed_edit
from leafturn_tui.render.parts.printed import printed
from leafturn_tui.safe_text import safe_text

if TYPE_CHECKING:
    from leafturn.garden.editing.edits import Edit
    from leafturn.journal.entries import Entry
    from leafturn_tui.almanac_face import AlmanacFace

NOTE = """\
Note something. It is kept word for word unless it begins in one of these ways:

  bloom PLANT [--stage STAGE]     stages: first open, full bloom, petal fall, none this year
  harvest PLANT AMOUNT            "4.5 kg", "10 lb", "2 baskets"
  set PLANT none|poor|fair|good   how it set fruit
  reading HEAP DEGREES            58, 58C or 136F
  crown PLANT PERCENT [SIGNS]     how much of a crown lives, as 33%, and what else was seen
  loss PLANT [CAUSE]              a plant that is no more, as: loss pear-2 voles, no guard
  damage PLANT [CAUSE]            as: damage pear-2 wind, a limb broke
  planted PLANT                   it stands from that day; after a loss it is a new one
  moved PLANT [WORDS]             its roots start anew; its place is changed in the garden file
  judged PLANT keep|move|remove   what is to become of it, which makes its jobs
  watering PLANT [40 l]           also of a guild, as pear-guild; without litres its roots are taken as filled
  frost DEGREES                   a morning's minimum in the garden, -2.8 or 27F
  rain AMOUNT                     12, 12mm or 0.5in
  wind                            trees that may drop something are then looked over
  snow                            heavy and wet: what it bends is then freed of it
  weather min|max|rain VALUE      as: weather min 1.5, weather min 1.5 max 31 rain 12; also: weather wind

Each may have its day behind it: "harvest quince 4 kg on 12 October", "rain 12 yesterday". --on gives it, too.
"""
BELOW_ZERO = tuple(f"-{digit}" for digit in "0123456789.")


def note(words: list[str], today: dt.date) -> int:
    """`leafturn note [GARDEN] WORDS`."""
    parser = parser_for("note", NOTE, garden=False)
    parser.add_argument("words", nargs="+", metavar="WORDS", help="the garden (default: here), then the note")
    parser.add_argument("--stage", default="first open", help="of a bloom (default: first open)")
    parser.add_argument("--by", metavar="WHO", help="who saw it")
    # With a blank before it "-2.8C" is taken as a word and not as an option.
    given = parser.parse_intermixed_args([f" {word}" if word[:2] in BELOW_ZERO else word for word in words])
    garden, rest = split_garden(given.words)
    on = day_of(given.on, parser, today)
    if garden == "." and len(rest) == 1 and is_garden(rest[0]):
        parser.error(f"what is to be noted in {rest[0]}? As in: leafturn note {rest[0]} bloom comice-1")
    almanac = open_garden(garden, on)
    typed = " ".join(rest)
    question = None
    try:
        entry = grammar.understand(typed.split(), almanac.garden, on, stage_words=given.stage, typed=typed)
    except grammar.Misspelt as why:
        entry, question = why.entry, f"{why} Or keep it in these words?"
    except NotUnderstood as why:
        parser.error(str(why))
    return keep(almanac, msgspec.structs.replace(entry, by=given.by), today, question=question).status


KEPT_UNASKED = "It was kept; leafturn take-back takes it back."


class Kept(NamedTuple):
    """The exit status of a note, and the garden after it, with the note if it was kept."""

    status: int
    almanac: AlmanacFace


def keep(
    almanac: AlmanacFace,
    entry: Entry,
    today: dt.date,
    *,
    quiet: bool = False,
    question: str | None = None,
    offer: bool = True,
    edit: Edit | None = None,
) -> Kept:
    """Write a note, asking where it is doubtful and someone is there to answer; `quiet` says no more.

    It is written today, whatever day it is of. `question` is a question that the words themselves raise;
    without one (None) the almanac is asked. With `offer` the lines are told that the garden file could take
    up. An `edit` of the garden file is written with it, and raises what `Almanac.note` says.
    """
    if almanac.read_only:
        return Kept(not_noted("the journal cannot be written; leafturn check says why"), almanac)
    doubted = almanac.question_about(entry) if question is None else question
    for doubt in (far_ahead(entry.on, today), doubted):
        if doubt and not sure(doubt, KEPT_UNASKED):
            print("Nothing was noted.")
            return Kept(FINE, almanac)
    almanac, kept = almanac.note(entry, today, edit)
    if quiet:
        return Kept(FINE, almanac)
    said = [
        f"noted: {grammar.entry_words(kept, today, almanac.garden)}",
        grammar.kept_in_words(kept, almanac.garden),
    ]
    sys.stdout.write(printed([*filter(None, said), *(_lines_of_the_file(almanac, kept) if offer else ())]))
    return Kept(tell_faults(almanac.faults), almanac)


def _lines_of_the_file(almanac: AlmanacFace, entry: Entry) -> list[str]:
    """What the garden file could say after a note, and how that is written."""
    from leafturn_tui.pages.noted_lines import edit_after

    if isinstance(entry, MovedNote) and entry.plant:
        return [f"Its new place: leafturn move --correct {almanac.folder} {entry.plant} PLACE"]
    try:
        edit = edit_after(almanac, entry)
    except TooUnusual as why:
        return [str(why), *(f"    {line}" for line in why.lines)]
    return (
        ["", "The garden file could say so too (leafturn change writes a key):", *printed_edit(edit)]
        if edit
        else []
    )


def not_noted(why: str) -> int:
    """Say why nothing was noted; the exit status."""
    print(safe_text(f"Nothing was noted: {why}."), file=sys.stderr)
    return UNREADABLE
