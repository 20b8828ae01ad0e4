"""Two journal files edited apart, made one: nothing of either is lost."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from contextlib import nullcontext
from pathlib import Path

from msgspec import structs

from leafturn.base.faults import Fault
from leafturn.base.value import Value
from leafturn.files.reading import file_bytes, real_path
from leafturn.files.reasons import reason
from leafturn.files.writing import write_whole
from leafturn.journal.entries import Entry, Withdrawal
from leafturn.journal.store import disk
from leafturn.journal.store.errors import NotWritten, not_written
from leafturn.journal.store.files import FOLDER
from leafturn.journal.store.ids import drawn
from leafturn.journal.store.reading import FileReading, read_data
from leafturn.journal.store.sealing import mark_of, written_text
from leafturn.toml.guard import MOST_BYTES

PATIENCE = 5.0  # [s] for another process that is writing


class Merged(Value):
    """What a merge came to.

    Parameters
    ----------
    text : bytes
        The first file with, at its end, the notes that only the second holds.
    added : tuple of Entry
        Those notes, as they stand there.
    renamed : int
        How many of them had the id of another note, and have one of their own now.
    """

    text: bytes
    added: tuple[Entry, ...]
    renamed: int


def merge_files(into: Path, other: Path) -> Merged:
    """Add to a journal file the notes that only another holds; the other stays as it is.

    Raises
    ------
    NotWritten
        If either holds something that cannot be read, or the disk does not take it. Nothing is then changed.
    """
    folder = real_path(into).parent
    try:
        # A merge of version control works on files of its own, elsewhere; nobody else writes to those.
        with disk.locked(folder, PATIENCE) if folder.name == FOLDER else nullcontext():
            data, others = (_read(path) for path in (into, other))
            found = merged(data, others, (into.name, other.name))
            if found.added:
                write_whole(into.parent, into.name, found.text)
    except (OSError, disk.LockNotHad) as error:
        raise not_written(str(into), error) from error
    return found


def _read(path: Path) -> bytes:
    try:
        return file_bytes(path, MOST_BYTES)
    except (OSError, ValueError) as error:
        said = f"It cannot be read: {reason(error)}. Nothing was merged."
        raise NotWritten(Fault(file=str(path), line=None, message=said)) from None


def merged(data: bytes, others: bytes, names: tuple[str, str]) -> Merged:
    """The same of bytes; `names` are those of the two files, for faults."""
    into, other = (_whole(part, name) for part, name in zip((data, others), names, strict=True))
    fresh = _only_there(into.entries, other.entries)
    taken = {entry.id for entry in into.entries if entry.id}
    given = {entry.id: f"{entry.id}.{drawn()}" for entry in fresh if entry.id in taken}
    added = [_told_anew(entry, given, other.entries) for entry in fresh]
    text = data if data.endswith(b"\n") or not data else data + b"\n"
    for entry in added:
        text += f"\n{written_text(entry)}".encode()
    if len(text) > MOST_BYTES:
        said = f"Together they would hold {len(text):,} bytes; {MOST_BYTES:,} is the most that is read."
        raise NotWritten(Fault(file=names[0], line=None, message=said))
    return Merged(text=text, added=tuple(added), renamed=len(given))


def _whole(data: bytes, name: str) -> FileReading:
    """What a file holds, if all of it can be read."""
    reading = read_data(data, name)
    if reading.torn is not None:
        line = data.count(b"\n", 0, reading.torn) + 1
        said = "The last note was cut short, so nothing was merged."
        raise NotWritten(Fault(file=name, line=line, message=said, hint="Finish it, or delete it."))
    if not reading.sound or reading.faults:
        fault = reading.faults[0] if reading.faults else Fault(file=name, line=None, message="It is damaged.")
        raise NotWritten(_and_not_merged(fault))
    return reading


def _and_not_merged(fault: Fault) -> Fault:
    """The fault, saying also that nothing was merged."""
    message = f"{fault.message} Nothing was merged."
    return Fault(file=fault.file, line=fault.line, message=message, hint=fault.hint)


def _only_there(here: Sequence[Entry], there: Sequence[Entry]) -> list[Entry]:
    """Notes of `there` that `here` lacks: the same is what has the same id, or none, and says the same."""
    known = Counter((entry.id, mark_of(entry)) for entry in here)
    fresh = []
    for entry in there:
        key = (entry.id, mark_of(entry))
        if known[key] > 0:
            known[key] -= not entry.id
        else:
            fresh.append(entry)
            known[key] += bool(entry.id)
    return fresh


def _told_anew(entry: Entry, given: Mapping[str, str], there: Sequence[Entry]) -> Entry:
    """A note with its own id; a withdrawal that tells which of two notes of one id it means."""
    own = structs.replace(entry, id=given.get(entry.id, entry.id))
    if isinstance(own, Withdrawal):
        meant = next((e for e in there if e.id == own.entry), None)
        own = structs.replace(own, entry=given.get(own.entry, own.entry))
        if own.mark is None and meant is not None:
            own = structs.replace(own, mark=mark_of(meant))
    return own
