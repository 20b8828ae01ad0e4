"""Answers of many gardens on disk: a folder a table, in it parts that are written whole, one after the other.

The part of `gardens` is written last, and a garden is done once it stands there. So what was killed while it
wrote is seen: parts of other tables without their part of `gardens` are thrown away when the run goes on.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import NoReturn

import msgspec
from filelock import FileLock, Timeout

from leafturn import __version__
from leafturn.base.faults import Fault, Unreadable
from leafturn.files.reasons import reason
from leafturn.files.writing import write_whole
from leafturn.fleet.forms import FORMS, Form
from leafturn.fleet.gardens import Clean
from leafturn.fleet.tables import LEDGER, TABLES, Answered, Question, Row

SETTINGS = "fleet.json"
PART_GARDENS = 100
PART_SECONDS = 5.0  # a kill costs at most what came in so long


class Settings(msgspec.Struct, frozen=True, kw_only=True):
    """What all answers of one folder have in common."""

    on: dt.date
    questions: tuple[Question, ...]
    form: Form
    leafturn: str = __version__

    @property
    def tables(self) -> tuple[str, ...]:
        """Those that are written, that of gardens last."""
        return ("faults", *self.questions, LEDGER)


class Parts:
    """The answers that are there, and those that come.

    Parameters
    ----------
    folder : Path
        Made if it is not there.
    settings : Settings
    clock : callable
        Seconds that only grow.
    clean : callable
        Makes texts harmless.

    Raises
    ------
    Unreadable
        If the folder holds something else, or answers to something else, or cannot be written.
    """

    def __init__(self, folder: Path, settings: Settings, clock: Callable[[], float], clean: Clean) -> None:
        self._folder, self._settings, self._clock, self._clean = folder, settings, clock, clean
        self._waiting: list[Answered] = []
        self._form = FORMS[settings.form]
        self._lock = FileLock(folder / ".lock", timeout=0)
        try:
            folder.mkdir(parents=True, exist_ok=True)
            self._lock.acquire()
        except Timeout:
            self._refuse("another run writes there just now.", "Let that one end first.")
        except OSError as why:
            self._refuse(f"it cannot be written: {reason(why, writing=True)}.", "")
        try:
            self._begin()
        except BaseException:
            self._lock.release()
            raise
        self._number = max(self._numbers(LEDGER), default=0)
        self._written = self._clock()

    def done(self) -> dict[str, Answered]:
        """The gardens that are done, without their rows."""
        found = {}
        for row in self.rows(LEDGER):
            garden, _, state, said, *_ = row
            found[str(garden)] = Answered(garden=str(garden), state=state, said=str(said or ""), rows={})  # type: ignore[arg-type]
        return found

    def add(self, answered: Answered) -> None:
        """Take the answers of a garden, and write a part when there are enough or enough time has gone."""
        self._waiting.append(answered)
        if len(self._waiting) >= PART_GARDENS or self._clock() - self._written >= PART_SECONDS:
            self.write()

    def write(self) -> None:
        """Write what waits.

        Raises
        ------
        Unreadable
            If the disk does not take it.
        """
        self._written = self._clock()
        if not self._waiting:
            return
        number = self._number + 1
        try:
            for table in self._settings.tables:
                rows = [self._cleaned(row) for one in self._waiting for row in one.rows.get(table, ())]
                if rows or table == LEDGER:
                    name = self._part(table, number).relative_to(self._folder)
                    write_whole(self._folder, str(name), self._form.packed(TABLES[table], rows))
        except OSError as why:
            self._refuse(f"it cannot be written: {reason(why, writing=True)}.", "What was written stands.")
        self._number, self._waiting = number, []

    def close(self) -> None:
        """Write what waits and let others write."""
        try:
            self.write()
        finally:
            self._lock.release()

    def rows(self, table: str) -> Iterator[Row]:
        """Every row of a table that was written."""
        for number in sorted(self._numbers(table)):
            yield from self._form.unpacked(TABLES[table], self._part(table, number).read_bytes())

    def _cleaned(self, row: Row) -> Row:
        return tuple(self._clean(cell) if isinstance(cell, str) else cell for cell in row)

    def _begin(self) -> None:
        """See that the folder is empty, or go on as it began without what a kill left half written."""
        file = self._folder / SETTINGS
        if not file.exists():
            if any(one.name != ".lock" for one in self._folder.iterdir()):
                self._refuse("it holds other things.", "Name an empty folder, or one that is not there yet.")
            write_whole(self._folder, SETTINGS, msgspec.json.format(msgspec.json.encode(self._settings)))
            return
        try:
            before = msgspec.json.decode(file.read_bytes(), type=Settings)
        except msgspec.DecodeError:
            self._refuse(f"its {SETTINGS} cannot be read.", "Name another folder.")
        if before != self._settings:
            held = f"{before.on} to {', '.join(before.questions)} as {before.form}"
            message = f"it holds answers for {held}, by leafturn {before.leafturn}."
            self._refuse(message, "Ask the same, or name another folder.")
        for table in self._settings.tables:
            for left in self._numbers(table) - self._numbers(LEDGER):
                self._part(table, left).unlink()

    def _numbers(self, table: str) -> set[int]:
        """Numbers of the parts of a table."""
        files = (self._folder / table).glob(f"part-*.{self._settings.form}")
        return {int(file.stem.removeprefix("part-")) for file in files if file.stem[5:].isdecimal()}

    def _part(self, table: str, number: int) -> Path:
        return self._folder / table / f"part-{number:05d}.{self._settings.form}"

    def _refuse(self, message: str, hint: str) -> NoReturn:
        raise Unreadable(Fault(file=str(self._folder), line=None, message=message, hint=hint))
