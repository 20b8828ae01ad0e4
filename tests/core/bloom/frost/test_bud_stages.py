"""Stages of buds and the cold they bear."""

from __future__ import annotations

import math

import msgspec
import numpy as np
import pytest
from tests.samples.frost_years import forecast, weather

from leafturn.bloom.frost.bud_stages import LAST, BudDates, Hardiness, places_of
from leafturn.bloom.priors.response import FIRST_DAY, day_reached, level_at
from leafturn.bloom.priors.stated import (
    YEARS,
    Climate,
    level_of,
    made_up_climate,
    reference,
    stated_prior,
    timing_of,
)
from leafturn.kinds.library import Library, load_library
from leafturn.kinds.model import FROST_STAGES, Fact, FrostFacts, Kind
from leafturn.season.ensemble import REPEATS


@pytest.fixture(scope="module")
def library() -> Library:
    return load_library()[0]


def hardiness(kind: Kind) -> Hardiness:
    found = Hardiness.of(kind)
    assert found is not None
    return found


def place(day: int, **dates: float) -> float:
    """The place of a pear on a morning."""
    kind = load_library()[0].kinds["pear"]
    found = BudDates([forecast(**dates)], kind, weather()).place(np.array([[day]]))
    assert found.shape == (1, 2, REPEATS, 1)
    return float(found[0, 0, 0, 0])


def test_stages_come_in_order_for_every_kind(library: Library) -> None:
    for kind in library.kinds.values():
        places = list(places_of(kind).values())
        assert tuple(places_of(kind)) == FROST_STAGES
        assert places == sorted(places), kind.name
        assert places[0] > -1, kind.name
        assert places[-1] < LAST, kind.name


# Monthly means from memory: Kentville, Nova Scotia, and the Connecticut valley of Massachusetts.
KENTVILLE = made_up_climate(
    45.07,
    (-0.8, -0.1, 4.2, 10.6, 17.2, 22.6, 25.6, 25.1, 20.7, 13.9, 7.9, 2.4),
    (-9.7, -8.9, -4.7, 0.6, 5.8, 10.9, 14.4, 14.0, 9.6, 4.3, 0.2, -5.3),
)
MASSACHUSETTS = made_up_climate(
    42.3,
    (1.0, 3.2, 7.8, 14.9, 21.0, 25.8, 28.3, 27.3, 23.0, 16.4, 10.2, 3.9),
    (-9.9, -8.6, -4.2, 1.6, 7.0, 12.3, 15.0, 14.1, 9.8, 3.5, -0.6, -6.2),
)


def heat_at(stage: str, apple: Kind, climate: Climate, base: float) -> float:
    """Degree-days C above a base, from 1 January, on the day an apple comes to a stage; median of years."""
    prior = stated_prior(apple)
    assert prior is not None
    level = prior.at(climate.winter).levels.middle + math.log(1 + places_of(apple)[stage])
    days = np.rint(day_reached(climate.sums(prior.response), np.full(YEARS, level))).astype(int)
    return float(np.median(climate.heat(base, "season")[np.arange(YEARS), days - FIRST_DAY]))


def test_apple_stages_against_published_heat(library: Library) -> None:
    """Degree-days from 1 January, reached in the climates of those who published them.

    Green tip lies at the share of the warmth that those degree-days come to at the reference climate.

    Green tip of apple at Kentville, Nova Scotia: mean 81.9 C d above 5, give or take 4 days (read).
    McIntosh, UMass Extension Healthy Fruit 2018 and 2019 (read): green tip 100-120, tight cluster 204-257,
    pink 267-316 F d above 43.
    """
    apple = library.kinds["apple"]
    assert heat_at("green_tip", apple, KENTVILLE, 5.0) == pytest.approx(81.9, abs=4 * 5)  # five a day then
    published = {"green_tip": (100, 120), "tight_cluster": (204, 257), "pink": (267, 316)}
    for stage, (low, high) in published.items():
        assert low < 1.8 * heat_at(stage, apple, MASSACHUSETTS, (43 - 32) / 1.8) < high, stage


def test_shoots_of_vines_are_out_when_the_vine_comes_into_leaf(library: Library) -> None:
    kiwi = library.kinds["hardy kiwi"]
    leaf, need = kiwi.leaf.out_heat, kiwi.bloom.first_open_heat
    assert leaf is not None
    assert need is not None
    climate, timing = reference(), timing_of(kiwi)
    out = [np.count_nonzero(year < leaf.value) + FIRST_DAY for year in climate.heat(5.0, "season")]
    had, _ = level_at(climate.sums(timing), np.array(out))
    share = math.exp(float(np.median(had)) - level_of(timing, need.value)[0])
    assert 1 + places_of(kiwi)["green_tip"] == pytest.approx(share)
    assert hardiness(kiwi).words("green_tip") == "young shoots"
    assert hardiness(library.kinds["pear"]).words("green_tip") == "green tip"


def test_places_before_bloom_are_shares_of_warmth() -> None:
    warmth = weather().warmth.on_axis(timing_of(load_library()[0].kinds["pear"]))[0]
    # What a morning has had was there by the evening before; the buds open on day 161.
    assert place(0, opens=161) == -1.0
    for morning in (61, 111, 150, 161):
        assert place(morning, opens=161) == pytest.approx(warmth[morning - 1] / warmth[161] - 1)
    assert -0.1 < place(161, opens=161) < 0.0  # in the morning not quite open
    assert place(162, opens=161) == pytest.approx(0.25)


def test_places_from_bloom_on_are_shares_of_days() -> None:
    assert place(182) == pytest.approx(0.5)
    assert place(184) == pytest.approx(1.0)
    assert place(186) == pytest.approx(1.5)
    assert place(188) == pytest.approx(2.0)
    assert place(195) == pytest.approx(2 + 7 / 21)
    assert place(209) == pytest.approx(LAST)


def test_what_does_not_flower_has_no_place() -> None:
    assert np.isnan(place(180, opens=np.inf))


def test_notes_that_contradict_one_another_are_withstood() -> None:
    assert place(181, opens=180, full=-3, end=-5) >= 2.0


def test_temperatures_lie_on_the_line_between_stages(library: Library) -> None:
    # Pear, first bloom 27/23 F, full bloom 28/24 F (Penn State and Utah State extension, read).
    tenth, nine_tenths = hardiness(library.kinds["pear"]).at(0.5)
    assert tenth == pytest.approx((27.5 - 32) / 1.8, abs=0.06)
    assert nine_tenths == pytest.approx((23.5 - 32) / 1.8, abs=0.06)


def test_one_stage_known_serves_from_first_open_on() -> None:
    kind = msgspec.structs.replace(
        load_library()[0].kinds["hazel"], frost=FrostFacts(full_bloom=Fact((-3.0, -6.0), "own", "fair"))
    )
    found = hardiness(kind)
    assert (found.first, found.basis) == (0.0, "handbook")
    tenth, _ = found.at(np.array([-0.5, 0.0, 1.0, 2.5]))
    assert tenth.tolist() == [-3.0] * 4
    assert found.tells(np.array([-0.01, 0.0, 3.0, 3.01, np.nan])).tolist() == [
        False,
        True,
        True,
        False,
        False,
    ]


@pytest.mark.parametrize("value", [(float("nan"), -5.0), (-2.0, float("inf")), (500.0, 400.0)])
def test_values_that_are_no_temperatures_are_left_out(value: tuple[float, float]) -> None:
    pear = load_library()[0].kinds["pear"]
    spoilt = msgspec.structs.replace(pear, frost=FrostFacts(full_bloom=Fact(value, "own", "fair")))
    assert Hardiness.of(spoilt) is None


def test_kinds_without_a_table_have_no_hardiness(library: Library) -> None:
    assert Hardiness.of(library.kinds["hazel"]) is None
    assert Hardiness.of(library.match("unheard-of vine").kind) is None
