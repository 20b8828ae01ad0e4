"""When a young root zone runs dry."""

from __future__ import annotations

import numpy as np
import pytest

from leafturn.garden.numbers import Numbers
from leafturn.season.axis import AXIS_DAYS, SeasonAxis
from leafturn.season.ensemble import Ensemble
from leafturn.season.evapotranspiration import extraterrestrial_radiation, hargreaves
from leafturn.soil.water import AVAILABLE_MM_PER_M, dry_day

AXIS = SeasonAxis(2027)
JULY = AXIS.month_day("07-01")
NUMBERS = Numbers({})


def weather(rain: float | np.ndarray = 0.0) -> Ensemble:
    shape = (1, AXIS_DAYS)
    return Ensemble(
        axis=AXIS, tmin=np.full(shape, 14.8), tmax=np.full(shape, 26.6),
        rain=np.broadcast_to(rain, shape) + 0.0, today=-1, filled=0, basis="own record",
    )  # fmt: skip


def test_without_rain_the_store_lasts_as_long_as_the_books_arithmetic_says() -> None:
    """FAO-56: stress begins when depletion passes p TAW; demand as in its example 20, 5 mm a day in July."""
    store = NUMBERS["soil_depletion"] * AVAILABLE_MM_PER_M["loam"] * NUMBERS["young_root_m"]
    spent, day = 0.0, JULY
    while spent <= store:
        radiation = extraterrestrial_radiation(45.72, AXIS.date(day).timetuple().tm_yday)
        spent += NUMBERS["young_crop_factor"] * float(hargreaves(14.8, 26.6, radiation))
        day += 1
    assert dry_day(weather(), 45.72, "loam", JULY, NUMBERS)[0] == day - 1
    assert 10 <= day - JULY <= 16  # about 31 mm at 2.5 mm a day


def test_sand_dries_before_loam_and_rain_puts_it_off() -> None:
    sand, loam = (dry_day(weather(), 45.72, soil, JULY, NUMBERS)[0] for soil in ("sand", "loam"))
    assert sand < loam
    assert np.isinf(dry_day(weather(rain=6.0), 45.72, "loam", JULY, NUMBERS)[0])


def test_a_wet_day_never_stores_more_than_the_soil_holds() -> None:
    flood = np.zeros(AXIS_DAYS)
    flood[JULY] = 500.0
    late = dry_day(weather(rain=flood), 45.72, "loam", JULY, NUMBERS)[0]
    assert late == pytest.approx(dry_day(weather(), 45.72, "loam", JULY + 1, NUMBERS)[0])
