"""The sun's place against pvlib 0.16, which computes NREL's full solar position algorithm."""

from __future__ import annotations

import numpy as np
import pytest

from leafturn.season.sun import position

PLACES = [(51.48, 0.0), (46.93, 15.87), (-36.0, 148.0), (0.0, -170.0), (68.0, 20.0)]


def test_frozen():
    elevation, azimuth = position(51.48, 0.0, np.datetime64("2024-12-21T14:00"))
    assert elevation == pytest.approx(10.458, abs=0.1)
    assert azimuth == pytest.approx(208.188, abs=0.1)


@pytest.mark.reference
@pytest.mark.parametrize(("latitude", "longitude"), PLACES)
@pytest.mark.parametrize("year", [1950, 2024, 2060])
def test_pvlib_itself(latitude, longitude, year):
    solarposition = pytest.importorskip("pvlib.solarposition")
    pandas = pytest.importorskip("pandas")
    hours = pandas.date_range(f"{year}-01-01", periods=8760, freq="h", tz="UTC")
    theirs = solarposition.get_solarposition(hours, latitude, longitude)
    elevation, azimuth = position(latitude, longitude, hours.tz_localize(None).to_numpy())
    np.testing.assert_allclose(elevation, theirs.elevation, atol=0.02)
    round_the_circle = (azimuth - theirs.azimuth.to_numpy() + 180) % 360 - 180
    np.testing.assert_allclose(round_the_circle * np.cos(np.radians(elevation)), 0, atol=0.02)
