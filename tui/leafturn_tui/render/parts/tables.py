"""Answers as tables: comma-separated (RFC 4180), and harmless to open in a spreadsheet."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from leafturn.base.spreadsheets import marked
from leafturn_tui.render.parts.values import Answer, plain_value
from leafturn_tui.safe_text import safe_text

IN_ONE_CELL = "; "


def tables_of(answer: Answer) -> dict[str, list[dict[str, Any]]]:
    """The lists of objects in an answer by name, as they come; those within objects as "larder.weeks"."""
    lists = _lists(plain_value(answer), "")
    return {name: found for name, found in lists if found and all(isinstance(one, dict) for one in found)}


def _lists(said: Mapping[str, Any], before: str) -> Iterator[tuple[str, list[Any]]]:
    for key, value in said.items():
        if isinstance(value, list):
            yield f"{before}{key}", value
        elif isinstance(value, dict):
            yield from _lists(value, f"{before}{key}.")


def csv_of(records: Sequence[Mapping[str, Any]]) -> str:
    """Records as a table: a column for each key in the order of their coming, a line for each record.

    Objects within a record have columns of their own, as "best.p50"; lists stand in one cell.
    """
    flat = [dict(_flat(record, "")) for record in records]
    return csv_text([*dict.fromkeys(key for record in flat for key in record)], flat)


def csv_text(columns: Sequence[str], records: Iterable[Mapping[str, Any]]) -> str:
    """The table of some columns."""
    made = io.StringIO()
    writer = csv.writer(made, lineterminator="\r\n")
    writer.writerow(columns)
    writer.writerows([cell(record.get(column)) for column in columns] for record in records)
    return made.getvalue()


def cell(value: object) -> str:
    """A value as the text of a cell; tabs and line ends are blanks."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        return f"{value}"
    return marked(" ".join(safe_text(str(value)).split()))


def _flat(record: Mapping[str, Any], before: str) -> Iterator[tuple[str, Any]]:
    for key, value in record.items():
        if isinstance(value, dict):
            yield from _flat(value, f"{before}{key}.")
        elif isinstance(value, list):
            yield f"{before}{key}", IN_ONE_CELL.join(map(_inline, value))
        else:
            yield f"{before}{key}", value


def _inline(value: object) -> str:
    if isinstance(value, dict):
        return ", ".join(
            f"{key} {_inline(one)}" for key, one in value.items() if one not in (None, "", [], {})
        )
    if isinstance(value, list):
        return ", ".join(map(_inline, value))
    return "" if value is None else str(value)
