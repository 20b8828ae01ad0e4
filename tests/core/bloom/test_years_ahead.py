"""The rest of a season as it may turn out, and what the trial of ranges makes of it."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from tests.samples.invented_sites import ASKED, FIRST_YEAR, invented_weather, moved

from leafturn.bloom.priors.interval_calibration import AHEAD_STEPS, with_calibrated_intervals
from leafturn.bloom.priors.prior import BloomPrior
from leafturn.bloom.priors.response import DAYS, FIRST_DAY
from leafturn.bloom.site_years import SiteYears, site_years
from leafturn.bloom.years_ahead import FEWEST_YEARS, KEPT_OVER, TREND, season_members, trend
from leafturn.weather.record import DailyRecord

HERE = invented_weather(50)
ASK = dt.date(ASKED, 3, 1)
NEXT = 31 + 29 - FIRST_DAY + 2  # column of the day after it


def known(record: DailyRecord = HERE, until: dt.date = ASK) -> SiteYears:
    return site_years(record).until(until)


def test_what_is_known_is_the_same_in_every_version() -> None:
    members = season_members(known(), ASKED)
    assert members.shape == (2, ASKED - FIRST_YEAR, DAYS)
    assert np.ptp(members[:, :, :NEXT], axis=1).max() == 0
    assert members[:, 0, :NEXT] == pytest.approx(site_years(HERE).season(ASKED)[:, :NEXT])
    assert np.ptp(members[:, :, NEXT + 1 :], axis=1).min() > 0
    assert np.isfinite(members).all()


@settings(max_examples=15, deadline=None)
@given(degrees=st.floats(-6, 6), day=st.integers(1, 90))
def test_no_version_knows_a_day_to_come(degrees: float, day: int) -> None:
    later = moved(HERE, degrees, ASK + dt.timedelta(days=day))
    assert np.array_equal(season_members(known(later), ASKED), season_members(known(), ASKED))


@settings(max_examples=15, deadline=None)
@given(degrees=st.floats(0.5, 6))
def test_a_mild_fortnight_leaves_milder_days_for_a_while(degrees: float) -> None:
    mild = moved(HERE, degrees, ASK - dt.timedelta(days=KEPT_OVER - 1), ASK)
    more = season_members(known(mild), ASKED) - season_members(known(), ASKED)
    kept = more.mean(axis=(0, 1))[NEXT:]
    assert 0.1 * degrees < kept[0] < 0.4 * degrees
    assert abs(kept[80]) < 0.02 * degrees
    assert (np.diff(kept) <= 1e-9).all()


@pytest.mark.parametrize("years", [1, 3, 7])
def test_with_few_past_years_made_up_ones_stand_beside_them(years: int) -> None:
    first = dt.date(ASKED - years - 1, 10, 1)
    skipped = (first - HERE.first).days
    short = DailyRecord(
        first=first, tmin=HERE.tmin[skipped:], tmax=HERE.tmax[skipped:], rain=HERE.rain[skipped:]
    )
    members = season_members(known(short), ASKED)
    assert members.shape[1] >= FEWEST_YEARS
    assert np.isfinite(members).all()


def test_a_long_records_own_trend_shows_and_a_short_one_leans_on_the_usual() -> None:
    warming = [trend(site_years(invented_weather(seed, warming=0.12))) for seed in range(6)]
    steady = [trend(site_years(invented_weather(seed))) for seed in range(6)]
    assert np.mean(warming) - np.mean(steady) > 0.02
    assert 0 <= np.mean(steady) < TREND
    year = replace(HERE, tmin=HERE.tmin[:700], tmax=HERE.tmax[:700], rain=HERE.rain[:700])
    assert trend(site_years(year)) == TREND


def test_past_years_are_moved_by_the_warming_since() -> None:
    steady, warming = invented_weather(50), invented_weather(50, warming=0.12)
    lifted = (
        season_members(known(warming), ASKED)[:, :, -30:].mean()
        - season_members(known(steady), ASKED)[:, :, -30:].mean()
    )
    assert lifted > 0.12 * (ASKED - FIRST_YEAR) * 0.55  # half of it is in the past years themselves


def test_factors_of_a_prior_are_within_what_is_tried(learnt: BloomPrior) -> None:
    assert 0.5 < learnt.widening < 1.5
    assert AHEAD_STEPS[0] <= learnt.widening_ahead <= AHEAD_STEPS[-1]


def test_with_nothing_to_try_ranges_are_widened_by_the_usual(learnt: BloomPrior) -> None:
    assert with_calibrated_intervals(learnt, {}, {}).widening == pytest.approx(1.1)
