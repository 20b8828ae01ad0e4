"""The garden file as the pages change it: written, and taken back, also what a command has written."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from leafturn.base.faults import Unreadable
from leafturn.files.reasons import reason
from leafturn.garden.editing.edits import Edit, NotTaken
from leafturn.garden.editing.kept_edits import KeptEdit, KeptEdits
from leafturn.garden.reading.file import bytes_of
from leafturn.journal.entries import Entry
from leafturn_tui.desk.open_garden import ShownGarden
from leafturn_tui.notes import NotUnderstood


class GardenFile:
    """Writes the file of the garden that is shown, and knows what was written.

    Parameters
    ----------
    shown : ShownGarden
    """

    def __init__(self, shown: ShownGarden) -> None:
        self._shown = shown
        self._kept = KeptEdits(shown.almanac.file)
        self._written: bytes | None = None  # as these pages left it

    def write(self, edit: Edit, entry: Entry | None = None) -> str:
        """Write the file, with a note of the same act; what is to be said of it.

        Raises
        ------
        NotUnderstood
            With why neither was written.
        """
        kept = self._replace(edit, None if entry is None else partial(self._shown.note, entry))
        said = f"written into {edit.file.name}: {edit.about}; u takes it back"
        self._kept.remember(KeptEdit.of(edit, "" if kept is None else kept.id, self._newest_note()))
        return said if kept is None else f"{said}, with the note"

    def last(self) -> Edit | None:
        """The last change of the file, if no note was written or taken back since.

        Of what another hand has changed since, only what these pages wrote is offered, to say that it is so.
        """
        last, file = self._kept.last(), self._shown.almanac.file
        if last is None or last.newest != self._newest_note():
            return None
        try:
            still = bytes_of(file) == last.after
        except Unreadable:
            still = False
        return last.edit(file) if still or last.after == self._written else None

    def take_back(self) -> str:
        """Take the last change back, with its note; what is to be said of it, or raised as by `write`."""
        last = self._kept.last()
        if last is None:
            return "There is nothing to take back."
        edit = last.edit(self._shown.almanac.file)
        entries = (told.entry for told in self._shown.newest.book())
        note = next((entry for entry in entries if last.note and entry.id == last.note), None)
        self._replace(edit.undone(), None if note is None else partial(self._shown.withdraw, note))
        self._kept.forget_last()
        said = f"taken back: {edit.file.name} is as it was"
        return said if note is None else f"{said}; {self._shown.taken_back(note)}"

    def _replace(self, edit: Edit, noting: Callable[[Edit], Entry] | None) -> Entry | None:
        """Write the file, with what is noted of it, and read the garden again; that note."""
        try:
            kept = None
            if noting is None:
                edit.write()
            else:
                kept = noting(edit)
            self._written = edit.after
            self._shown.read_again()
        except (NotTaken, Unreadable) as why:
            raise NotUnderstood(str(why)) from None
        except OSError as why:
            said = f"Not written: {edit.file.name}: {reason(why, writing=True)}."
            raise NotUnderstood(said) from None
        return kept

    def _newest_note(self) -> str:
        newest = self._shown.newest.takeable()
        return newest.id if newest is not None else ""
