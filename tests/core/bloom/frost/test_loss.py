"""What frost takes over a season."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import astuple
from tests.samples.frost_years import MILD_C, forecast, weather

from leafturn.bloom.frost.bud_stages import BudDates, Hardiness
from leafturn.bloom.frost.loss import FrostLoss, crop_lost, frost_losses
from leafturn.bloom.frost.mortality import killed_share
from leafturn.bloom.model import BloomForecast
from leafturn.kinds.library import load_library
from leafturn.season.axis import AXIS_DAYS, SeasonAxis
from leafturn.season.ensemble import REPEATS

PEAR = load_library()[0].kinds["pear"]
OPENS, FULL = 180, 184


def loss(nights: dict[int, float], *, today: int = -1, pocket_c: float = 0.0) -> FrostLoss:
    """Of a pear that opens on day 180 in every draw."""
    tree = forecast(opens=OPENS)
    return frost_losses({"tree": tree}, {"tree": PEAR}, weather(nights, today=today), pocket_c)["tree"]


def test_a_night_at_the_printed_temperature_takes_a_tenth() -> None:
    """Pear in full bloom: 28 F a tenth, 24 F nine tenths (Penn State and Utah State extension, read)."""
    found = loss({FULL: -2.2})
    assert found.mean_share == pytest.approx(0.1, abs=1e-6)
    assert found.chance_of_a_tenth == 1.0
    assert found.worst_night == SeasonAxis(2027).date(FULL)
    assert loss({FULL: -4.4}).mean_share == pytest.approx(0.9, abs=1e-6)


def test_a_warmer_night_counts_for_nothing() -> None:
    found = loss({FULL: -2.1})
    assert (found.mean_share, found.chance_of_a_tenth, found.worst_night) == (0.0, 0.0, None)


@pytest.mark.parametrize("nights", [1, 2, 5])
def test_a_cold_spell_counts_once(nights: int) -> None:
    """Flowers that outlive the worst night of a spell outlive the others."""
    spell = loss({FULL: -3.0} | {FULL + n: -2.6 for n in range(1, nights)})
    assert spell.mean_share == pytest.approx(loss({FULL: -3.0}).mean_share, abs=1e-9)


def test_a_crop_is_whole_while_a_seventh_of_the_flowers_of_a_pear_live() -> None:
    """Pears may want only 10 to 15 % of their buds (Intermountain Fruit, Utah State Extension, read)."""
    half, ninety = loss({FULL: -3.3}), loss({FULL: -4.4})
    assert half.mean_share == pytest.approx(0.5, abs=0.01)
    assert (half.crop_lost, half.chance_of_a_third) == (0.0, 0.0)
    assert ninety.crop_lost == pytest.approx(1 - 0.1 / 0.15, abs=0.01)
    assert loss({FULL: -4.5}).chance_of_a_third == 1.0
    assert loss({FULL: -9.0}).crop_lost == pytest.approx(1.0, abs=0.01)


def test_of_kinds_that_do_not_overbear_crop_and_flowers_are_lost_alike() -> None:
    blueberry = load_library()[0].kinds["highbush blueberry"]
    found = frost_losses({"tree": forecast(opens=OPENS)}, {"tree": blueberry}, weather({FULL: -3.0}), 0.0)
    assert found["tree"].mean_share > 0.1
    assert found["tree"].crop_lost == pytest.approx(found["tree"].mean_share)


SHARES = st.floats(0, 1)


@given(SHARES, SHARES, st.floats(0.05, 1))
def test_the_crop_never_loses_more_than_the_flowers(one: float, other: float, needed: float) -> None:
    few, many = crop_lost(np.sort([one, other]), needed)
    assert 0.0 <= few <= many <= 1.0
    assert few <= min(one, other) + 1e-12
    assert crop_lost(np.array([0.0, 1.0]), needed).tolist() == [0.0, 1.0]


def test_the_stage_of_the_night_decides() -> None:
    at_minus_three = [loss({day: -3.0}).mean_share for day in (100, 160, OPENS + 1, FULL, 195, 215)]
    assert at_minus_three[0] == at_minus_three[1] == 0.0  # green and tight clusters bear it
    assert 0.1 < at_minus_three[2] < at_minus_three[3]
    assert at_minus_three[4] == pytest.approx(at_minus_three[3], abs=0.01)
    assert at_minus_three[5] == 0.0  # more than three weeks after petal fall


def test_a_frost_pocket_is_colder_than_the_station() -> None:
    assert loss({FULL: -1.2}).mean_share == 0.0
    assert loss({FULL: -1.2}, pocket_c=-1.0).mean_share == pytest.approx(0.1, abs=1e-6)


def test_nights_past_are_told_apart_from_nights_to_come() -> None:
    found = loss({OPENS + 1: -3.5, FULL + 2: -4.0}, today=OPENS + 2)
    first = loss({OPENS + 1: -3.5})
    assert found.share_so_far == pytest.approx(first.mean_share, abs=1e-6)
    assert found.mean_share > found.share_so_far
    assert loss({FULL: -3.0}).share_so_far == 0.0


def test_half_of_the_years_with_a_frost_make_an_even_chance() -> None:
    sky = weather()
    sky.now.tmin[0, FULL] = -3.0
    found = frost_losses({"tree": forecast(opens=OPENS)}, {"tree": PEAR}, sky, 0.0)["tree"]
    assert found.chance_of_a_tenth == 0.5


def test_what_does_not_flower_loses_nothing_and_what_is_unknown_is_not_told() -> None:
    hazel = load_library()[0].kinds["hazel"]
    forecasts = {"tree": forecast(opens=np.inf), "nut": forecast("nut")}
    found = frost_losses(forecasts, {"tree": PEAR, "nut": hazel}, weather({FULL: -9.0}), 0.0)
    assert set(found) == {"tree"}
    assert (found["tree"].mean_share, found["tree"].worst_night) == (0.0, None)


def test_how_sure_follows_the_tables() -> None:
    kinds = load_library()[0].kinds
    forecasts = {name: forecast(name) for name in ("pear", "myrobalan plum")}
    found = frost_losses(forecasts, {name: kinds[name] for name in forecasts}, weather(), 0.0)
    assert found["pear"].basis == "handbook"
    assert found["myrobalan plum"].basis == "guess"


NIGHTS = st.dictionaries(st.integers(120, 210), st.floats(-12, 4), max_size=12)


@given(NIGHTS, st.floats(0, 5))
@settings(max_examples=40, deadline=None)
def test_colder_never_loses_less(nights: dict[int, float], colder: float) -> None:
    """The same spring with all nights colder, buds no further on: the pocket moves nights, not the heat."""
    mild, hard = loss(nights), loss(nights, pocket_c=-colder)
    assert 0.0 <= mild.mean_share <= hard.mean_share + 1e-12 <= 1.0 + 1e-12
    assert mild.chance_of_a_tenth <= hard.chance_of_a_tenth
    assert mild.share_so_far <= hard.share_so_far + 1e-12
    assert 0.0 <= mild.crop_lost <= hard.crop_lost + 1e-12 <= 1.0 + 1e-12
    assert mild.crop_lost <= mild.mean_share + 1e-12


@pytest.mark.long
@given(st.integers(0, 2**32 - 1))
@settings(max_examples=15, deadline=None)
def test_against_a_plain_walk_through_every_night(seed: int) -> None:
    """The same sum, draw by draw and night by night, without tables or culling."""
    rng = np.random.default_rng(seed)
    members = 3
    minima = rng.normal(MILD_C - 6, 4, (members, AXIS_DAYS))
    sky = weather(tmin=minima.copy(), today=185)
    opens = rng.uniform(150, 200, members * REPEATS)
    tree = BloomForecast(plant="tree", first_open=opens, full=opens + 4, end=opens + 9)
    found = frost_losses({"tree": tree}, {"tree": PEAR}, sky, -0.5)["tree"]

    hardiness = Hardiness.of(PEAR)
    assert hardiness is not None
    places = BudDates([tree], PEAR, sky).place(np.arange(AXIS_DAYS)[None, :])[0].reshape(-1, AXIS_DAYS)
    losses = []
    for draw in range(members * REPEATS):
        worst = 0.0
        for day in range(AXIS_DAYS):
            night = minima[draw // REPEATS, day] - 0.5
            where = places[draw, day]
            tenth, nine_tenths = hardiness.at(where)
            if hardiness.first <= where <= 3.0 and night <= tenth:
                worst = max(worst, float(killed_share(night, tenth, nine_tenths)))
        losses.append(worst)
    # The program reads stages from a table of 128 steps a stage.
    assert found.mean_share == pytest.approx(np.mean(losses), abs=0.01)
    assert found.chance_of_a_tenth == pytest.approx(np.mean(np.array(losses) >= 0.1), abs=0.09)


def test_many_plants_are_reckoned_as_one_by_one() -> None:
    rng = np.random.default_rng(4)
    sky = weather(tmin=rng.normal(1, 4, (2, AXIS_DAYS)))
    trees = {f"tree-{i}": forecast(f"tree-{i}", opens=150.0 + i) for i in range(40)}
    together = frost_losses(trees, dict.fromkeys(trees, PEAR), sky, 0.0)
    assert list(together) == list(trees)
    for name in ("tree-0", "tree-17", "tree-39"):
        alone = frost_losses({name: trees[name]}, {name: PEAR}, sky, 0.0)[name]
        for one, other in zip(astuple(together[name]), astuple(alone), strict=True):
            np.testing.assert_equal(one, other)


def test_the_worst_night_is_a_date_of_the_season() -> None:
    found = loss({FULL: -2.5, FULL + 1: -3.5})
    assert found.worst_night == SeasonAxis(2027).date(FULL + 1)
    assert isinstance(found.worst_night, dt.date)
