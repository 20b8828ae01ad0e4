"""A garden that is open on a day: what its files hold, and notes written to them."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence
from contextlib import nullcontext
from functools import cached_property
from pathlib import Path
from typing import Self

from msgspec.structs import replace

from leafturn.assembly.other_gardens import NamedGarden, opened_each
from leafturn.assembly.sources import Sources, Stamp, read_sources, stamp_of_folder
from leafturn.base.faults import Unreadable
from leafturn.garden.editing.edits import Edit, NotTaken
from leafturn.garden.model import Garden
from leafturn.garden.things import things_of
from leafturn.journal.book import BookLine, book_lines
from leafturn.journal.entries import Entry
from leafturn.journal.noted import Notes
from leafturn.journal.withdrawals import not_withdrawn, takeable
from leafturn.season.garden_day import GardenDay
from leafturn.season.garden_with_notes import garden_with_notes
from leafturn.tasks.rule_model import verbs_that_count


class OpenGarden:
    """A garden on a day. Never changes: noting something gives a new one.

    Parameters
    ----------
    sources : Sources
        What was read.
    on : date
        The day of asking.

    Attributes
    ----------
    file, folder : Path
        The garden file, and the folder that holds the garden's files.
    library : Library
        The plant library, with the steward's own kinds.
    faults : tuple of Fault
        What is wrong in the files.
    read_only : bool
        Whether notes cannot be written.
    """

    def __init__(self, sources: Sources, on: dt.date) -> None:
        self._sources = sources
        self.on = on
        self.file, self.folder = sources.file, sources.folder
        self.library, self.faults = sources.library, sources.faults
        self.read_only = sources.journal.read_only

    # ---- what is there -------------------------------------------------------------------

    @property
    def garden(self) -> Garden:
        """What the garden file says, with what was noted of its plants up to the day."""
        return self.day.garden

    @property
    def rests_on(self) -> tuple[Path, ...]:
        """Every file that was read, some of which may not be there, and the folders of the journals."""
        gardens = (self, *self._beside.values())
        stamps = (*(one._sources.stamp for one in gardens), *self._not_opened.values())
        files = (Path(name) for stamp in stamps for name, *_ in stamp)
        return (*files, *(one.folder / "journal" for one in gardens))

    def stale(self) -> bool:
        """Whether a file has changed since it was read, of this garden or of those told with it."""
        return (
            self._sources.changed()
            or any(one._sources.changed() for one in self._beside.values())
            or any(stamp_of_folder(path) != stamp for path, stamp in self._not_opened.items())
        )

    def reread(self) -> Self:
        """The same garden and day, read again; of those told with it the ones whose files have changed."""
        anew = type(self)(read_sources(self.file, self._sources), self.on)
        anew._beside.update({p: one for p, one in self._beside.items() if not one._sources.changed()})
        return anew

    @cached_property
    def _beside(self) -> dict[Path, Self]:
        return {}

    @cached_property
    def _not_opened(self) -> dict[Path, Stamp]:
        return {}

    def also(self) -> tuple[NamedGarden[Self], ...]:
        """The gardens that the garden file names beside this one, each opened on the same day.

        What those name in turn is not followed.
        """
        return opened_each(self._sources.garden.also, self.folder, self._open_beside)

    def _open_beside(self, path: Path) -> Self:
        if path not in self._beside:
            stamp = stamp_of_folder(path)
            try:
                self._beside[path] = type(self)(read_sources(path), self.on)
            except Unreadable:
                self._not_opened[path] = stamp
                raise
        return self._beside[path]

    def at(self, on: dt.date) -> Self:
        """The same garden on another day."""
        return type(self)(self._sources, on)

    @cached_property
    def entries(self) -> Notes:
        """Notes not taken back up to the day of asking, oldest first."""
        return Notes(e for e in not_withdrawn(self._sources.journal.entries) if e.on <= self.on)

    @cached_property
    def day(self) -> GardenDay:
        """Garden, library, notes and day of asking, as one value."""
        garden = garden_with_notes(self._sources.garden, self.entries)
        verbs = verbs_that_count(self._sources.rules.rules)
        return GardenDay(garden, self.library, self.entries, self.on, verbs)

    def book(self) -> tuple[BookLine, ...]:
        """All notes up to the day, newest first (of one day the last written); marked if taken back."""
        return self._book

    @cached_property
    def _book(self) -> tuple[BookLine, ...]:
        return book_lines(self._sources.journal.entries, self.on, things_of(self.garden))

    # ---- noting --------------------------------------------------------------------------

    def note(self, entry: Entry, written: dt.date, edit: Edit | None = None) -> tuple[Self, Entry]:
        """Append a note; the garden that knows of it, and the note with its id.

        Parameters
        ----------
        entry : Entry
        written : date
            Today.
        edit : Edit, optional
            What the same act changes in the garden file: both are written, or neither. The note comes first:
            where the power fails between the two it stands alone. What the file says then is known to a
            garden that is reread.

        Raises
        ------
        NotWritten
            If the note is not taken.
        NotTaken, Unreadable, OSError
            As `Edit.write`, if the file is not.
        """
        return self._with_file(edit, lambda: self._sources.store.append(entry, written), written)

    def note_many(self, entries: Sequence[Entry], written: dt.date) -> tuple[Self, tuple[Entry, ...]]:
        """Append the notes of one act, all or, if they cannot be written, none."""
        kept = self._sources.store.append_many(entries, written)
        return self._with_journal(), kept

    def takeable(self, skip: int = 0) -> Entry | None:
        """The note that would be taken back next."""
        found = list(takeable(self._sources.journal.entries))
        return found[skip] if skip < len(found) else None

    def take_back(self, entry_id: str, written: dt.date, edit: Edit | None = None) -> tuple[Self, Entry]:
        """Take a note back by another, with an `edit` as in `note`; taking back a withdrawal restores."""
        return self._with_file(
            edit, lambda: self._sources.store.withdraw(entry_id, written, self.on), written
        )

    def _with_file(
        self, edit: Edit | None, write: Callable[[], Entry], written: dt.date
    ) -> tuple[Self, Entry]:
        """Write a note and the change of the garden file that goes with it."""
        with nullcontext(_no_file) if edit is None else edit.ready() as put:
            kept = write()
            anew = self._with_journal()
            try:
                put()
            except (NotTaken, Unreadable, OSError):
                self._undo(kept, written)
                raise
        return anew, kept

    def _with_journal(self) -> Self:
        """The garden reread; where its file cannot be read just now, as it was with the journal of now."""
        try:
            return self.reread()
        except Unreadable:
            journal = self._sources.store.read()
            return type(self)(replace(self._sources, journal=journal), self.on)

    def _undo(self, kept: Entry, written: dt.date) -> None:
        """Take back what was noted of a change that the garden file then did not take."""
        try:
            self._sources.store.withdraw(kept.id, written, self.on)
        except Unreadable:
            said = f"{self.file.name} cannot be written, nor the journal any more"
            raise NotTaken(f"{said}: what was noted of it stands, and the file is as it was.") from None


def _no_file() -> None:
    """Where the garden file does not change."""
