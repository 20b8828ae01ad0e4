"""Trend, bare and down."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from leafturn.base.tunables import Numbers
from leafturn.canopy.decline.trend import (
    CrownAssessment,
    bare_range,
    down_by,
    down_range,
    fall_chances,
    trend_of,
)

NUMBERS = Numbers({})
# The old ash of the demo garden: the figures expected of it come from the design's own prototype.
ASH = [
    CrownAssessment(on=dt.date(year, 8, 20), live_percent=live)
    for year, live in ((2017, 86), (2019, 74), (2021, 63), (2023, 49), (2025, 40), (2026, 33))
]


def test_the_line_of_the_ash() -> None:
    trend = trend_of(ASH, NUMBERS)
    assert trend is not None
    times = [look.on.year + 231 / 365.25 for look in ASH]
    slope, _ = np.polyfit(times, [look.live_percent for look in ASH], 1)
    assert trend.per_year == pytest.approx(slope, abs=0.01)
    assert trend.per_year == pytest.approx(-5.9, abs=0.05)
    fit, honest = bare_range(trend, NUMBERS)
    assert fit.likely == honest.likely == 2030
    assert honest.early is not None
    assert fit.early is not None
    assert fit.late is not None
    assert honest.late is not None
    assert honest.early <= fit.early <= 2030 <= fit.late <= honest.late
    assert honest.early >= 2028
    assert honest.late <= 2036


def test_one_look_is_no_trend_nor_are_two_of_one_month() -> None:
    assert trend_of(ASH[:1], NUMBERS) is None
    close = [CrownAssessment(on=dt.date(2026, 8, d), live_percent=p) for d, p in ((1, 40), (20, 33))]
    assert trend_of(close, NUMBERS) is None


def test_two_looks_have_a_wider_range_than_six() -> None:
    two, six = trend_of([ASH[0], ASH[-1]], NUMBERS), trend_of(ASH, NUMBERS)
    assert two is not None
    assert six is not None
    assert two.half_width(2031) > six.half_width(2031)


def test_a_crown_that_recovers_has_no_bare_year() -> None:
    assessments = [
        CrownAssessment(on=dt.date(y, 8, 1), live_percent=p) for y, p in ((2020, 60), (2022, 64), (2024, 70))
    ]
    trend = trend_of(assessments, NUMBERS)
    assert trend is not None
    fit, honest = bare_range(trend, NUMBERS)
    assert (fit.likely, honest.early, honest.late) == (None, None, None)


def test_the_fall_of_the_ash_by_hand() -> None:
    """0.88 ** 4 stands at the end of 2030, then 0.8 a year: 0.48 in 2031, 0.1006 in 2038."""
    chances = fall_chances("declining", 2027, 60, 2030, NUMBERS)
    down = down_by(chances)
    assert down[0] == pytest.approx(0.12)
    assert 1 - down[4] == pytest.approx(0.88**4 * 0.8)
    found = down_range(chances, 2027)
    assert (found.early, found.likely, found.late) == (2027, 2031, 2039)
    storm = fall_chances("declining", 2027, 60, 2030, NUMBERS, storm=True)
    assert storm[0] == pytest.approx(0.18)
    assert storm[1] == pytest.approx(0.12)
    assert down_range(storm, 2027).late == 2038


def test_own_chances_are_used() -> None:
    own = Numbers({"fall_chance_declining": 0.5})
    assert down_range(fall_chances("declining", 2027, 60, None, own), 2027).likely == 2027


@settings(max_examples=50)
@given(
    st.sampled_from(["well", "weak", "declining", "dead standing"]),
    st.one_of(st.none(), st.integers(2027, 2060)),
    st.booleans(),
)
def test_down_only_ever_grows_and_stays_a_chance(state: str, bare: int | None, storm: bool) -> None:
    down = down_by(fall_chances(state, 2027, 80, bare, NUMBERS, storm=storm))  # type: ignore[arg-type]
    assert (np.diff(down) >= 0).all()
    assert 0 <= down[0] <= down[-1] <= 1


@settings(max_examples=50)
@given(st.floats(-15, 5), st.floats(20, 95), st.integers(3, 8))
def test_a_line_without_noise_is_found_again(slope: float, start: float, assessments: int) -> None:
    seen = [
        CrownAssessment(on=dt.date(2015 + n, 8, 1), live_percent=start + slope * n)
        for n in range(assessments)
    ]
    trend = trend_of(seen, NUMBERS)
    assert trend is not None
    assert trend.per_year == pytest.approx(slope, abs=0.02)
    assert trend.scatter == pytest.approx(NUMBERS["elder_look_points"], abs=0.2)
