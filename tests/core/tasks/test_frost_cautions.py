"""A caution of frost is told while frost may still come, and not where or when it hardly ever does.

Which places freeze is from memory of their climate tables: the shores of San Diego, Tenerife and
Auckland hardly ever, Minneapolis every winter.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant
from tests.samples.towns import SAN_DIEGO, TENERIFE

PLACES: dict[str, tuple[float, float, str, dict[str, list[float]]]] = {
    "San Diego": (32.7, -117.2, "2027-05-20", SAN_DIEGO),
    "Tenerife": (28.5, -16.3, "2027-05-20", TENERIFE),
    "Auckland": (-36.8, 174.8, "2026-11-20", {
        "tmax_c": [23.1, 23.7, 22.4, 20.1, 17.7, 15.5, 14.7, 15.1, 16.5, 17.8, 19.5, 21.6],
        "tmin_c": [15.2, 15.8, 14.4, 12.1, 10.3, 8.1, 7.1, 7.5, 8.9, 10.4, 12, 14],
    }),
    "Minneapolis": (45.0, -93.3, "2027-05-05", {
        "tmax_c": [-4.4, -1.6, 5.1, 13.9, 20.9, 26, 28.6, 27.2, 22.7, 14.8, 5.7, -2.1],
        "tmin_c": [-13.6, -11.2, -4.2, 2.8, 9.9, 15.6, 18.2, 16.9, 11.9, 4.7, -2.9, -10.3],
    }),
}  # fmt: skip
"""Latitude, longitude, a day of mulching, and monthly means of maxima and minima [degC], from memory."""


def cautions(folder: Path, place: str, normals: bool, frost: str, on: str = "") -> str:
    lat, lon, usual, months = PLACES[place]
    tree = plant("tree", "persian walnut", year=2020, at=[0, 0])
    climate: dict[str, object] = dict(months) if normals else {"last_frost": frost}
    almanac = almanac_of(folder, garden_text(tree, climate=climate, lat=lat, lon=lon), on or usual)
    return " ".join(almanac.job("tree:spring-mulch").cautions)


@pytest.mark.parametrize("place", ["San Diego", "Tenerife", "Auckland"])
@pytest.mark.parametrize("normals", [True, False])
def test_where_it_never_freezes_no_mulch_is_warned_of_frost(
    place: str, normals: bool, tmp_path: Path
) -> None:
    assert "frost" not in cautions(tmp_path, place, normals, "never")


@pytest.mark.parametrize("normals", [True, False])
def test_where_it_freezes_it_is(normals: bool, tmp_path: Path) -> None:
    assert "before the last frost" in cautions(tmp_path, "Minneapolis", normals, "04-30")
    assert "frost" not in cautions(tmp_path, "Minneapolis", normals, "04-30", on="2027-06-15")


def test_where_few_winters_freeze_none_is_warned_of_in_spring(tmp_path: Path) -> None:
    """A frost of one year in ten lies in midwinter: by April mulch makes no night colder."""
    assert "frost" not in cautions(tmp_path, "San Diego", True, "1 year in 10", on="2027-04-20")
    assert "frost" not in cautions(tmp_path, "San Diego", False, "1 year in 10", on="2027-04-20")
