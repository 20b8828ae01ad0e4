"""The two forms of a part: comma-separated values, and Parquet where pyarrow is installed."""

from __future__ import annotations

import csv
import datetime as dt
import io
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import Any, Literal

from leafturn.base.faults import Fault, Unreadable
from leafturn.base.spreadsheets import marked, unmarked
from leafturn.base.value import Value
from leafturn.fleet.tables import Cell, Holds, Row

Form = Literal["csv", "parquet"]
Columns = Mapping[str, Holds]

_READ: Mapping[Holds, Callable[[str], Cell]] = {
    "text": unmarked,
    "number": float,
    "count": int,
    "day": dt.date.fromisoformat,
}


class Packing(Value):
    """How rows become the bytes of a part, and come out of them."""

    packed: Callable[[Columns, Sequence[Row]], bytes]
    unpacked: Callable[[Columns, bytes], Iterable[Row]]


def _to_csv(columns: Columns, rows: Sequence[Row]) -> bytes:
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")  # RFC 4180; signs of it in a cell are quoted
    writer.writerow(columns)
    writer.writerows([_cell(cell) for cell in row] for row in rows)
    return text.getvalue().encode()


def _cell(cell: Cell) -> str:
    if cell is None:
        return ""
    if isinstance(cell, str):
        return marked(cell)
    return f"{cell:.6g}" if isinstance(cell, float) else str(cell)


def _from_csv(columns: Columns, data: bytes) -> Iterator[Row]:
    rows = csv.reader(io.StringIO(data.decode(), newline=""))
    next(rows, None)
    reads = [_READ[holds] for holds in columns.values()]
    texts = [holds == "text" for holds in columns.values()]
    for row in rows:
        yield tuple(
            read(cell) if cell or text else None for read, text, cell in zip(reads, texts, row, strict=True)
        )


def _to_parquet(columns: Columns, rows: Sequence[Row]) -> bytes:
    arrow, parquet = _arrow()
    types = {"text": arrow.string(), "number": arrow.float64(), "count": arrow.int64(), "day": arrow.date32()}
    schema = arrow.schema([(name, types[holds]) for name, holds in columns.items()])
    by_column = {name: [row[n] for row in rows] for n, name in enumerate(columns)}
    sink = io.BytesIO()
    parquet.write_table(arrow.table(by_column, schema=schema), sink)
    return sink.getvalue()


def _from_parquet(columns: Columns, data: bytes) -> Iterator[Row]:
    _, parquet = _arrow()
    table = parquet.read_table(io.BytesIO(data), columns=list(columns))
    return zip(*(table.column(name).to_pylist() for name in columns), strict=True)


def _arrow() -> tuple[Any, Any]:
    try:
        import pyarrow
        import pyarrow.parquet
    except ImportError:
        message, hint = "pyarrow is not installed.", "Install leafturn[parquet], or write csv."
        raise Unreadable(Fault(file="parquet", line=None, message=message, hint=hint)) from None
    return pyarrow, pyarrow.parquet


def require(form: Form) -> None:
    """Say if a form cannot be written here.

    Raises
    ------
    Unreadable
    """
    if form == "parquet":
        _arrow()


FORMS: Mapping[Form, Packing] = {
    "csv": Packing(packed=_to_csv, unpacked=_from_csv),
    "parquet": Packing(packed=_to_parquet, unpacked=_from_parquet),
}
