"""A file of kinds looked through: what is wrong in it, what it leaves to be assumed, what is worth knowing.

A steward's own kinds.toml and a packaged file of kinds pass the same checks. They differ in two things only:
a steward's file may name sources in words of its own, and may change facts of kinds that the library has.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from leafturn.base.faults import Fault, Unreadable
from leafturn.base.value import Value
from leafturn.files.reading import file_bytes
from leafturn.files.reasons import reason
from leafturn.kinds.checks.agreement import clashes
from leafturn.kinds.checks.claims import claims, names_claimed, owners_of
from leafturn.kinds.checks.evidence import evidence_faults
from leafturn.kinds.checks.gaps import assumed, lacking
from leafturn.kinds.defaults import Defaults, guess_kind
from leafturn.kinds.model import Kind, Source
from leafturn.kinds.names import nearest, without_spaces
from leafturn.kinds.own_file import read_own_kinds
from leafturn.kinds.packaged import (
    DATA,
    FURTHER,
    GROUPS,
    Names,
    Tables,
    packaged,
    packaged_tables,
    tables_of_kinds,
)
from leafturn.toml.guard import MOST_BYTES, decode_toml, parse_toml
from leafturn.toml.positions import Steps, TomlLines


class KindsCheck(Value):
    """What was found in a file of kinds, each list in the order of lines.

    Parameters
    ----------
    file : str
        Its name.
    kinds : tuple of str
        The kinds it holds, by the library's names.
    faults : tuple of Fault
        What is to be mended.
    assumed : tuple of Fault
        Facts not given that decide something, with what is then assumed; nothing is wrong with that.
    remarks : tuple of Fault
        What is worth knowing.
    """

    file: str
    kinds: tuple[str, ...]
    faults: tuple[Fault, ...]
    assumed: tuple[Fault, ...]
    remarks: tuple[Fault, ...]


def check_kinds_file(path: Path) -> KindsCheck:
    """Look through a file of kinds.

    Parameters
    ----------
    path : Path
        A steward's own file of kinds, or one of the packaged ones.

    Raises
    ------
    Unreadable
        If the file cannot be read or is no TOML.
    """
    try:
        data = file_bytes(path, MOST_BYTES)
    except (OSError, ValueError) as error:
        message = f"the file cannot be read: {reason(error)}."
        raise Unreadable(Fault(file=str(path), line=None, message=message)) from None
    return _Checking(path, data).result()


class _Checking:
    """One file being looked through."""

    def __init__(self, path: Path, data: bytes) -> None:
        self.file = path.name
        self.written: Mapping[str, Any] = parse_toml(data, path.name)
        self.lines = TomlLines(decode_toml(data, path.name))
        where, folder = path.resolve(), DATA.resolve()
        self.is_further = where.is_relative_to(folder / FURTHER)
        self.is_packaged = self.is_further or where.is_relative_to(folder / GROUPS)
        others = dict(packaged_tables())
        if self.is_packaged:
            del others[where.relative_to(folder).as_posix()]
        self.others: Tables = tables_of_kinds(others)
        self.defaults = packaged("defaults", Defaults)
        self.owners = owners_of(self.others)
        guess = guess_kind("", self.defaults, "", "shrub")
        self.kinds, faults = read_own_kinds(data, path.name, self.others, guess, self.defaults)
        self.faults = list(faults)
        self.assumed: list[Fault] = []
        self.remarks: list[Fault] = []

    def result(self) -> KindsCheck:
        sources = packaged("sources", dict[str, Source])
        shared = packaged("shared_names", dict[str, tuple[str, ...]])
        written_as: dict[str, str] = {}
        by_letters = {without_spaces(name): name for name in self.others}
        for written, table in self.written.items():
            name = by_letters.get(without_spaces(written), written)
            kind = self.kinds.get(name)
            if kind is None or not isinstance(table, dict):
                continue
            if name in written_as:
                self._fault(written, (), f'{name} stands here twice, as "{written_as[name]}" before.')
                continue
            written_as[name] = written
            self._kind(written, kind, table, sources, shared)
        return KindsCheck(
            file=self.file,
            kinds=tuple(self.kinds),
            faults=_in_order(self.faults),
            assumed=_in_order(self.assumed),
            remarks=_in_order(self.remarks),
        )

    def _kind(
        self,
        written: str,
        kind: Kind,
        table: Mapping[str, object],
        sources: Mapping[str, Source],
        shared: Mapping[str, tuple[str, ...]],
    ) -> None:
        for found in evidence_faults(kind, sources, self.file):
            if found.unknown and not self.is_packaged:
                self._own_words(written, found.path, found.says, found.hint)
            else:
                self._fault(written, found.path, found.says, found.hint)
        for clash in clashes(kind):
            self._fault(written, clash.path, clash.says)
        for claim in claims(kind, self.owners, shared):
            self._fault(
                written, claim.path, claim.says, "Every name leads to one kind: leave it to one of them."
            )
        self.owners |= dict.fromkeys(names_claimed(Names.of(kind)), kind.name)
        if kind.name in self.others:
            self._known_already(written, kind)
            return
        for gap in lacking(kind, table):
            self._fault(written, (gap.entry,), gap.says)
        for gap in assumed(kind, self.defaults):
            self.assumed.append(self._at(written, (gap.entry.partition(".")[0],), gap.says))
        near = nearest(without_spaces(written), self.owners.keys() - {without_spaces(written)})
        if near is not None and not self.is_packaged:
            says = f'"{written}" is not in the library and becomes a kind of its own.'
            self.remarks.append(self._at(written, (), says, f"Did you mean {self.owners[near]}?"))

    def _known_already(self, written: str, kind: Kind) -> None:
        """Tell that the library has a kind: a fault in a packaged file of kinds, else worth knowing."""
        where = self.others.place_of(kind.name)
        if self.is_further:
            self._own_cultivars(written)
        elif self.is_packaged:
            self._fault(
                written, (), f'The kind "{kind.name}" stands in {where} as well.', "Keep one of the two."
            )
        else:
            says = f"{kind.name} is a kind of the library ({where}): what stands here goes before that."
            self.remarks.append(self._at(written, (), says))

    def _own_cultivars(self, written: str) -> None:
        """Tell of what a file of further cultivars holds beside them, or has a second time."""
        there = self.others[written]
        for section, entries in self.written[written].items():
            if section not in ("cultivars", "also_grown"):
                self._fault(written, (section,), f"{section} belongs into {self.others.place_of(written)}.")
                continue
            for name in entries:
                if name in there.get("cultivars", {}) or name in there.get("also_grown", {}):
                    self._fault(
                        written, (section, name), f"{name} stands in {self.others.place_of(written)} as well."
                    )

    def _own_words(self, written: str, path: Steps, says: str, near: str) -> None:
        """Tell of a source that is none of the library's, which a steward's own words may be."""
        self.remarks.append(self._at(written, path, says, near or "It stands as words of your own."))

    def _fault(self, written: str, path: Steps, says: str, hint: str = "") -> None:
        self.faults.append(self._at(written, path, says, hint))

    def _at(self, written: str, path: Steps, says: str, hint: str = "") -> Fault:
        return Fault(file=self.file, line=self.lines.line_of(written, *path), message=says, hint=hint)


def _in_order(faults: list[Fault]) -> tuple[Fault, ...]:
    return tuple(sorted(faults, key=lambda fault: fault.line or 0))
