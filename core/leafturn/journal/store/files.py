"""Which files make up a journal, and in which order they are read."""

from __future__ import annotations

import os
import re
from collections.abc import Iterable
from pathlib import Path

from leafturn.base.faults import Fault
from leafturn.base.patterns import pattern
from leafturn.base.value import Value
from leafturn.files.reading import file_bytes, real_path
from leafturn.toml.guard import MOST_BYTES

FOLDER = "journal"
_NAME = pattern(r"(?P<year>[0-9]{4})(?:-(?P<part>[1-9][0-9]{0,3}))?\.toml")
# A year's file as programs that fetch it leave it until then, or with an ending that another program added or
# wrote large; common practice, no source.
_STANDS_IN = pattern(
    r"\.?([0-9]{4}(?:-[1-9][0-9]{0,3})?\.toml)(?:\.(?:txt|icloud|part|partial|download|crdownload))?",
    re.IGNORECASE,
)
_COPY = pattern(r"(?P<year>[0-9]{4})(?![0-9]).+\.toml")


class JournalFile(Value, kw_only=False):
    """One file of a journal.

    Parameters
    ----------
    year : int
        The year its notes were written in; 0 for the single `journal.toml` beside the garden, which is
        taken to be the oldest.
    part : int
        1 for `YYYY.toml`, 2 for `YYYY-2.toml` and so on: a year goes on in a further part once the part
        before is full or cannot be read.
    folder : Path
        The garden's folder.
    copy : str
        The name of a file that is a copy of a year's, as programs that synchronise folders leave them
        ("2027 (copy).toml"); empty for the journal's own files.
    """

    year: int
    part: int
    folder: Path
    copy: str = ""

    @property
    def name(self) -> str:
        """The file as faults name it, from the garden's folder."""
        if self.year == 0:
            return "journal.toml"
        if self.copy:
            return f"{FOLDER}/{self.copy}"
        part = "" if self.part == 1 else f"-{self.part}"
        return f"{FOLDER}/{self.year:04d}{part}.toml"

    @property
    def path(self) -> Path:
        """Where it lies."""
        return self.folder / self.name

    def data(self) -> bytes:
        """What it holds: nothing where it is not there yet.

        Raises
        ------
        OSError
            If it cannot be read, or is no ordinary file within the garden's folder.
        """
        return file_bytes(self.path, MOST_BYTES, self.folder) if os.path.lexists(self.path) else b""

    @property
    def may_grow(self) -> bool:
        """Whether the disk lets it be written, or made."""
        return os.access(self.path, os.W_OK) if os.path.lexists(self.path) else True

    @property
    def next(self) -> JournalFile:
        """The further part of the same year."""
        return JournalFile(self.year, self.part + 1, self.folder)


def journal_files(folder: Path) -> tuple[JournalFile, ...]:
    """The files of a garden's journal, oldest first.

    Parameters
    ----------
    folder : Path
        The garden's folder.

    Raises
    ------
    OSError
        If the `journal` folder is there but cannot be listed.
    """
    names = _names(folder)
    parts = [part for name in names if (part := _year_and_part(name))]
    single = JournalFile(0, 1, folder)
    older = (single,) if os.path.lexists(single.path) else ()
    return (*older, *(JournalFile(year, part, folder) for year, part in sorted(parts)))


def copied_files(folder: Path) -> tuple[JournalFile, ...]:
    """Copies of a year's file that lie beside it; they are read, and never written to."""
    return tuple(
        JournalFile(int(copy["year"]), 1, folder, name)
        for name in _names(folder)
        if not _year_and_part(name) and (copy := _COPY.fullmatch(name))
    )


def strange_files(folder: Path) -> tuple[Fault, ...]:
    """Files in the `journal` folder that seem to hold notes and are not read, since their name is no year."""
    names = [name for name in _names(folder) if not _year_and_part(name) and not _COPY.fullmatch(name)]
    found = [(name, _STANDS_IN.fullmatch(name)) for name in names]
    return tuple(
        Fault(
            file=f"{FOLDER}/{name}",
            line=None,
            message="The notes in here are not read, since its name is no year.",
            hint="Name it by the year the notes were written, such as journal/2027.toml"
            if meant is None
            else f"If it stands for a file elsewhere, fetch that; else name it {FOLDER}/{meant[1].lower()}",
        )
        for name, meant in found
        if meant is not None or name.endswith(".toml")
    )


def torn_files(files: Iterable[JournalFile]) -> tuple[str, ...]:
    """Names of the files beside these that hold notes cut short, from the garden's folder if inside it."""
    found = []
    for file in files:
        real, home = real_path(file.path), real_path(file.folder)
        if not real.is_relative_to(home) or not real.parent.is_dir():
            continue
        found += [
            str(path.relative_to(home))
            for path in real.parent.iterdir()
            if path.name.startswith(f"{real.name}.torn")
        ]
    return tuple(sorted(set(found)))


def _year_and_part(name: str) -> tuple[int, int] | None:
    """What a file's name says; None if it is not a name of the journal's."""
    match = _NAME.fullmatch(name)
    if match is None or match["year"] == "0000" or match["part"] == "1":
        return None
    return int(match["year"]), int(match["part"] or 1)


def _names(folder: Path) -> list[str]:
    try:
        return sorted(os.listdir(folder / FOLDER))
    except FileNotFoundError:
        return []
