"""Faults gathered while a file is read: like ones are joined, and only so many are kept."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from msgspec.structs import replace

from leafturn.base.faults import Fault, clipped, did_you_mean, listed
from leafturn.base.value import Value

MOST_HINTS = 50  # looking for the nearest word costs a little each time


class _Unknown(Value, kw_only=False):
    """A key that nobody knows: its first line, the words known there, what to write, how often it stands."""

    line: int | None
    known: Callable[[], Iterable[str]]
    hint: str
    times: int = 0


class FaultList:
    """Faults of one file.

    Parameters
    ----------
    file : str
        Its name.
    """

    def __init__(self, file: str) -> None:
        self.file = file
        self._faults: list[Fault] = []
        self._unknown: dict[tuple[str, str], _Unknown] = {}

    def add(self, fault: Fault) -> None:
        """Take one fault."""
        self._faults.append(fault)

    def extend(self, faults: Iterable[Fault]) -> None:
        """Take several."""
        self._faults.extend(faults)

    def add_unknown_key(
        self, key: str, noun: str, line: int | None, known: Callable[[], Iterable[str]], hint: str = ""
    ) -> None:
        """Take a key that nobody knows. The same key in many tables of one kind gives one fault.

        Parameters
        ----------
        key : str
            As written.
        noun : str
            What kind of table holds it.
        line : int or None
            Its line.
        known : callable
            Gives the words that are known there.
        hint : str
            What to write instead; by default the known word that is nearest.
        """
        first = self._unknown.get((noun, key), _Unknown(line, known, hint))
        self._unknown[noun, key] = replace(first, times=first.times + 1)

    def in_order(self) -> tuple[Fault, ...]:
        """All faults by line; those without a line first."""
        unknown = [
            Fault(
                file=self.file,
                line=one.line,
                message=f"unknown key '{clipped(key, 40)}' ignored"
                + (f" ({one.times:,} times, first here)." if one.times > 1 else "."),
                hint=one.hint or (did_you_mean(clipped(key, 40), one.known()) if place < MOST_HINTS else ""),
            )
            for place, ((_, key), one) in enumerate(self._unknown.items())
        ]
        faults = sorted([*self._faults, *unknown], key=lambda fault: fault.line or 0)
        return listed(faults, self.file)
