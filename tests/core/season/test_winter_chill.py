"""Chill portions of a winter, counted in the site's own chilling season."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.samples.frost_years import OWN_RECORD
from tests.samples.towns import WINNIPEG

from leafturn.base.arrays import FloatArray
from leafturn.garden.model import Climate, Place
from leafturn.kinds.library import load_library
from leafturn.season import winter_chill
from leafturn.season.axis import AXIS_DAYS, SeasonAxis
from leafturn.season.chill import chill_portions, portions_gained
from leafturn.season.ensemble import AUTUMN_DAYS, Ensemble
from leafturn.season.hourly import hourly_temperatures
from leafturn.season.winter_chill import CHILLING_C, COUNTED_DAYS, WinterChill
from leafturn.season.years import build_ensemble
from leafturn.weather.normals.normal_year import normal_year

AXIS = SeasonAxis(2027)
WHOLE = np.arange(AUTUMN_DAYS + AXIS_DAYS)
CLIMATES = {
    "Winnipeg": (49.9, WINNIPEG["tmax_c"], WINNIPEG["tmin_c"]),
    "Umea": (63.8, (-4.0, -3.5, 0.5, 5.5, 11.5, 16.5, 19.5, 18.0, 12.5, 6.5, 1.0, -2.5),
             (-11.0, -10.5, -7.0, -2.0, 3.0, 8.5, 11.5, 10.0, 5.5, 0.5, -5.0, -9.0)),
    "Karlsruhe": (49.0, (4.6, 6.6, 11.5, 16.1, 20.6, 23.6, 26.0, 25.6, 21.2, 15.4, 9.0, 5.4),
                  (-0.9, -0.9, 2.2, 5.0, 9.3, 12.4, 14.4, 14.0, 10.4, 6.9, 2.7, 0.2)),
    "Seville": (37.4, (16.0, 18.1, 21.9, 23.4, 27.2, 32.2, 36.0, 35.5, 31.7, 26.0, 20.2, 16.6),
                (5.7, 7.0, 9.2, 11.1, 14.2, 18.0, 20.3, 20.4, 18.2, 14.4, 10.0, 7.3)),
    "Singapore": (1.4, (30.0, 31, 32, 32, 32, 31, 31, 31, 31, 31, 31, 30),
                  (24.0, 24, 24, 25, 25, 25, 25, 25, 24, 24, 24, 24)),
}  # fmt: skip
"""Latitude, and monthly means of maxima and minima [degC], from memory."""


def versions(
    low: np.ndarray, high: np.ndarray, axis: SeasonAxis = AXIS, latitude: float = 47.0
) -> WinterChill:
    """Chill of years given from the first of September on, (members, days)."""
    both = np.stack([low, high])
    return WinterChill(
        Ensemble(
            axis=axis, tmin=low[:, AUTUMN_DAYS:], tmax=high[:, AUTUMN_DAYS:], rain=low[:, AUTUMN_DAYS:] * 0,
            observed_to=-1, filled=0, made_of=OWN_RECORD, autumn=both[:, :, :AUTUMN_DAYS], latitude=latitude,
        )
    )  # fmt: skip


def steady(*means: float) -> np.ndarray:
    return np.repeat(np.array(means)[:, None], len(WHOLE), axis=1)


def wave(mean: float, swing: float) -> np.ndarray:
    """One year's daily means, coldest in mid-January, from September on."""
    return (mean - swing * np.cos((WHOLE - 137) / 365.25 * 2 * np.pi))[None]


def of_place(name: str) -> WinterChill:
    latitude, high, low = CLIMATES[name]
    normals = normal_year(Place(lat=latitude, lon=0.0), Climate(tmax_c=high, tmin_c=low))
    return WinterChill(build_ensemble(AXIS, None, normals, AXIS.first, latitude=latitude))


def test_steady_cold_gathers_portions_at_the_published_pace() -> None:
    """At a steady 6 C the dynamic model makes 34.20 portions in the first 1000 hours (Fishman 1987)."""
    cold = steady(6.0)
    chill = versions(cold, cold)
    assert chill.season == (-AUTUMN_DAYS, COUNTED_DAYS - AUTUMN_DAYS - 1)
    assert chill.gathered()[0] == pytest.approx(34.2 * 24 * COUNTED_DAYS / 1000, rel=0.02)


def test_it_is_the_dynamic_model_over_the_cold_days() -> None:
    low, high = wave(9.0, 10.0) - 4, wave(9.0, 10.0) + 4
    chill = versions(low, high)
    assert chill.season is not None
    first, last = chill.season
    cold = slice(first + AUTUMN_DAYS, last + AUTUMN_DAYS + 1)
    assert (wave(9.0, 10.0)[0, cold] < CHILLING_C + 0.2).all()
    days = np.array([AXIS.date(day).timetuple().tm_yday for day in range(first, last + 1)])
    hourly = hourly_temperatures(low[:, cold], high[:, cold], 47.0, days)
    assert chill.gathered()[0] == pytest.approx(float(chill_portions(hourly[0])[-1]))


def test_where_no_day_is_cold_there_is_no_chill() -> None:
    warm = steady(18.0)
    chill = versions(warm, warm)
    assert chill.season is None
    assert chill.gathered().tolist() == [0.0]
    assert chill.short_of(30.0) == 1.0


def test_each_version_of_a_winter_has_its_own() -> None:
    low = np.concatenate([wave(7.0, 10.0), wave(15.0, 3.0), wave(7.0, 10.0)]) - 4
    chill = versions(low, low + 8)
    cold, mild, again = chill.gathered()
    assert cold == again > mild
    assert chill.short_of((cold + mild) / 2) == pytest.approx(1 / 3)
    assert (chill.short_of(0.0), chill.short_of(1e6)) == (0.0, 1.0)


def test_winters_are_counted_no_further_than_asked_and_what_is_alike_once(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    counted: list[tuple[int, ...]] = []

    def watched(hourly: FloatArray, product: FloatArray) -> tuple[FloatArray, FloatArray]:
        counted.append(hourly.shape)
        return portions_gained(hourly, product)

    monkeypatch.setattr(winter_chill, "portions_gained", watched)
    low = np.repeat(wave(6.5, 9.0) - 4, 3, axis=0)
    low[:, AUTUMN_DAYS + 20 :] += np.array([0.0, 1.0, 2.0])[:, None]  # observed to 20 January
    chill = versions(low, low + 8)
    assert chill.short_of(20.0) == 0.0
    assert 0 < sum(hours for _, hours in counted) < 24 * COUNTED_DAYS / 2
    assert {winters for winters, _ in counted} == {1}
    so_far = len(counted)
    assert chill.short_of(15.0) == 0.0
    assert len(counted) == so_far
    whole = chill.gathered()
    assert len(set(whole)) == 3
    assert counted[-1][0] == 3
    assert chill.short_of(whole[1]) == pytest.approx(np.mean(whole < whole[1]))


def test_the_south_is_the_north_half_a_year_on() -> None:
    north, south = (
        versions(wave(9.0, 9.0) - 4, wave(9.0, 9.0) + 4, SeasonAxis(2027, latitude < 0), latitude)
        for latitude in (45.0, -45.0)
    )
    assert south.gathered()[0] == pytest.approx(north.gathered()[0], rel=0.03)


@settings(max_examples=15, deadline=None)
@given(start=st.integers(20, 200), days=st.integers(1, 6))
def test_gaps_are_drawn_between_their_neighbours(start: int, days: int) -> None:
    whole = steady(6.0, 6.0)
    holed = whole.copy()
    holed[0, start : start + days] = np.nan
    drawn, plain = versions(holed, holed).gathered(), versions(whole, whole).gathered()
    np.testing.assert_allclose(drawn, plain, atol=1.01)


@pytest.mark.parametrize("name", ["Winnipeg", "Umea", "Karlsruhe"])
def test_apples_are_never_short_of_chill_in_cold_winters(name: str) -> None:
    """Where midwinter is too cold for chill, autumn and spring give enough of it."""
    portions = load_library()[0].kinds["apple"].chill.portions
    assert portions is not None
    chill = of_place(name)
    assert chill.season is not None
    assert AXIS.date(chill.season[0]).month in (9, 10)
    assert AXIS.date(chill.season[1]).month == 5 or name == "Karlsruhe"
    assert chill.gathered().min() > max(portions.value)
    assert chill.short_of(sum(portions.value) / 2) == 0.0


def test_apples_are_short_of_it_where_winters_are_mild() -> None:
    portions = load_library()[0].kinds["apple"].chill.portions
    assert portions is not None
    chill = of_place("Seville")
    assert chill.season is not None
    assert AXIS.date(chill.season[0]).month in (11, 12)
    assert AXIS.date(chill.season[1]).month in (2, 3)
    assert 0 < np.median(chill.gathered()) < of_place("Karlsruhe").gathered().min()
    assert of_place("Singapore").season is None
    assert of_place("Singapore").short_of(sum(portions.value) / 2) == 1.0
