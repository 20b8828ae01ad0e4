"""How late a last frost comes in one year of ten where two frost dates are all that is known.

Source: freeze tables of the National Weather Service's stations, as a seed house prints them (read): days
from which the chance of 32 F or colder is a half and a tenth. First frosts of autumn are recalled.
That of Port Orford was read. By the same tables, when last measured: Prospect (19 days from the half to the
tenth, 40 here), Cascadia (28 and 37), Tillamook (23 and 33).
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.samples.garden_text import garden_text

from leafturn.almanac import open_almanac


@pytest.mark.parametrize(
    ("lat", "lon", "half", "tenth", "first"),
    [
        pytest.param(42.9, -124.07, "04-11", "05-03", "11-05", id="Powers"),
        pytest.param(43.8, -122.97, "04-22", "05-14", "10-28", id="Dorena"),
        pytest.param(43.74, -122.45, "04-24", "05-15", "10-20", id="Oakridge"),
        pytest.param(43.98, -117.0, "05-08", "05-31", "09-30", id="Malheur"),
        pytest.param(44.4, -123.9, "04-02", "05-03", "11-13", id="Tidewater"),
        pytest.param(43.18, -124.2, "04-05", "05-04", "11-06", id="Coquille"),
        pytest.param(42.74, -124.5, "03-07", "05-02", "11-30", id="Port Orford"),
        pytest.param(45.36, -122.6, "03-23", "04-22", "11-12", id="Oregon City"),
        pytest.param(42.06, -75.4, "05-19", "06-03", "10-01", id="Deposit"),
        pytest.param(44.5, -109.2, "05-12", "06-04", "10-05", id="Buffalo Bill Dam"),
    ],
)
def test_the_tenth_year_is_as_late_as_published(
    lat: float, lon: float, half: str, tenth: str, first: str, tmp_path: Path
) -> None:
    text = garden_text(climate={"last_frost": half, "first_frost": first}, lat=lat, lon=lon)
    (tmp_path / "garden.toml").write_text(text, encoding="utf-8")
    last = open_almanac(tmp_path, dt.date(2027, 1, 5)).season().frosts[0].last
    assert last.late is not None
    assert abs((last.late - dt.date.fromisoformat(f"2027-{tenth}")).days) <= 8
