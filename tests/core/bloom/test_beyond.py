"""Where forecasting ends: in climates without seasons, in mild winters and in very cold ones."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import numpy as np
import pytest
from tests.samples.noted_gardens import opened, plant, same_days

from leafturn.almanac import Almanac
from leafturn.bloom.beyond import SHORT_CHILL, short_chill_variance

# Monthly means from memory.
SINGAPORE = (
    1.35,
    """
[climate]
tmax_c = [30, 31, 32, 32, 32, 31, 31, 31, 31, 31, 31, 30]
tmin_c = [24, 24, 24, 25, 25, 25, 25, 25, 24, 24, 24, 24]
""",
)
SAN_DIEGO = (
    32.7,
    """
[climate]
tmax_c = [18.8, 18.5, 18.8, 19.6, 20.1, 21.3, 23.8, 25.0, 24.8, 23.2, 21.1, 18.7]
tmin_c = [9.8, 10.7, 12.2, 13.5, 15.4, 17.0, 18.8, 19.6, 18.6, 15.9, 12.3, 9.6]
""",
)
WINNIPEG = (
    49.9,
    """
[climate]
tmax_c = [-11.3, -8.1, -0.8, 10.9, 18.6, 23.2, 25.9, 25.4, 19.0, 10.5, -0.5, -8.5]
tmin_c = [-21.4, -18.3, -10.7, -2.0, 4.5, 10.7, 13.5, 12.1, 6.4, -0.5, -9.2, -17.8]
""",
)
UMEA = (
    63.8,
    """
[climate]
tmax_c = [-4.0, -3.5, 0.5, 5.5, 11.5, 16.5, 19.5, 18.0, 12.5, 6.5, 1.0, -2.5]
tmin_c = [-11.0, -10.5, -7.0, -2.0, 3.0, 8.5, 11.5, 10.0, 5.5, 0.5, -5.0, -9.0]
""",
)
HONNINGSVAG = (
    71.0,
    """
[climate]
tmax_c = [-1, -1.5, 0, 2.5, 6, 10, 13.5, 13, 9.5, 5, 2, 0]
tmin_c = [-5, -5.5, -4, -1.5, 2, 5.5, 8.5, 8.5, 6, 1.5, -1.5, -4]
""",
)
GRYTVIKEN = (
    -54.3,
    """
[climate]
tmax_c = [8.5, 9.5, 8.5, 5.5, 2.5, 0.5, 0.5, 1.0, 3.0, 5.0, 6.5, 7.5]
tmin_c = [1.0, 1.5, 0.5, -1.5, -4.0, -6.0, -6.5, -6.0, -4.0, -2.5, -1.0, 0.0]
""",
)
MIDDLING = 47.0, "normals"

PLANTS = plant("pear", "pear") + plant("apple", "apple") + plant("quince", "quince")


def at(folder: Path, place: tuple[float, str], notes: tuple[tuple[str, dt.date, str], ...] = ()) -> Almanac:
    latitude, climate = place
    return opened(folder, PLANTS, notes, climate, lat=latitude)


def width(almanac: Almanac, target: str) -> float:
    low, high = np.quantile(almanac.forecasts[target].first_open, (0.1, 0.9))
    return float(high - low)


def test_a_middling_climate_needs_no_word(tmp_path: Path) -> None:
    almanac = at(tmp_path, MIDDLING)
    assert almanac._seasons.now.outlook.beyond == ()
    assert almanac.forecasts["apple"].basis == "handbook"


def test_a_year_without_seasons_has_no_dates_and_says_so(tmp_path: Path) -> None:
    almanac = at(tmp_path, SINGAPORE)
    said = (
        "The year here has no winter to count from, so no date of bloom or picking is given "
        "until one is noted in flower: apple, pear, quince."
    )
    assert almanac._seasons.now.outlook.beyond == (said,)
    assert said in almanac.season().notes
    for forecast in almanac.forecasts.values():
        assert np.isinf(forecast.first_open).all()
        assert np.isinf(forecast.end).all()
        assert forecast.basis == "guess"
    assert [e for e in almanac.season().events if e.event == "first open"] == []


def test_own_notes_tell_where_nothing_else_does(tmp_path: Path) -> None:
    notes = tuple(same_days("apple", dt.date(2012, 2, 20), (2009, 2010, 2011)))
    almanac = at(tmp_path, SINGAPORE, notes)
    opens = float(np.median(almanac.forecasts["apple"].first_open))
    assert abs((almanac.axis.date(opens) - dt.date(2012, 2, 20)).days) <= 10
    (said,) = almanac._seasons.now.outlook.beyond
    assert said.endswith("no date of bloom or picking is given until one is noted in flower: pear, quince.")


def test_mild_winters_are_told_with_wider_ranges(tmp_path: Path) -> None:
    almanac, usual = at(tmp_path / "mild", SAN_DIEGO), at(tmp_path / "usual", MIDDLING)
    (said,) = almanac._seasons.now.outlook.beyond
    assert said == (
        "Winters here (mean 14 C) are milder than where these kinds were learnt, so their ranges are wider: "
        "apple, pear."
    )  # quinces want little chill
    for target in ("apple", "pear"):
        assert width(almanac, target) > 1.3 * width(usual, target)
        assert almanac.forecasts[target].basis == "guess"
    assert almanac.forecasts["apple"].chill_short == 1.0
    assert any("Winter chill may fall short" in note for note in almanac.season().notes)
    noted = at(
        tmp_path / "noted", SAN_DIEGO, tuple(same_days("apple", dt.date(2012, 3, 10), (2009, 2010, 2011)))
    )
    (said,) = noted._seasons.now.outlook.beyond
    assert said.endswith("ranges are wider: pear.")
    assert width(noted, "apple") < width(almanac, "apple")


def test_cool_summers_are_told_with_wider_ranges(tmp_path: Path) -> None:
    """At 71 N apples hardly flower (common knowledge): the range must tell how little is known of when."""
    almanac = at(tmp_path, HONNINGSVAG)
    (said,) = almanac._seasons.now.outlook.beyond
    assert said == (
        "Summers here (mean 10 C) are cooler than where these kinds were learnt, so their ranges are wider: "
        "apple, pear, quince."
    )
    assert said in almanac.season().notes
    for target in ("apple", "pear", "quince"):
        assert almanac.forecasts[target].basis == "guess"
        assert width(almanac, target) > 28


def test_summers_of_no_warmth_have_no_dates(tmp_path: Path) -> None:
    almanac = at(tmp_path, GRYTVIKEN)
    (said,) = almanac._seasons.now.outlook.beyond
    assert said.startswith("Winters (mean -3 C) and summers (mean 5 C) here are so far from those")
    assert np.isinf(almanac.forecasts["apple"].first_open).all()


def test_very_cold_winters_are_told_and_want_no_chill(tmp_path: Path) -> None:
    almanac = at(tmp_path, WINNIPEG)
    (said,) = almanac._seasons.now.outlook.beyond
    assert said == (
        "Winters here (mean -14 C) are colder than where these kinds were learnt, so their ranges are wider: "
        "apple, pear, quince."
    )
    assert almanac.forecasts["apple"].chill_short == 0.0
    assert not any("chill" in note for note in almanac.season().notes)
    opens = almanac.axis.date(float(np.median(almanac.forecasts["apple"].first_open)))
    assert dt.date(2012, 5, 10) <= opens <= dt.date(2012, 6, 5)


def test_a_cold_winter_within_what_was_learnt_needs_no_word(tmp_path: Path) -> None:
    almanac = at(tmp_path, UMEA)
    assert almanac._seasons.now.outlook.beyond == ()
    assert almanac.forecasts["apple"].chill_short == 0.0
    assert almanac.forecasts["apple"].basis == "handbook"


@pytest.mark.parametrize(("short", "variance"), [(None, 0.0), (0.0, 0.0), (0.5, 0.01), (1.0, SHORT_CHILL**2)])
def test_a_winter_short_of_chill_leaves_dates_less_sure(short: float | None, variance: float) -> None:
    assert short_chill_variance(short) == pytest.approx(variance)
