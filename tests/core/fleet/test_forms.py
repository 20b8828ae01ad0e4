"""Rows become parts and come out of them as they were, whatever stands in them."""

from __future__ import annotations

import sys

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from leafturn.base.faults import Unreadable
from leafturn.fleet.forms import FORMS, Form, require
from leafturn.fleet.tables import Holds, Row

COLUMNS: dict[str, Holds] = {"name": "text", "share": "number", "trees": "count", "day": "day"}
ROWS = st.lists(
    st.tuples(
        st.text(st.characters(exclude_categories=["Cs", "Cc"]) | st.sampled_from("=+-@'\"\t\r\n,;")),
        st.none() | st.integers(-9999, 9999).map(lambda n: n / 100),
        st.none() | st.integers(-(2**40), 2**40),
        st.none() | st.dates(),
    ),
    max_size=5,
)


@pytest.mark.sweep(each=2)
@pytest.mark.parametrize("form", FORMS)
@given(rows=ROWS)
@settings(max_examples=60, deadline=None)
def test_rows_come_out_as_they_went_in(form: Form, rows: list[Row]) -> None:
    if form == "parquet":
        pytest.importorskip("pyarrow")
    packing = FORMS[form]
    assert [tuple(row) for row in packing.unpacked(COLUMNS, packing.packed(COLUMNS, rows))] == rows


def test_without_pyarrow_its_form_is_refused_in_a_sentence(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "pyarrow", None)
    require("csv")
    with pytest.raises(
        Unreadable, match=r"pyarrow is not installed\. Install leafturn\[parquet\], or write csv"
    ):
        require("parquet")
