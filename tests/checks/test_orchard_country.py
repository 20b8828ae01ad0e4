"""Where apples and peaches are grown for market, frost is not said to take the crop in the usual year.

Monthly means are those of published_dates.toml where it has the place (each with its source there); others
are recalled from published normals, to a degree Celsius or so.
"""

from __future__ import annotations

import datetime as dt
import tomllib
from pathlib import Path

import pytest

from leafturn.almanac import open_almanac

STATIONS = tomllib.loads(Path(__file__).with_name("published_dates.toml").read_text("utf-8"))["station"]
RECALLED = {
    "hereford": {
        "lat": 52.08, "lon": -2.8,
        "tmax_c": [7.8, 8.3, 10.7, 13.6, 16.9, 19.8, 22.1, 21.6, 18.7, 14.5, 10.6, 8.0],
        "tmin_c": [1.8, 1.7, 2.8, 4.3, 7.2, 10.1, 12.1, 11.9, 9.6, 7.0, 4.1, 2.0],
    },
    "geneva, new york": {
        "lat": 42.88, "lon": -77.03,
        "tmax_f": [32, 34, 42, 56, 68, 77, 82, 80, 73, 60, 48, 37],
        "tmin_f": [17, 17, 25, 36, 47, 57, 61, 60, 52, 42, 33, 24],
    },
    "hood river": {
        "lat": 45.7, "lon": -121.52,
        "tmax_f": [40, 46, 54, 61, 69, 74, 82, 82, 76, 63, 49, 40],
        "tmin_f": [30, 31, 35, 38, 44, 49, 54, 53, 46, 39, 34, 30],
    },
    "clemson": {
        "lat": 34.68, "lon": -82.82,
        "tmax_f": [53, 57, 65, 73, 80, 86, 90, 88, 83, 73, 63, 55],
        "tmin_f": [32, 35, 41, 48, 57, 65, 69, 68, 62, 50, 40, 34],
    },
}  # fmt: skip
# Frankfurt stands for Geisenheim, 50 km down the river; Hastings lies in Hawke's Bay.
PLACES = RECALLED | {
    name: STATIONS[name]
    for name in ("frankfurt", "faversham", "wenatchee", "hastings", "rochester", "foothills", "canberra")
}
KINDS = ("apple", "pear", "peach")
# Mean share of the crop; orchards of the Wenatchee valley are warmed by wind machines and heaters (recalled).
WELL_UNDER_HALF, WHERE_ORCHARDS_ARE_WARMED = 0.36, 0.5


@pytest.mark.parametrize("place", PLACES)
def test_nowhere_is_an_orchard_country_told_that_it_never_crops(place: str, tmp_path: Path) -> None:
    known = PLACES[place]
    means = [f"{key} = {known[key]}" for key in ("tmax_c", "tmin_c", "tmax_f", "tmin_f") if key in known]
    plants = [
        f'[[plant]]\nid = "{kind}"\nkind = "{kind}"\nyear = 2000\nat = [{n}, 0]'
        for n, kind in enumerate(KINDS)
    ]
    head = ["[place]", f"lat = {known['lat']}", f"lon = {known['lon']}", "[climate]"]
    (tmp_path / "garden.toml").write_text("\n".join([*head, *means, *plants]))
    begins = dt.date(2027, 7, 1) if known["lat"] < 0 else dt.date(2027, 1, 1)
    losses = open_almanac(tmp_path, begins).frost_losses().values()
    assert len(losses) == len(KINDS)
    most = WHERE_ORCHARDS_ARE_WARMED if place == "wenatchee" else WELL_UNDER_HALF
    for loss in losses:
        assert loss.crop_lost < most, loss.plant
