"""The journal on disk: notes are read, added at the end, and taken back by a further note.

Nothing written is ever changed or deleted. The one exception is the tail of a note cut short by a
power cut: it is first copied into a file beside the journal, and only then taken off.
"""

from __future__ import annotations

import datetime as dt
import os
from collections.abc import Sequence
from pathlib import Path

from leafturn.base import day_words
from leafturn.base.faults import Fault, did_you_mean, listed
from leafturn.base.value import Value
from leafturn.files.reading import real_path, require_inside
from leafturn.files.reasons import reason
from leafturn.journal.book import in_words
from leafturn.journal.entries import Entry, Withdrawal
from leafturn.journal.store import disk
from leafturn.journal.store.errors import NotWritten, not_read, not_set_aside, not_written
from leafturn.journal.store.files import (
    FOLDER,
    JournalFile,
    copied_files,
    journal_files,
    strange_files,
    torn_files,
)
from leafturn.journal.store.ids import settled
from leafturn.journal.store.kept_readings import read_or_kept
from leafturn.journal.store.reading import FileReading, read_data
from leafturn.journal.store.sealing import mark_of

__all__ = ["JournalReading", "NotWritten", "Store"]

MOST_NAMED = 5  # notes that are told to be there no more
MOST_TOLD = 200  # characters that a withdrawal tells of the note it takes back

Signature = tuple[int, int, int]  # inode, size [bytes], time of last change [ns]


class JournalReading(Value):
    """What a journal holds.

    Parameters
    ----------
    entries : tuple of Entry
        In the order they were written: file by file, and in each as they stand. Every one has an id
        of its own.
    faults : tuple of Fault
        What to mend in the files.
    notes : tuple of str
        Plain sentences about what became of the files.
    read_only : bool
        True where nothing can be written; `notes` say why.
    """

    entries: tuple[Entry, ...] = ()
    faults: tuple[Fault, ...] = ()
    notes: tuple[str, ...] = ()
    read_only: bool = False


class Store:
    """The journal of one garden.

    Parameters
    ----------
    folder : Path
        The garden's folder. Notes lie in `journal/YYYY.toml` by the year they were written; a
        `journal.toml` beside the garden is read too, as the oldest.
    patience : float
        How long to wait for another process that is writing [s].
    """

    def __init__(self, folder: Path, *, patience: float = 5.0) -> None:
        self._folder = folder
        self._patience = patience
        self._known: dict[Path, tuple[Signature, FileReading]] = {}
        self._last: tuple[Entry, ...] = ()  # what was read a moment ago
        self._gone: dict[str, Entry] = {}  # by check sum, since a copy's note may be given another id

    def read(self) -> JournalReading:
        """Everything the journal holds. A torn tail is set aside first, if that can be done."""
        try:
            files = journal_files(self._folder)
            faults = list(strange_files(self._folder))
        except OSError as error:
            return JournalReading(faults=(not_read(FOLDER, error),), read_only=True)
        readings: list[FileReading] = []
        blocked: list[str] = []
        for file in files:
            try:
                readings.append(self._mended(file, blocked, growing=file is files[-1]))
            except OSError as error:
                faults.append(not_read(file.name, error))
                readings.append(FileReading(sound=False))
        if not blocked and (why := self._closed()):
            blocked.append(f"The journal's folder cannot be written, so no note can be kept: {why}.")
        copies = self._copies(faults)
        own, wrong = settled(
            (entry for reading in readings for entry in reading.entries),
            (entry for _, reading in copies for entry in reading.entries),
        )
        faults += [fault for reading in readings for fault in reading.faults]
        told = [_copied(file, reading) for file, reading in copies]
        return JournalReading(
            entries=own,
            faults=(*faults, *listed(wrong, FOLDER)),
            notes=(
                *(blocked or _turned_away(files, readings)),
                *_cut_short(files),
                *told,
                *self._no_more(own),
            ),
            read_only=bool(blocked),
        )

    def append(self, entry: Entry, written: dt.date) -> Entry:
        """Keep one note; see `append_many`."""
        return self.append_many([entry], written)[0]

    def append_many(self, entries: Sequence[Entry], written: dt.date) -> tuple[Entry, ...]:
        """Keep the notes of one act; when they are on the disk, gives them as they will be read.

        If the machine dies meanwhile, some of them may be kept and the others not, each whole or not
        at all.

        Parameters
        ----------
        entries : sequence of Entry
            Their `id`, `file` and `line` are given here.
        written : date
            Today. Where the clock has stepped back since the last note, ids go on from that note's day.

        Raises
        ------
        NotWritten
            With one plain sentence: the note itself, the lock or the disk. Nothing is then changed.
        """
        if not entries:
            return ()
        from leafturn.journal.store.appending import append_entries

        today = written.date() if isinstance(written, dt.datetime) else written
        try:
            return append_entries(self._folder, entries, today, self._patience)
        except (OSError, disk.LockNotHad) as error:
            raise not_written(FOLDER, error) from error

    def withdraw(self, entry_id: str, written: dt.date, on: dt.date | None = None) -> Entry:
        """Take back a note by a further note. Taking back a withdrawal restores what it took back.

        `on` is the day of the further note; without one, the day it is written.

        Raises
        ------
        NotWritten
            If there is no such note, or as `append_many`.
        """
        entries = {entry.id: entry for entry in self.read().entries}
        target = entries.get(entry_id)
        if target is None:
            hint = did_you_mean(entry_id, entries)
            message = f"There is no note {entry_id} to take back."
            raise NotWritten(Fault(file=FOLDER, line=None, message=message, hint=hint))
        was = f"{target.on.isoformat()}, {in_words(target)}"
        back = Withdrawal(on=on or written, entry=entry_id, was=was[:MOST_TOLD], mark=mark_of(target))
        return self.append(back, written)

    def _no_more(self, own: Sequence[Entry]) -> list[str]:
        """A sentence if notes that were read before stand in no file any more."""
        last, self._last = self._last, tuple(own)
        if not self._gone and self._last[: len(last)] == last:
            return []
        now = {entry.sum for entry in own}
        known = {entry.sum: entry for entry in last if entry.sum} | self._gone
        self._gone = {key: entry for key, entry in known.items() if key not in now}
        gone = list(self._gone.values())
        if not gone:
            return []
        words = "; ".join(f"{in_words(entry)} ({day_words.day(entry.on)})" for entry in gone[:MOST_NAMED])
        more = f"; and {len(gone) - MOST_NAMED} more" if len(gone) > MOST_NAMED else ""
        said = f"The journal held notes that it holds no more: {words}{more}."
        return [
            f"{said} If another program put an older file back, look for the newer one, or note them again."
        ]

    def _copies(self, faults: list[Fault]) -> list[tuple[JournalFile, FileReading]]:
        """What copies of the files hold; they are never mended."""
        found = []
        for file in copied_files(self._folder):
            try:
                found.append((file, self._read_file(file, growing=False)))
            except OSError as error:
                faults.append(not_read(file.name, error))
        return found

    def _read_file(self, file: JournalFile, *, growing: bool) -> FileReading:
        """One file as last read, or read again if it has changed since."""
        signature = _signature(file.path)
        known = self._known.get(file.path)
        if known is None or known[0] != signature:
            known = (signature, read_or_kept(file, growing=growing))
            self._known[file.path] = known
        return known[1]

    def _mended(self, file: JournalFile, blocked: list[str], *, growing: bool) -> FileReading:
        """One file, a torn tail set aside; where that cannot be done, `blocked` says why."""
        reading = self._read_file(file, growing=growing)
        if reading.torn is None or not reading.sound:
            return reading
        real = real_path(file.path)
        line = _line_at(file, reading.torn)
        try:
            with disk.locked(real.parent, self._patience):
                # What looked torn may have been another process in the midst of writing.
                reading = read_data(file.data(), file.name)
                if reading.torn is not None and reading.sound:
                    line = _line_at(file, reading.torn)
                    disk.set_aside(real, reading.torn)
        except (OSError, disk.LockNotHad) as error:
            blocked.append(not_set_aside(file.name, line, error))
        return reading

    def _closed(self) -> str:
        """Why nothing can be written to the journal's folder; empty if it can."""
        journal = self._folder / FOLDER
        try:
            require_inside(real_path(journal), self._folder)
        except OSError as error:
            return reason(error, writing=True)
        writable = os.access(journal if journal.exists() else self._folder, os.W_OK | os.X_OK)
        return "" if writable else "it may not be written to"


def _line_at(file: JournalFile, position: int) -> int:
    return file.data().count(b"\n", 0, position) + 1


def _turned_away(files: Sequence[JournalFile], readings: Sequence[FileReading]) -> list[str]:
    """A sentence if notes cannot go where they would be looked for."""
    if not files or files[-1].year == 0 or (readings[-1].sound and files[-1].may_grow):
        return []
    return [f"{files[-1].name} cannot be added to as it stands, so new notes go into {files[-1].next.name}."]


def _cut_short(files: Sequence[JournalFile]) -> list[str]:
    return [
        f"{name} holds a note that was cut short while being written. Note it again if it is missing, then "
        "delete that file."
        for name in torn_files(files)
    ]


def _signature(path: Path) -> Signature:
    try:
        status = path.stat()
    except OSError:  # a link that leads nowhere: reading it says so
        return 0, 0, 0
    return status.st_ino, status.st_size, status.st_mtime_ns


def _copied(file: JournalFile, reading: FileReading) -> str:
    own = f"{FOLDER}/{file.year:04d}.toml"
    some = f", and {len(reading.faults)} places in it cannot" if reading.faults else ""
    return (
        f"{file.name} is a copy beside {own}: what only it holds is read too{some}. "
        f'To have one file: leafturn book --merge {own} "{file.name}", then delete the copy.'
    )
