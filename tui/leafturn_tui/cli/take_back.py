"""The command `leafturn take-back`: the newest note or change of the garden file, or a note by its id."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from leafturn.base.faults import Unreadable, clipped, did_you_mean
from leafturn.files.reasons import reason
from leafturn.garden.editing.edits import NotTaken
from leafturn.garden.editing.kept_edits import KeptEdit, KeptEdits
from leafturn.garden.reading.file import bytes_of
from leafturn_tui.cli.arguments import Parser, day_of, parser_for, split_garden
from leafturn_tui.cli.faults import tell_faults
from leafturn_tui.cli.notes import not_noted
from leafturn_tui.cli.opening import open_garden
from leafturn_tui.cli.statuses import FINE
from leafturn_tui.notes import grammar
from leafturn_tui.notes.dates import LATEST
from leafturn_tui.safe_text import safe_text

if TYPE_CHECKING:
    from leafturn.journal.entries import Entry
    from leafturn_tui.almanac_face import AlmanacFace

TAKE_BACK = """\
Take back what was noted or written last, a note with the lines of the garden file that were written with it;
or the note whose id is given, as leafturn book tells it. Nothing is erased: a further note says so, and
taking that one back brings the first again.
"""


def take_back(words: list[str], today: dt.date) -> int:
    """`leafturn take-back [GARDEN] [ID]`."""
    parser = parser_for("take-back", TAKE_BACK, garden=False)
    parser.usage = "leafturn take-back [GARDEN] [ID] [--on DATE]"
    parser.add_argument("words", nargs="*", metavar="ID", help="the garden (default: here), then a note's id")
    given = parser.parse_intermixed_args(words)
    garden, ids = split_garden(given.words, alone=True)
    almanac = open_garden(garden, day_of(given.on, parser, today))
    if len(ids) > 1:
        parser.error(f"one note at a time, so {clipped(ids[1])!r} is one too many")
    if almanac.read_only:
        return not_noted("the journal cannot be written; leafturn check says why")
    edits = KeptEdits(almanac.file)
    change = _standing_change(edits, almanac)
    note = _note(almanac, ids[0], parser) if ids else _newest(almanac, change)
    if change is not None and ids and (note is None or change.note != note.id):
        change = None
    if note is None and change is None:
        print("There is nothing to take back.")
        return FINE
    return _taken_back(almanac, note, change, edits, today)


def _standing_change(edits: KeptEdits, almanac: AlmanacFace) -> KeptEdit | None:
    """The last change of the garden file, if it is as that left it and no note came after."""
    last, newest = edits.last(), almanac.takeable()
    if last is None or last.newest != ("" if newest is None else newest.id):
        return None
    try:
        return last if bytes_of(almanac.file) == last.after else None
    except Unreadable:
        return None


def _newest(almanac: AlmanacFace, change: KeptEdit | None) -> Entry | None:
    """The note that goes with the last change; where there is no such change, the newest note."""
    newest = almanac.takeable()
    return newest if change is None or (newest is not None and change.note == newest.id) else None


def _note(almanac: AlmanacFace, id_typed: str, parser: Parser) -> Entry:
    told = {line.entry.id: line for line in almanac.at(LATEST).book()}
    found = told.get(id_typed) or next((told[id] for id in told if id.startswith(f"{id_typed}.")), None)
    if found is None:
        near = did_you_mean(id_typed, told) or "leafturn book tells the id of each."
        parser.error(f"no note has the id {clipped(id_typed)!r}. {near}")
    if found.taken_back:
        parser.error(f"{grammar.entry_words(found.entry, almanac.on, almanac.garden)}, is taken back already")
    return found.entry


def _taken_back(
    almanac: AlmanacFace, note: Entry | None, change: KeptEdit | None, edits: KeptEdits, today: dt.date
) -> int:
    """Take back a note, a change of the file, or both as one act; say it, and how it is had again."""
    undone = None if change is None else change.edit(almanac.file).undone()
    again = ""
    try:
        if note is not None:
            almanac, back = almanac.take_back(note.id, today, undone)
            again = f"To have it again: leafturn take-back {almanac.folder} {back.id}"
        elif undone is not None:
            undone.write()
            almanac = almanac.reread()
    except NotTaken as why:
        return not_noted(str(why).rstrip("."))
    except OSError as why:
        return not_noted(reason(why, writing=True))
    if change is not None:
        edits.forget_last()
        again = ""
        print(safe_text(f"taken back: {almanac.file.name} is as it was before {change.about} was changed"))
    if note is not None:
        print(safe_text(f"taken back: {grammar.entry_words(note, almanac.on, almanac.garden)}"))
    if again:
        print(safe_text(again))
    return tell_faults(almanac.faults)
