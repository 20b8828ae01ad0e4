"""How far apart summer and winter lie by the place alone, against towns.

Mean of the warmest month less that of the coldest, 1991 to 2020, recalled to about a degree; Conrad's index
as the AMS Glossary of Meteorology gives it (Conrad 1946).
"""

from __future__ import annotations

import math
import tomllib
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from leafturn.weather.normals.continentality import area_of, areas, yearly_mean, yearly_range

AREA_TOWNS = Path(__file__).parents[3] / "checks" / "area_towns.toml"
TOWNS = {
    "London": (51.5, -0.1, 13.5), "Dublin": (53.4, -6.3, 10.2), "Edinburgh": (55.9, -3.2, 11.5),
    "Paris": (48.9, 2.3, 15.5), "Brest": (48.4, -4.5, 10.5), "Berlin": (52.5, 13.4, 19.0),
    "Munich": (48.1, 11.6, 19.3), "Graz": (47.0, 15.4, 21.5), "Madrid": (40.4, -3.7, 19.3),
    "Porto": (41.1, -8.6, 10.5), "Moscow": (55.8, 37.6, 26.0), "Umea": (63.8, 20.3, 23.0),
    "Seoul": (37.6, 127.0, 27.5), "Tokyo": (35.7, 139.7, 21.5), "Sapporo": (43.1, 141.3, 25.5),
    "Seattle": (47.6, -122.3, 14.0), "San Francisco": (37.8, -122.4, 7.0), "San Diego": (32.7, -117.2, 8.5),
    "Denver": (39.7, -105.0, 24.0), "Minneapolis": (45.0, -93.3, 33.5), "Winnipeg": (49.9, -97.1, 36.0),
    "St. Louis": (38.6, -90.2, 27.0), "Atlanta": (33.7, -84.4, 21.0), "New York": (40.7, -74.0, 24.5),
    "Anchorage": (61.2, -149.9, 23.5), "Auckland": (-36.9, 174.8, 9.0), "Christchurch": (-43.5, 172.6, 11.5),
    "Hobart": (-42.9, 147.3, 9.0), "Melbourne": (-37.8, 145.0, 11.0), "Santiago": (-33.4, -70.7, 12.5),
    "Buenos Aires": (-34.6, -58.4, 14.0), "Cape Town": (-33.9, 18.4, 9.0), "Singapore": (1.3, 103.8, 1.7),
    "Milan": (45.5, 9.2, 22.5), "Rome": (41.9, 12.5, 17.5), "Belgrade": (44.8, 20.5, 22.5),
    "Izmir": (38.4, 27.1, 19.5), "Trabzon": (41.0, 39.7, 17.0), "Ankara": (40.0, 32.9, 23.0),
    "Tehran": (35.7, 51.4, 26.0), "Tashkent": (41.3, 69.3, 27.0), "Sacramento": (38.6, -121.5, 17.0),
    "Phoenix": (33.4, -112.0, 22.0), "Edmonton": (53.5, -113.5, 27.5), "Mendoza": (-32.9, -68.8, 17.0),
}  # fmt: skip


@pytest.mark.parametrize("town", TOWNS)
def test_a_towns_year_is_as_wide_as_its_normals(town: str) -> None:
    latitude, longitude, measured = TOWNS[town]
    assert yearly_range(latitude, longitude) == pytest.approx(measured, abs=4.0)


def test_oceans_and_continents_are_told_apart() -> None:
    """By latitude alone the same towns are missed by more than twice as much."""
    by_place = [abs(yearly_range(lat, lon) - a) for lat, lon, a in TOWNS.values()]
    by_latitude = [abs(0.4 * abs(lat) + 2.5 - a) for lat, _, a in TOWNS.values()]
    assert sum(by_latitude) > 2 * sum(by_place)


@given(latitude=st.floats(-90, 90), longitude=st.floats(-180, 180))
def test_every_place_has_a_range(latitude: float, longitude: float) -> None:
    assert 1.4 <= yearly_range(latitude, longitude) <= 45.0


def test_the_index_comes_back_from_the_range() -> None:
    for area in areas().values():
        latitude, longitude = area.lat[0] + 0.01, area.lon[0] + 0.01
        first = area_of(latitude, longitude)
        assert first is not None
        sine = math.sin(math.radians(abs(latitude) + 10))
        assert 1.7 * yearly_range(latitude, longitude) / sine - 14 == pytest.approx(first.k)


def test_the_numbers_of_an_area_are_means_of_its_towns() -> None:
    """Recalled maxima and minima of four months, from which all of the table comes."""
    with AREA_TOWNS.open("rb") as source:
        towns = tomllib.load(source)
    assert towns.keys() == areas().keys()
    for name, area in areas().items():
        assert list(towns[name]) == [town.rsplit(" ", 1)[0] for town in area.towns.split(", ")]
        found = [of_town(*numbers) for numbers in towns[name].values()]
        k, warmer, coldest, between, *apart = (
            sum(column) / len(found) for column in zip(*found, strict=True)
        )
        assert area.k == pytest.approx(k, abs=0.51), name
        assert area.warmer == pytest.approx(warmer, abs=0.051), name
        assert area.coldest == pytest.approx(max(coldest, 1.0), abs=0.51), name
        assert area.between == pytest.approx(between, abs=0.051), name
        assert area.day_night == pytest.approx(apart, abs=0.051), name


def of_town(latitude: float, height_m: float, *months: float) -> tuple[float, ...]:
    """What an area tells, of one town: maximum and minimum of January, April, July and October [degC]."""
    high, low = np.array(months[::2]), np.array(months[1::2])
    if latitude < 0:
        high, low = np.roll(high, 2), np.roll(low, 2)
    mean, apart = (high + low) / 2, high - low
    swing = complex(mean[2] - mean[0], mean[3] - mean[1]) / 2
    k = 1.7 * 2 * abs(swing) / math.sin(math.radians(abs(latitude) + 10)) - 14
    warmer = mean.mean() - yearly_mean(0.0, -160.0, 0.0) + 34 * math.sin(math.radians(latitude)) ** 2
    coldest = 15 + math.degrees(math.atan2(swing.imag, swing.real)) * 365.25 / 360
    between = (mean[1] + mean[3] - mean[0] - mean[2]) / 4
    return k, float(warmer) + 6.5 * height_m / 1000, coldest, float(between), *map(float, apart)
