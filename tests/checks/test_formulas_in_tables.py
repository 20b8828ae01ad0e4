"""No text in a table is a formula to a spreadsheet.

OWASP, CSV Injection (https://owasp.org/www-community/attacks/CSV_Injection), as read in 2026, lists how no
cell may begin: equals, plus, minus, at, tab, carriage return and line feed; the chapter on testing for it in
the Web Security Testing Guide adds the signs of full width. A single quote before such a text is its remedy.
"""

from __future__ import annotations

import csv
import datetime as dt
import io

import pytest

from leafturn.fleet.forms import FORMS
from leafturn.fleet.tables import Holds, Row
from leafturn_tui.render.parts.tables import csv_of

PUBLISHED = ("=", "+", "-", "@", "\t", "\r", "\n", "\uff1d", "\uff0b", "\uff0d", "\uff20")
COLUMNS: dict[str, Holds] = {"note": "text", "share": "number", "trees": "count", "day": "day"}


def cells(table: str) -> list[str]:
    """The one line below the names."""
    return list(csv.reader(io.StringIO(table, newline="")))[1]


@pytest.mark.parametrize("sign", PUBLISHED)
def test_no_cell_begins_as_published(sign: str) -> None:
    text = f"{sign}1+1"
    row: Row = (text, -1.5, -2, dt.date(2027, 4, 19))
    in_parts = cells(FORMS["csv"].packed(COLUMNS, [row]).decode())
    assert in_parts == [f"'{text}", "-1.5", "-2", "2027-04-19"]  # numbers are numbers
    answered = cells(csv_of([{"note": f"{sign}=1", "share": -1.5}]))
    assert answered == [f"'{sign.strip()}=1", "-1.5"]


def test_the_first_quote_is_always_the_mark() -> None:
    for written in (
        FORMS["csv"].packed(COLUMNS, [("'=1", 0.5, 1, None)]).decode(),
        csv_of([{"note": "'=1"}]),
    ):
        assert cells(written)[0] == "''=1"
