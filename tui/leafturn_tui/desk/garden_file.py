"""The garden file as the pages change it: written, and taken back as long as they are open."""

from __future__ import annotations

from typing import NamedTuple

from leafturn.base.faults import Unreadable
from leafturn.files.reasons import reason
from leafturn.garden.editing.edits import Edit, NotTaken
from leafturn.journal.entries import Entry
from leafturn_tui.desk.open_garden import ShownGarden


class Rewritten(NamedTuple):
    """A change of the garden file that can be taken back.

    Parameters
    ----------
    edit : Edit
    entry : Entry or None
        The note of the same act.
    newest : str
        Id of the newest note when it was made; a newer one is taken back first.
    """

    edit: Edit
    entry: Entry | None
    newest: str


class GardenFile:
    """Writes the file of the garden that is shown, and knows what was written.

    Parameters
    ----------
    shown : ShownGarden
    """

    def __init__(self, shown: ShownGarden) -> None:
        self._shown = shown
        self._rewritten: list[Rewritten] = []

    def write(self, edit: Edit, entry: Entry | None = None) -> str:
        """Write the file, with a note of the same act; what is to be said of it."""
        if wrong := self._replace(edit):
            return wrong
        said, kept = f"written into {edit.file.name}: {edit.plant}; u takes it back", None
        if entry is not None:
            kept, wrong = self._shown.note(entry)
            said = f"{said}. {wrong}" if wrong else f"{said}, with the note"
        self._rewritten.append(Rewritten(edit, kept, self._newest_note()))
        return said

    def last(self) -> Edit | None:
        """The last change of the file, if no note was written or taken back since."""
        last = self._rewritten[-1] if self._rewritten else None
        return last.edit if last is not None and last.newest == self._newest_note() else None

    def take_back(self) -> str:
        """Take the last change back, with its note; what is to be said of it."""
        last = self._rewritten[-1]
        if wrong := self._replace(last.edit.undone()):
            return wrong
        self._rewritten.pop()
        said = f"taken back: {last.edit.file.name} is as it was"
        return f"{said}; {self._shown.take_back(last.entry)}" if last.entry is not None else said

    def _replace(self, edit: Edit) -> str:
        """Write the file and read the garden again; why not, or nothing."""
        try:
            edit.write()
            self._shown.read_again()
        except (NotTaken, Unreadable) as why:
            return str(why)
        except OSError as why:
            return f"Not written: {edit.file.name}: {reason(why, writing=True)}."
        return ""

    def _newest_note(self) -> str:
        newest = self._shown.almanac.takeable()
        return newest.id if newest is not None else ""
