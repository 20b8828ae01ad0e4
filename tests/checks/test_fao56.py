"""Water demand and day length: FAO Irrigation and Drainage Paper 56 (Allen et al. 1998), and pyet 1.5.

Examples 8, 9 and 20 of the paper; the finer figures are pyet's. The mid-month table was computed apart from
this project with the paper's equations 21 and 34.
"""

from __future__ import annotations

import numpy as np
import pytest

from leafturn.season.evapotranspiration import extraterrestrial_radiation, hargreaves
from leafturn.season.sun import day_length

MID_MONTH = np.array([15, 46, 75, 105, 135, 162, 198, 228, 258, 288, 318, 344])
RADIATION = {
    40: [15.0, 20.4, 27.5, 34.7, 39.7, 41.7, 40.6, 36.5, 29.9, 22.5, 16.4, 13.8],
    45: [11.9, 17.5, 25.1, 33.2, 39.2, 41.7, 40.4, 35.4, 27.9, 19.7, 13.4, 10.7],
    50: [8.9, 14.4, 22.5, 31.5, 38.5, 41.6, 40.0, 34.1, 25.6, 16.8, 10.3, 7.7],
    55: [6.0, 11.4, 19.8, 29.6, 37.6, 41.3, 39.4, 32.6, 23.2, 13.9, 7.3, 4.8],
}
HOURS = {
    40: [9.5, 10.5, 11.7, 13.1, 14.2, 14.8, 14.5, 13.5, 12.2, 10.9, 9.8, 9.2],
    45: [9.0, 10.2, 11.7, 13.3, 14.7, 15.4, 15.0, 13.8, 12.3, 10.7, 9.3, 8.6],
}


def test_example_8_and_9():
    """3 September at 20 degrees south: 32.2 MJ and 11.7 hours."""
    assert extraterrestrial_radiation(-20, 246) == pytest.approx(32.19, abs=0.05)
    assert day_length(-20, 246) == pytest.approx(11.7, abs=0.05)


def test_example_20():
    """Lyon, 15 July, 14.8 to 26.6 degrees: 5.0 mm."""
    radiation = extraterrestrial_radiation(45.72, 196)
    assert radiation == pytest.approx(40.555, abs=0.05)
    assert hargreaves(14.8, 26.6, radiation) == pytest.approx(5.03, abs=0.03)


def test_a_warm_day_at_45_north():
    assert hargreaves(14.0, 28.0, extraterrestrial_radiation(45, 198)) == pytest.approx(5.50, abs=0.01)


def test_winter_solstice():
    assert extraterrestrial_radiation(51.48, 355) == pytest.approx(6.586, abs=0.05)


@pytest.mark.parametrize("latitude", RADIATION)
def test_radiation_through_the_year(latitude):
    found = extraterrestrial_radiation(latitude, MID_MONTH)
    np.testing.assert_allclose(found, RADIATION[latitude], atol=0.051)


@pytest.mark.parametrize("latitude", HOURS)
def test_day_length_through_the_year(latitude):
    np.testing.assert_allclose(day_length(latitude, MID_MONTH), HOURS[latitude], atol=0.051)


@pytest.mark.reference
def test_pyet_itself():
    """pyet rounds nothing but uses 0.082 and the same equations."""
    pyet = pytest.importorskip("pyet")
    pandas = pytest.importorskip("pandas")
    year = pandas.date_range("2023-01-01", "2023-12-31")
    day = np.arange(1, 366)
    wave = 10 - 11 * np.cos(2 * np.pi * (day - 20) / 365)
    for latitude in (-36.0, 0.0, 20.0, 46.9, 60.0):
        theirs = np.asarray(pyet.extraterrestrial_r(year, np.radians(latitude)), dtype=float).ravel()
        ours = extraterrestrial_radiation(latitude, day)
        np.testing.assert_allclose(ours, theirs, atol=0.02)
        low, high = pandas.Series(wave - 5, year), pandas.Series(wave + 5, year)
        mean = pandas.Series(wave, year)
        water = pyet.hargreaves(mean, high, low, lat=np.radians(latitude))
        np.testing.assert_allclose(hargreaves(wave - 5, wave + 5, ours), np.asarray(water), atol=0.06)
