"""What was written into a garden file, kept in the user's cache folder so that it can be taken back.

Whoever wrote it, a page or a command, it is taken back from the same place: the last change first, as long as
the file is still as that change left it.
"""

from __future__ import annotations

import contextlib
import hashlib
from pathlib import Path

import msgspec

from leafturn.files.cache_folder import cache_folder
from leafturn.files.reading import file_bytes
from leafturn.files.sealed import drop_oldest
from leafturn.files.writing import write_whole
from leafturn.garden.editing.edits import Edit

FOLDER = "leafturn/edits"
MOST = 10  # changes kept of a file
MOST_BYTES = 16_000_000  # of all that is kept of a file; older changes are dropped


class KeptEdit(msgspec.Struct, frozen=True, kw_only=True):
    """A change of a garden file that can be taken back.

    Parameters
    ----------
    before, after : bytes
        The whole file.
    about : str
    note : str
        Id of the note of the same act; empty if there is none.
    newest : str
        Id of the newest note when it was made; a newer one is taken back first.
    """

    before: bytes
    after: bytes
    about: str
    note: str = ""
    newest: str = ""

    @classmethod
    def of(cls, edit: Edit, note: str, newest: str) -> KeptEdit:
        """An edit that was written, with the ids of the note of the same act and of the newest note."""
        return cls(before=edit.before, after=edit.after, about=edit.about, note=note, newest=newest)

    def edit(self, file: Path) -> Edit:
        """The change as it was made."""
        return Edit(file=file, before=self.before, after=self.after, about=self.about)


class KeptEdits:
    """The changes kept of one garden file; those that the disk does not take last as long as this object."""

    def __init__(self, file: Path) -> None:
        self._file = file
        self._unsaved: list[KeptEdit] = []

    def last(self) -> KeptEdit | None:
        """The change made last, whether the file is still as it left it or not."""
        return next(reversed(self._all()), None)

    def remember(self, edit: KeptEdit) -> bool:
        """Keep a change that was made; whether it outlasts this object."""
        self._save([*self._all(), edit])
        return not self._unsaved

    def forget_last(self) -> None:
        """Drop the change made last, which was taken back."""
        self._save(self._all()[:-1])

    def _all(self) -> list[KeptEdit]:
        folder = cache_folder()
        if self._unsaved or folder is None:
            return self._unsaved
        try:
            data = file_bytes(folder / self._name, 2 * MOST_BYTES, within=folder)
            return msgspec.json.decode(data, type=list[KeptEdit])
        except (OSError, ValueError, RecursionError):  # the last of brackets without end
            return []

    def _save(self, edits: list[KeptEdit]) -> None:
        kept: list[KeptEdit] = []
        size = 0
        for edit in reversed(edits[-MOST:]):
            size += len(edit.before) + len(edit.after)
            if size > MOST_BYTES:
                break
            kept.insert(0, edit)
        folder = cache_folder()
        try:
            if folder is None:
                raise FileNotFoundError
            folder.mkdir(parents=True, exist_ok=True)
            file = write_whole(folder, self._name, msgspec.json.encode(kept))
            file.chmod(0o600)
            self._unsaved = []
        except (OSError, ValueError):
            self._unsaved = kept
            return
        with contextlib.suppress(OSError):
            drop_oldest(file.parent)  # of gardens long not changed, or gone

    @property
    def _name(self) -> str:
        path = bytes(self._file.resolve())
        return f"{FOLDER}/{hashlib.blake2b(path, digest_size=16).hexdigest()}.json"
