"""Where apples and peaches are grown for market, frost is not said to take the crop in the usual year.

Monthly means are those of published_dates.toml: of its stations, each with its source there, and of places
recalled.
"""

from __future__ import annotations

import datetime as dt
import tomllib
from pathlib import Path

import pytest

from leafturn.almanac import open_almanac

PUBLISHED = tomllib.loads(Path(__file__).with_name("published_dates.toml").read_text("utf-8"))
# Frankfurt stands for Geisenheim, 50 km down the river; Hastings lies in Hawke's Bay.
PLACES = PUBLISHED["recalled"] | {
    name: PUBLISHED["station"][name]
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
