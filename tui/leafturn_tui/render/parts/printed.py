"""Lines and faults as text for a pipe."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from leafturn.base.faults import Fault
from leafturn_tui.safe_text import safe_text

LONG = 10_000  # cells; a line in a pipe is never cut for its width


def fault_lines(found: Iterable[Fault]) -> Iterator[str]:
    """A line each."""
    return (fault.sentence() for fault in found)


def printed(lines: Iterable[str]) -> str:
    """Lines made safe, as one text that ends in a line end."""
    return "".join(f"{safe_text(line, limit=LONG)}\n" for line in lines)
