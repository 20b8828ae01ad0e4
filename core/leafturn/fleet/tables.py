"""The tables that many gardens fill: their columns, and what stands in them."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from typing import Literal, get_args

from leafturn.base.value import Value

Cell = str | int | float | dt.date | None
Row = tuple[Cell, ...]
Holds = Literal["text", "number", "count", "day"]
Question = Literal["round", "partners", "frost", "forecasts"]

QUESTIONS: tuple[Question, ...] = get_args(Question)

_GARDEN: dict[str, Holds] = {"garden": "text", "area": "text"}

# One row a garden in `gardens`: it tells which gardens are done. All other tables have any number of rows.
TABLES: Mapping[str, Mapping[str, Holds]] = {
    "gardens": _GARDEN | {
        "state": "text", "said": "text", "name": "text", "lat": "number", "lon": "number",
        "plants": "count", "faults": "count",
    },
    "faults": _GARDEN | {"file": "text", "line": "count", "message": "text", "hint": "text"},
    "round": _GARDEN | {
        "job": "text", "plant": "text", "verb": "text", "state": "text", "open": "day", "best": "day",
        "close": "day", "minutes": "number", "who": "text", "why": "text",
    },
    "partners": _GARDEN | {
        "plant": "text", "kind": "text", "cultivar": "text", "standing": "text", "adequacy": "number",
        "low": "number", "high": "number", "weakest": "text",
    },
    "frost": _GARDEN | {
        "plant": "text", "kind": "text", "part": "text", "chance": "number", "tenth_celsius": "number",
        "tonight_celsius": "number", "basis": "text",
    },
    "forecasts": _GARDEN | {
        "what": "text", "plant": "text", "kind": "text", "noted": "day", "asked": "day", "foretold": "day",
        "miss_days": "count", "published_miss_days": "count", "notes_miss_days": "count",
    },
}  # fmt: skip
LEDGER = "gardens"

State = Literal["answered", "cannot be read", "failed"]


class Answered(Value):
    """What asking one garden came to.

    Parameters
    ----------
    garden : str
        Under the name it has among the others.
    state : str
        "failed" where the program itself, or the process it ran in, gave up on it.
    said : str
        Why it has no answers, in one sentence; empty where it has.
    rows : mapping of table to tuple of rows
        In the order of the table's columns; `gardens` has one.
    """

    garden: str
    state: State
    said: str
    rows: Mapping[str, tuple[Row, ...]]


def without_answers(garden: str, state: State, said: str) -> Answered:
    """A garden that gave none, and why."""
    ledger: Row = (garden, "", state, said, "", None, None, None, None)
    return Answered(garden=garden, state=state, said=said, rows={LEDGER: (ledger,)})
