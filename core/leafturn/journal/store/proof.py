"""Whether a journal is whole: every file read, every note as it was written, no number missing."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from pathlib import Path

from leafturn.base.faults import Fault, listed
from leafturn.base.value import Value
from leafturn.journal.entries import Entry
from leafturn.journal.store.errors import not_read
from leafturn.journal.store.files import FOLDER, JournalFile, copied_files, journal_files, torn_files
from leafturn.journal.store.ids import HIGHEST, settled
from leafturn.journal.store.reading import FileReading, read_data
from leafturn.journal.store.sealing import mark_of


class FileProof(Value):
    """One file of the journal: how many notes it holds, and how they came there.

    `sealed` were written by the program and say what they said then, `mended` were changed by a hand since,
    `by_hand` have no check sum: written by hand, or in format 1.
    """

    file: str
    sealed: int
    mended: int
    by_hand: int


class JournalProof(Value):
    """The journal looked through.

    `whole` says that every file was read to its end and no note is missing or in doubt; `faults` say what is
    wrong where it is not, `remarks` what is worth knowing either way.
    """

    files: tuple[FileProof, ...]
    faults: tuple[Fault, ...]
    remarks: tuple[str, ...]

    @property
    def whole(self) -> bool:
        """Whether nothing is missing or in doubt."""
        return not self.faults

    @property
    def notes(self) -> int:
        """How many notes there are."""
        return sum(one.sealed + one.mended + one.by_hand for one in self.files)


def prove(folder: Path) -> JournalProof:
    """Look through the journal of a garden's folder. Nothing is written and nothing moved."""
    try:
        files = (*journal_files(folder), *copied_files(folder))
    except OSError as error:
        return JournalProof(files=(), faults=(not_read(FOLDER, error),), remarks=())
    faults: list[Fault] = []
    readings: list[tuple[JournalFile, FileReading]] = []
    for file in files:
        try:
            data = file.data()
        except OSError as error:
            faults.append(not_read(file.name, error))
            continue
        reading = read_data(data, file.name)
        readings.append((file, reading))
        faults += reading.faults
        if reading.torn is not None:
            line = data.count(b"\n", 0, reading.torn) + 1
            faults.append(Fault(file=file.name, line=line, message="The last note was cut short."))
    own = [entry for file, reading in readings if not file.copy for entry in reading.entries]
    entries, wrong = settled(own, (e for file, reading in readings if file.copy for e in reading.entries))
    faults += [*wrong, *_missing(entries)]
    remarks = [f"{name} holds a piece of a note that was cut short." for name in torn_files(files)]
    remarks += [
        f"{entry.file}, line {entry.line}: the note {entry.id} was changed by hand since it was written."
        for entry in entries
        if entry.sum and entry.sum != mark_of(entry)
    ]
    return JournalProof(
        files=tuple(_file_proof(file, reading.entries) for file, reading in readings),
        faults=listed(faults, FOLDER),
        remarks=tuple(remarks),
    )


def _file_proof(file: JournalFile, entries: Sequence[Entry]) -> FileProof:
    sums = [(entry.sum, mark_of(entry)) for entry in entries if entry.sum]
    sealed = sum(written == now for written, now in sums)
    return FileProof(
        file=file.name, sealed=sealed, mended=len(sums) - sealed, by_hand=len(entries) - len(sums)
    )


def _missing(entries: Iterable[Entry]) -> list[Fault]:
    """Numbers of a day that were passed over, among the ids that the program gave."""
    given: defaultdict[str, set[int]] = defaultdict(set)
    home: dict[str, str] = {}  # of days on which the program wrote
    for entry in entries:
        day, _, rest = entry.id.partition(".")
        number = rest.partition(".")[0]
        if number.isascii() and number.isdigit() and int(number[:8]) <= HIGHEST:
            given[day].add(int(number))
            if entry.sum:
                home[day] = entry.file
    faults = []
    for day in sorted(home):
        lacking = sorted(set(range(1, max(given[day]))) - given[day])
        if lacking:
            first = f"{day}.{lacking[0]}"
            many = f" and {len(lacking) - 1} more of that day are" if len(lacking) > 1 else " is"
            said = f"The note {first}{many} not there, though later ones are."
            faults.append(
                Fault(file=home[day], line=None, message=said, hint="Look in a copy of the folder.")
            )
    return faults
