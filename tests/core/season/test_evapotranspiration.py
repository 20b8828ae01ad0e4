"""Water demand at its edges."""

from __future__ import annotations

import numpy as np
import pytest

from leafturn.season.evapotranspiration import extraterrestrial_radiation, hargreaves


def test_polar_night_has_no_sunshine_and_the_year_mirrors():
    assert extraterrestrial_radiation(75.0, 355) == pytest.approx(0, abs=1e-9)
    days = np.arange(1, 366)
    assert np.all(extraterrestrial_radiation(np.array([[-89.0], [0.0], [89.0]]), days) >= 0)
    # the sun is nearer in January, so southern summers get more
    assert extraterrestrial_radiation(-45.0, days).max() > extraterrestrial_radiation(45.0, days).max()


def test_demand_is_never_negative_and_gaps_stay():
    assert hargreaves(-40.0, -30.0, 1.0) == 0
    assert hargreaves(12.0, 10.0, 30.0) == 0
    assert np.isnan(hargreaves([np.nan, 5.0], [15.0, np.nan], 30.0)).all()


def test_warmer_and_wider_days_ask_for_more():
    assert hargreaves(10.0, 24.0, 30.0) > hargreaves(12.0, 22.0, 30.0) > hargreaves(8.0, 18.0, 30.0)
    assert hargreaves(np.zeros((3, 1)), 10.0, np.ones(4)).shape == (3, 4)
