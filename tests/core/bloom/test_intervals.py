"""Days with their chances."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.samples.invented_sites import FIRST_YEAR, TRUE, YEARS, invented_weather

from leafturn.bloom.intervals import DaySpread, days_of_members
from leafturn.bloom.site_years import site_years, stacked

SUMS = TRUE.sums(*stacked(site_years(invented_weather(50)), range(FIRST_YEAR, FIRST_YEAR + YEARS)))
days, spreads = st.floats(-50, 250), st.floats(0.5, 30)


@settings(max_examples=40, deadline=None)
@given(mean=days, sd=spreads)
def test_dates_alone_are_normal(mean: float, sd: float) -> None:
    """The normal distribution's tenth and ninetieth percentiles lie 1.2816 deviations out (any table)."""
    spread = DaySpread.by_dates(mean, sd)
    assert spread.mean == pytest.approx(mean, abs=1e-6)
    assert spread.sd == pytest.approx(sd, rel=1e-6)
    assert spread.day(0.1) == pytest.approx(mean - 1.2816 * sd, abs=0.08 * sd)
    assert spread.day(0.9) == pytest.approx(mean + 1.2816 * sd, abs=0.08 * sd)


@settings(max_examples=40, deadline=None)
@given(one=days, other=days, sd=spreads, share=st.floats(0, 1))
def test_a_mixture_has_the_mean_and_variance_of_its_parts(
    one: float, other: float, sd: float, share: float
) -> None:
    mixed = DaySpread.by_dates(one, sd).mixed(DaySpread.by_dates(other, sd), share)
    assert mixed.mean == pytest.approx((1 - share) * one + share * other, abs=1e-6)
    assert mixed.sd**2 == pytest.approx(sd**2 + share * (1 - share) * (one - other) ** 2, rel=1e-6, abs=1e-6)
    chances = [mixed.day(c) for c in (0.05, 0.1, 0.5, 0.9, 0.95)]
    assert chances == sorted(chances)
    assert mixed.chances.sum() == pytest.approx(1.0)


def test_one_version_and_a_sure_level_is_one_day() -> None:
    spread = DaySpread.by_weather(SUMS[:1], 3.5, 0.0)
    assert spread.sd < 1e-6
    assert spread.day(0.1) == pytest.approx(spread.day(0.9))


@settings(max_examples=20, deadline=None)
@given(factor=st.floats(0.5, 2.5))
def test_widening_moves_versions_apart_and_keeps_the_mean(factor: float) -> None:
    found = days_of_members(SUMS, 3.5, 0.05)
    plain, wide = DaySpread.of_members(found, 1.0), DaySpread.of_members(found, factor)
    assert wide.mean == pytest.approx(plain.mean, abs=1e-6)
    assert (wide.sd >= plain.sd) == (factor >= 1)


def test_a_doubtful_level_is_a_wider_range() -> None:
    widths = [DaySpread.by_weather(SUMS, 3.5, sd).sd for sd in (0.01, 0.1, 0.3)]
    assert widths == sorted(widths)
