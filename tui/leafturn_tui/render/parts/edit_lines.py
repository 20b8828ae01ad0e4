"""An edit of the garden file, line by line, alike on pages and in commands."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from leafturn.garden.editing.edits import Edit


def edit_lines(edit: Edit) -> Iterator[tuple[str, str]]:
    """The lines that differ: which line and what becomes of it, and its text."""
    for line in edit.lines():
        number = f"line {line.number}"
        if line.was is not None and line.now is not None:
            yield f"{number} is now", line.was
            yield "and becomes", line.now
        elif line.now is not None:
            yield f"{number}, new", line.now
        else:
            yield f"{number} goes", line.was or ""


def printed_edit(edit: Edit) -> Iterator[str]:
    """The same as plain lines, under the name of the file."""
    yield f"{edit.file.name}, {edit.about}:"
    yield from in_columns(list(edit_lines(edit)))


def in_columns(lines: Iterable[tuple[str, str]]) -> Iterator[str]:
    """What becomes of each line, and its text where all texts begin."""
    told = list(lines)
    wide = max((len(what) for what, _ in told), default=0)
    yield from (f"    {what:<{wide}}  {text}" for what, text in told)
