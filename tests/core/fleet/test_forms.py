"""Rows become parts and come out of them as they were, whatever stands in them."""

from __future__ import annotations

import csv
import datetime as dt
import io

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from leafturn.fleet.forms import FORMS, FORMULA_STARTS, Form
from leafturn.fleet.tables import Holds, Row

COLUMNS: dict[str, Holds] = {"name": "text", "share": "number", "trees": "count", "day": "day"}
ROWS = st.lists(
    st.tuples(
        st.text(st.characters(exclude_categories=["Cs", "Cc"]) | st.sampled_from("=+-@'\"\t,;")),
        st.none() | st.integers(-9999, 9999).map(lambda n: n / 100),
        st.none() | st.integers(-(2**40), 2**40),
        st.none() | st.dates(),
    ),
    max_size=5,
)


@pytest.mark.parametrize("form", FORMS)
@given(rows=ROWS)
@settings(max_examples=60, deadline=None)
def test_rows_come_out_as_they_went_in(form: Form, rows: list[Row]) -> None:
    if form == "parquet":
        pytest.importorskip("pyarrow")
    packing = FORMS[form]
    assert [tuple(row) for row in packing.unpacked(COLUMNS, packing.packed(COLUMNS, rows))] == rows


def test_no_text_is_a_formula_to_a_spreadsheet() -> None:
    rows: list[Row] = [(start + "1+1", -1.5, -2, dt.date(2027, 4, 19)) for start in FORMULA_STARTS]
    written = FORMS["csv"].packed(COLUMNS, rows).decode()
    cells = list(csv.reader(io.StringIO(written, newline="")))[1:]
    assert not any(cell[0].startswith(FORMULA_STARTS) for cell in cells)
    assert cells[0][1:] == ["-1.5", "-2", "2027-04-19"]  # numbers are numbers
