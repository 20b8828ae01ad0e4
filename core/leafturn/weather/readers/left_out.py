"""Rows and cells of a weather file that could not be used: told once for each reason."""

from __future__ import annotations

from leafturn.base.faults import Fault


class LeftOut:
    """Collects what is left out of a file, by reason.

    Parameters
    ----------
    file : str
        The file as the user would name it.
    """

    def __init__(self, file: str) -> None:
        self._file = file
        self._lines: dict[str, list[int]] = {}
        self._first: dict[str, tuple[str, str]] = {}

    def add(self, line: int, reason: str, message: str, hint: str = "") -> None:
        """One more line, and why.

        Parameters
        ----------
        line : int
        reason : str
            What lines that are told together share.
        message, hint : str
            What was understood on this line, and what to write; those of the first line are told.
        """
        self._lines.setdefault(reason, []).append(line)
        self._first.setdefault(reason, (message, hint))

    def faults(self) -> list[Fault]:
        """One fault for each reason: its first line and how many more there are, in the order of the file."""
        told = []
        for reason, lines in sorted(self._lines.items(), key=lambda item: min(item[1])):
            message, hint = self._first[reason]
            if more := len(lines) - 1:
                last = f"up to line {max(lines):,}" if more > 1 else f"on line {max(lines):,}"
                message += f" So it is with {more:,} more {'rows' if more > 1 else 'row'}, {last}."
            told.append(Fault(file=self._file, line=min(lines), message=message, hint=hint))
        return told
