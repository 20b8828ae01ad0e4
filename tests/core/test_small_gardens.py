"""The gardens that other tests stand on read without a fault and mean what they say."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import numpy as np
import pytest
from tests.samples.places import GARDENS

from leafturn.almanac import open_almanac
from leafturn.garden.reading.reader import read_garden
from leafturn.weather.readers.reading import read_weather


@pytest.mark.parametrize(("garden", "plants"), [("south", 6), ("ten_lines/a.toml", 2), ("seattle", 12)])
def test_reads_without_a_fault(garden: str, plants: int) -> None:
    reading = read_garden(GARDENS / garden)
    assert [fault.sentence() for fault in reading.faults] == []
    assert len(reading.garden.plants) == plants
    assert all(plant.point is not None for plant in reading.garden.plants)


def test_the_southern_garden_is_in_feet_and_fahrenheit() -> None:
    """1 ft = 0.3048 m, t/degC = (t/degF - 32)/1.8, 1 in = 25.4 mm (NIST Special Publication 811, B.8)."""
    garden = read_garden(GARDENS / "south").garden
    places = {plant.id: plant.point for plant in garden.plants}
    assert places["south-pear"] == pytest.approx((3.048, 6.096))
    assert places["second-pear"] == pytest.approx((3.048 - 6.096, 6.096))
    assert places["vine"] == places["walnut-kin"]
    assert garden.place.southern
    assert garden.place.frost_pocket_c == pytest.approx(-1 / 1.8)
    assert garden.climate is not None
    assert garden.climate.tmax_c is not None
    assert garden.climate.tmax_c[0] == pytest.approx(22.22, abs=0.01)
    assert garden.climate.rain_mm is not None
    assert garden.climate.rain_mm[0] == pytest.approx(60.96)


def test_the_seattle_weather_is_whole_and_in_degrees_celsius(seattle_garden: Path) -> None:
    """Days below 0 degC in 2012, 2013 and 2015: 18, 26 and 10, as xclim's frost_days counts them."""
    record = read_weather(seattle_garden / "weather.csv", "weather.csv").record
    assert record is not None
    assert (str(record.first), len(record)) == ("2012-01-01", 1461)
    years = np.arange("2012-01-01", "2016-01-01", dtype="datetime64[D]").astype("datetime64[Y]")
    frosty = [int((record.tmin[years == np.datetime64(year)] < 0).sum()) for year in ("2012", "2013", "2015")]
    assert frosty == [18, 26, 10]


def test_a_misspelt_cultivar_is_told_as_it_was_read(tmp_path: Path) -> None:
    """Silently taken for its clone, "Comise" would be no partner of Comice, and nobody would know why."""
    rows = "".join(
        f'[[plant]]\nkind = "pear"\ncultivar = "{name}"\n' for name in ("Comise", "comice", "Nobody")
    )
    (tmp_path / "garden.toml").write_text("[place]\nlat = 46.9\nlon = 15.9\n" + rows)
    said = [n for n in open_almanac(tmp_path, dt.date(2027, 4, 19)).notes if "was read as" in n]
    assert said == ['garden.toml, line 4: "Comise" was read as Comice.']
