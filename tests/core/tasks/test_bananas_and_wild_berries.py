"""A clump of bananas is thinned where it stands out of doors, and wild kin serve a blueberry of the barrens.

Lowbush blueberry for the most part wants the pollen of another clone (Drummond and Rowland 2020, abstract
read); it is native from the Atlantic provinces on (Plants for Bees, read). Suckers of bananas: gardening
guides, read.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant
from tests.samples.towns import OAXACA, WINNIPEG

SAINT_JOHNS = {
    "tmax_c": [-0.5, -0.9, 1.1, 5.4, 11.0, 15.8, 20.5, 20.6, 16.5, 10.9, 6.5, 2.2],
    "tmin_c": [-8.3, -8.7, -5.7, -1.0, 2.0, 6.3, 11.2, 12.0, 8.5, 4.0, 0.4, -4.8],
    "rain_mm": [150, 130, 130, 115, 105, 100, 92, 105, 130, 155, 150, 160],
}


@pytest.mark.parametrize(
    ("climate", "lat", "lon", "told"), [(OAXACA, 17.07, -96.7, True), (WINNIPEG, 49.9, -97.1, False)]
)
def test_suckers_of_bananas_are_taken_where_they_stand_out_of_doors(
    tmp_path: Path, climate: dict[str, list[float]], lat: float, lon: float, told: bool
) -> None:
    text = garden_text(plant("clump", "banana", year=2020), climate=climate, lat=lat, lon=lon)
    jobs = almanac_of(tmp_path, text, "2027-04-10").jobs()
    assert [job.state for job in jobs if job.rule == "thin-banana-suckers"] == (["due"] if told else [])


def test_a_blueberry_of_the_barrens_is_picked_though_it_stands_alone(tmp_path: Path) -> None:
    text = garden_text(
        plant("mat", "lowbush blueberry", year=2010), climate=SAINT_JOHNS, lat=47.56, lon=-52.71
    )
    almanac = almanac_of(tmp_path, text, "2027-06-10")
    assert almanac.job("mat:bring-pollen") is None
    assert almanac.job("mat:pick") is not None
