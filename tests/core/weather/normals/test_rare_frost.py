"""Made-up years that freeze as seldom as the garden file says, and on the days it says."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest
from tests.samples.garden_text import MONTHS
from tests.samples.towns import KALAMATA as MONTHS_OF_KALAMATA

from leafturn.garden.model import Climate, FrostDate, Place
from leafturn.season.axis import SeasonAxis
from leafturn.season.ensemble import Ensemble
from leafturn.season.frost import first_frost, frost_shares, last_frost
from leafturn.season.years import build_ensemble
from leafturn.weather.normals.normal_year import normal_year

NEW_YEAR = dt.date(2027, 1, 1)
KALAMATA = Climate(tmax_c=tuple(MONTHS_OF_KALAMATA["tmax_c"]), tmin_c=tuple(MONTHS_OF_KALAMATA["tmin_c"]))


def year_of(climate: Climate, lat: float = 37.0) -> tuple[Ensemble, tuple[str, ...]]:
    """The year as it may turn out, and what was noted of its normals."""
    place = Place(lat=lat, lon=22.0 if lat > 0 else 175.0)
    normals = normal_year(place, climate)
    return build_ensemble(SeasonAxis.holding(NEW_YEAR, lat < 0), None, normals, NEW_YEAR), normals.notes


@pytest.mark.parametrize("lat", [20.0, 37.0, 50.0, -37.0])
@pytest.mark.parametrize("share", [0.0, 0.05, 0.1, 0.2, 0.5, 0.8])
def test_years_freeze_in_the_share_that_is_stated(lat: float, share: float) -> None:
    frost = FrostDate(years=share)
    ensemble, notes = year_of(Climate(last_frost=frost, first_frost=frost), lat)
    assert frost_shares(ensemble) == pytest.approx((share, share), abs=0.0 if share == 0 else 0.051)
    assert not any("contradict" in note for note in notes)
    assert any("how seldom it freezes" in note for note in notes)


@pytest.mark.parametrize("share", [0.0, 0.05, 0.1, 0.2, 0.5, 0.8])
def test_beside_monthly_means_too_and_the_days_stay_as_warm(share: float) -> None:
    told = Climate(tmax_c=KALAMATA.tmax_c, tmin_c=KALAMATA.tmin_c, last_frost=FrostDate(years=share))
    ensemble, notes = year_of(told)
    assert frost_shares(ensemble) == pytest.approx((share, share), abs=0.0 if share == 0 else 0.051)
    assert not any("contradict" in note for note in notes)
    plain, _ = year_of(KALAMATA)
    assert np.abs(ensemble.tmean.mean(axis=0) - plain.tmean.mean(axis=0)).max() < 0.01


def test_one_frost_told_is_enough() -> None:
    ensemble, _ = year_of(Climate(first_frost=FrostDate(years=0.0)))
    assert frost_shares(ensemble) == (0.0, 0.0)


def test_never_where_winters_are_hard_is_said() -> None:
    hard = Climate(
        tmax_c=tuple(MONTHS["tmax_c"]), tmin_c=tuple(MONTHS["tmin_c"]), last_frost=FrostDate(years=0.0)
    )
    assert any("contradict" in note for note in year_of(hard, 47.0)[1])


@pytest.mark.parametrize(("last", "first"), [("01-20", "12-31"), ("01-20", "01-08"), ("02-05", "12-20")])
def test_two_dates_of_a_winter_that_barely_freezes(last: str, first: str) -> None:
    ensemble, _ = year_of(Climate(last_frost=FrostDate(usual=last), first_frost=FrostDate(usual=first)))
    spring, autumn = ensemble.likely(last_frost(ensemble)), ensemble.likely(first_frost(ensemble))
    for found, month_day in ((spring.likely, last), (autumn.likely, first)):
        assert found is not None
        stated = dt.date.fromisoformat(f"{found.year}-{month_day}")
        assert abs((found - stated).days) <= 2
    coldest = ensemble.tmean.mean(axis=0)[61:426].argmin()
    assert coldest < 60 or coldest > 320, "winter lies about New Year"


@pytest.mark.parametrize("far", [8, 12, 15, 18, 24])
@pytest.mark.parametrize(("lat", "last", "first"), [(46.9, "04-24", "10-16"), (52.0, "04-28", "10-20")])
def test_stated_dates_are_shown_as_they_were_stated(lat: float, last: str, first: str, far: int) -> None:
    usual_last, usual_first = (dt.date.fromisoformat(f"2027-{day}") for day in (last, first))
    late, early = usual_last + dt.timedelta(days=far), usual_first - dt.timedelta(days=far)
    ensemble, _ = year_of(
        Climate(
            last_frost=FrostDate(usual=last, one_year_in_ten_after=f"{late:%m-%d}"),
            first_frost=FrostDate(usual=first, one_year_in_ten_before=f"{early:%m-%d}"),
        ),
        lat,
    )
    spring, autumn = ensemble.likely(last_frost(ensemble)), ensemble.likely(first_frost(ensemble))
    shown = (spring.likely, spring.late, autumn.likely, autumn.early)
    for found, stated in zip(shown, (usual_last, late, usual_first, early), strict=True):
        assert found is not None
        assert abs((found - stated).days) <= 3, "of forty years one may not freeze on the very day"
