"""The review of whole gardens, on hand-made kinds."""

from __future__ import annotations

import datetime as dt
import re

import numpy as np
import pytest
from msgspec.structs import replace
from tests.samples.partners import (
    APPLE,
    ELDER,
    EUROPEAN_PLUM,
    HAZEL,
    HEARTNUT,
    KIWI,
    LIBRARY,
    MYROBALAN,
    OAK,
    PAWPAW,
    PEAR,
    QUINCE,
    YEAR,
    a_day,
    bloom,
    blooms,
    garden,
    plant,
    reviewed,
)

from leafturn.garden.model import Neighbour, Point
from leafturn.kinds.specimen import Specimen
from leafturn.partners.bloom_overlap.flowering_age import flowering_age, flowering_chance
from leafturn.partners.chance.cross_groups import chances_of_flowering
from leafturn.partners.flowering_season import FloweringSeason
from leafturn.partners.observations import ObservedBloom
from leafturn.partners.reading_order import reading_order

COMICE_1 = plant("comice-1", PEAR, 0, -14, year=2011, cultivar="Comice", rootstock="quince A")
COMICE_2 = plant("comice-2", PEAR, 6, -14, year=2012, cultivar="Comice", rootstock="quince A")
NEW_PEAR = plant("new-pear", PEAR, 0, -23, year=2023, cultivar="Bartlett", rootstock="seedling")


def review(a_garden, year=YEAR, forecasts=None, **more):
    forecasts = blooms(a_garden) if forecasts is None else forecasts
    return {r.plant: r for r in reviewed(a_garden, forecasts, year, **more).trees}


def test_two_of_one_clone_lack_a_partner_and_are_named_with_the_young_tree_and_its_year():
    pears = garden(COMICE_1, COMICE_2, NEW_PEAR)
    first = review(pears)["comice-1"]
    assert first.standing == "lacks"
    assert first.adequacy < 0.05
    assert first.weakest == "comice-2 is the same clone (Comice), 6 m away; new-pear flowers about 2030"
    assert {p.plant: p.compatible for p in first.partners} == {"new-pear": 1.0, "comice-2": 0.0}
    chances = dict(first.by_year)
    assert chances[2027] < 0.05
    assert chances[2030] == pytest.approx(0.5, abs=0.08), "half of such trees flower by then"
    assert chances[2032] > 0.45, "own prototype 0.53"


def test_another_cultivar_instead_of_the_clone_serves_both():
    pears = garden(COMICE_1, plant("bosc", PEAR, 6, -14, year=2012, cultivar="Bosc"), NEW_PEAR)
    found = review(pears)
    assert found["comice-1"].standing == found["bosc"].standing == "served"
    assert found["comice-1"].weakest == "bosc, 6 m"
    assert found["comice-1"].reasons[0] == (
        "bosc (Bosc), 6 m away, gives most: pollen on 12 of the 12 days that count, enough nearly always."
    )
    assert found["comice-1"].remedies == ()


def test_a_male_too_young_and_too_far_is_said_with_both_numbers():
    kiwis = garden(
        plant("kiwi-f1", KIWI, -4, 40, year=2016, sex="female"),
        plant("kiwi-m", KIWI, -9, 2, year=2025, sex="male"),
    )
    found = review(kiwis)
    assert set(found) == {"kiwi-f1"}, "males are not reviewed"
    assert found["kiwi-f1"].weakest == "kiwi-m is 2 years old and 38 m off"
    assert found["kiwi-f1"].adequacy < 0.005
    assert found["kiwi-f1"].needs == "a male hardy kiwi"
    assert dict(found["kiwi-f1"].by_year)[2030] == pytest.approx(0.02, abs=0.02), "far beyond its reach"


def test_no_male_at_all():
    found = review(garden(plant("f", KIWI, 0, 0, sex="female"), plant("g", KIWI, 5, 0, sex="female")))
    assert found["f"].adequacy == found["f"].high == 0
    assert found["f"].weakest == "g is female too, 5 m away"


def test_one_male_is_shared_out_over_its_females():
    few = [plant(f"f{n}", KIWI, n, 0, sex="female") for n in range(4)]
    many = [plant(f"f{n}", KIWI, n % 5, n // 5, sex="female") for n in range(24)]
    male = plant("m", KIWI, 2, 0, sex="male")
    assert review(garden(*few, male))["f2"].partners[0].pollen == 1.0
    shared = review(garden(*many, male))["f2"].partners[0]
    assert shared.pollen == pytest.approx(8 / 24, rel=0.15)
    assert any(re.search(r"about 2[234] females; 8 is the most", reason) for reason in shared.reasons)
    two = review(garden(*many, male, plant("n", KIWI, 3, 0, sex="male")))["f2"]
    assert two.partners[0].pollen == pytest.approx(16 / 24, rel=0.15)


def test_hazels_serve_one_way():
    hazels = garden(
        plant("hazel-b", HAZEL, -6, 33, year=2012, cultivar="Barcelona"),
        plant("hazel-j", HAZEL, 0, 31, year=2015, cultivar="Jefferson"),
    )
    found = review(hazels)
    assert found["hazel-b"].standing == "served"
    assert found["hazel-j"].adequacy == 0
    assert (
        found["hazel-j"].weakest
        == "hazel-b shares S1 with it, so its pollen is refused, though hazel-j serves hazel-b"
    )


def test_a_hazel_in_a_neighbours_hedge_raises_the_chance_a_little_and_widens_it():
    plants = (
        plant("hazel-b", HAZEL, -6, 33, year=2012, cultivar="Barcelona"),
        plant("hazel-j", HAZEL, 0, 31, year=2015, cultivar="Jefferson"),
        plant("hazel-new", HAZEL, -12, 36, year=2024, cultivar="Hall's Giant"),
    )
    before = review(garden(*plants))["hazel-j"]
    after = review(garden(*plants, neighbours=[Neighbour(kind="hazel", how_far_m=60)]))["hazel-j"]
    assert 0.005 < after.adequacy - before.adequacy < 0.25
    assert after.high - after.low > before.high - before.low
    assert "the neighbour's hazel" in {p.plant for p in after.partners}


def test_a_triploid_takes_and_does_not_give():
    apples = garden(
        plant("boskoop", APPLE, 0, 16, cultivar="Boskoop"),
        plant("small-apple", APPLE, 0, 0, cultivar="Discovery"),
    )
    found = review(apples)
    assert found["small-apple"].adequacy < 0.06
    assert found["small-apple"].weakest == "boskoop is triploid: its pollen is poor"
    assert found["boskoop"].adequacy > 0.4


def test_two_plums_that_do_not_cross_are_told_apart():
    plums = garden(
        plant("old-plum", EUROPEAN_PLUM, -13, -14, cultivar="Mill"), plant("early-plum", MYROBALAN, -7, -7)
    )
    forecasts = {"old-plum": bloom("old-plum", 168), "early-plum": bloom("early-plum", 150)}
    found = review(plums, forecasts=forecasts)
    assert found["early-plum"].weakest == (
        "no second myrobalan plum stands here; old-plum is a european plum, "
        "which does not cross with myrobalan plum, and flowers 18 days later"
    )
    assert found["early-plum"].adequacy == 0


def test_nuts_of_one_order_miss_each_other():
    def nuts(order):
        return garden(
            plant("old", HEARTNUT, 0, 0, flower_order="female first"),
            plant("other", HEARTNUT, 5, 0, raised="seedling", flower_order=order),
        )

    served, missed, unknown = (review(nuts(order))["old"] for order in ("male first", "female first", None))
    assert served.adequacy > 0.8
    assert missed.adequacy == 0
    assert "other is female first too" in missed.weakest
    assert unknown.low < 0.01 < unknown.adequacy < unknown.high
    assert served.needs == "a male-first heartnut"


def test_what_fruits_alone_needs_none_and_what_bears_no_fruit_is_left_out():
    found = review(garden(plant("quince", QUINCE, 0, 0), plant("oak", OAK, 5, 5)))
    assert set(found) == {"quince"}
    assert found["quince"].standing == "needs none"
    assert found["quince"].adequacy == pytest.approx(1, abs=1e-3)


def test_a_partly_self_fertile_shrub_has_its_own_share():
    found = review(garden(plant("elder", ELDER, 0, 0)))["elder"]
    assert found.adequacy == pytest.approx(0.4, abs=1e-3)
    assert found.standing == "thin"
    assert any("alone sets about 40 %" in reason for reason in found.reasons)


def test_a_lone_tree_and_a_far_one():
    alone = review(garden(plant("p", PAWPAW, 0, 0)))["p"]
    assert (alone.standing, alone.weakest) == ("lacks", "no second pawpaw stands here")
    far = review(garden(plant("p", PAWPAW, 0, 0), plant("q", PAWPAW, 90, 0)))["p"]
    assert far.weakest == "no other pawpaw within 32 m; the nearest, q, is 90 m off"


def test_the_dead_give_nothing_and_are_not_reviewed():
    dead = plant("bosc", PEAR, 6, -14, cultivar="Bosc", state="dead standing")
    assert review(garden(COMICE_1, dead))["comice-1"].adequacy == 0
    assert "bosc" not in review(garden(COMICE_1, dead))


def test_a_plant_still_to_be_planted_is_not_reviewed_and_gives_nothing():
    to_come = plant("bosc", PEAR, 3, -14, cultivar="Bosc", year=YEAR + 1)
    alone, beside = review(garden(COMICE_1)), review(garden(COMICE_1, to_come))
    assert set(beside) == {"comice-1"}
    assert beside["comice-1"].adequacy == alone["comice-1"].adequacy
    assert chances_of_flowering(a_day(garden(to_come)), FloweringSeason(year=YEAR)) == {"bosc": 0.0}


def test_a_family_tree_is_its_own_partner():
    tree = plant("comice-1", PEAR, 0, 0, cultivar="Comice", also_bears=("Bosc",))
    found = review(garden(tree))["comice-1"]
    assert found.standing == "served"
    assert found.weakest == "its own Bosc branch"
    other = plant("bosc-2", PEAR, 5, 0, cultivar="Bosc")
    assert review(garden(tree, other))["bosc-2"].partners[0].compatible == 1.0, "by its Comice crown"


def test_seedlings_entered_together_serve_one_another():
    together = plant("pawpaws", PAWPAW, 0, 0, count=5, raised="seedling", year=2010)
    found = review(garden(together))["pawpaws"]
    assert found.standing == "served"
    assert found.weakest == "another planted with it"
    clones = plant("comices", PEAR, 0, 0, count=5, cultivar="Comice")
    assert review(garden(clones))["comices"].adequacy == 0


def test_places_not_given_leave_it_wide_and_said():
    found = review(garden(plant("a", PEAR, cultivar="Comice"), plant("b", PEAR, cultivar="Bosc")))["a"]
    assert found.low == 0
    assert found.high > 0.9
    assert found.partners[0].metres is None
    assert found.guessed
    assert any("place of a is not given" in reason for reason in found.reasons)


def test_no_forecast_leaves_it_wide_and_marked():
    found = review(garden(COMICE_1, plant("bosc", PEAR, 3, -14, cultivar="Bosc")), forecasts={})["comice-1"]
    assert found.guessed
    assert found.low == 0
    assert found.high > 0.8
    assert found.remedies == ()


def test_flowers_noted_settle_the_age():
    pears = garden(COMICE_1, NEW_PEAR)
    assert review(pears)["comice-1"].standing == "lacks"
    assert review(pears, first_bloom={"new-pear": 2026})["comice-1"].standing == "served"
    none = review(
        garden(COMICE_1, plant("bosc", PEAR, 3, -14, cultivar="Bosc")), no_bloom={"bosc": frozenset({2027})}
    )
    assert none["comice-1"].adequacy == 0
    assert none["comice-1"].weakest == "bosc was noted without flowers"


def test_the_stewards_rules_move_the_limits():
    pears = garden(COMICE_1, NEW_PEAR)
    assert (
        review(pears, rules={"partner_lacks_below": 0.0, "partner_thin_below": 0.01})["comice-1"].standing
        == "served"
    )
    apples = garden(plant("a", APPLE, 0, 0, cultivar="Cox"), plant("b", APPLE, 40, 0, cultivar="Discovery"))
    near, far = review(apples, rules={"partner_half_metres_insect": 80}), review(apples)
    assert near["a"].adequacy > far["a"].adequacy


def test_what_frost_takes_is_passed_on():
    both = garden(COMICE_1, plant("quince", QUINCE, 9, 9))
    found = review(both, frost_loss={"comice-1": 0.2, "quince": 0.1})
    assert found["comice-1"].frost_loss_chance == 0.2
    assert found["quince"].frost_loss_chance == 0.1


def test_fixes_come_with_a_year_and_a_chance():
    pears = garden(COMICE_1, COMICE_2, NEW_PEAR)
    remedies = {f.way: f for f in review(pears)["comice-1"].remedies}
    borrow, wait, graft = remedies["borrow"], remedies["wait"], remedies["graft"]
    assert borrow.what == "borrow pollen of a pear, such as Bartlett or Bosc, about 20 Apr to 2 May"
    assert (borrow.first_day, borrow.last_day) == (dt.date(2027, 4, 20), dt.date(2027, 5, 2))
    assert (borrow.year, borrow.guess) == (2027, True)
    assert borrow.adequacy == pytest.approx(0.61, abs=0.02)
    assert wait.what == "wait until 2030: new-pear comes to flower"
    assert wait.adequacy == pytest.approx(dict(review(pears)["comice-1"].by_year)[2030])
    assert graft.year == 2029
    assert graft.what == "graft a branch of Bartlett or Bosc onto comice-1"
    assert [f.year for f in review(pears)["comice-1"].remedies] == sorted(f.year for f in remedies.values())
    assert all(f.effort for f in remedies.values())


def test_nobody_is_sent_up_a_failing_tree_for_pollen_or_a_graft():
    """What is about to fall is left to qualified tree workers (common practice, no source)."""
    for state, climbed in (("well", {"borrow", "graft"}), ("declining", set())):
        old = plant("old-pear", PEAR, 0, 0, year=1940, cultivar="Comice", state=state)
        ways = {f.way for f in review(garden(old, NEW_PEAR))["old-pear"].remedies}
        assert ways & {"borrow", "graft"} == climbed


def test_pollen_is_borrowed_next_season_once_this_ones_days_are_past():
    found = review(garden(COMICE_1, COMICE_2), today=dt.date(2027, 6, 1))["comice-1"]
    borrow = next(f for f in found.remedies if f.way == "borrow")
    assert (borrow.year, borrow.first_day) == (2028, None)
    assert borrow.what.endswith("next season")


def test_a_young_male_may_be_moved_and_a_male_branch_grafted():
    kiwis = garden(
        plant("kiwi-f1", KIWI, -4, 40, year=2016, sex="female"),
        plant("kiwi-m", KIWI, -9, 2, year=2025, sex="male"),
    )
    remedies = {f.way: f for f in review(kiwis)["kiwi-f1"].remedies}
    assert remedies["move"].what == "move kiwi-m to 2 m north of kiwi-f1"
    assert remedies["move"].year > 2027
    assert "wait" not in remedies, "grown up but as far away he serves one flower in twelve"
    assert remedies["move"].adequacy > dict(review(kiwis)["kiwi-f1"].by_year)[2035]
    assert remedies["graft"].what == "graft a male branch onto kiwi-f1"
    assert remedies["graft"].adequacy == pytest.approx(0.68, abs=0.1), "own prototype 0.68"
    old = garden(kiwis.plants[0], plant("kiwi-m", KIWI, -9, 2, year=2015, sex="male"))
    assert "move" not in {f.way for f in review(old)["kiwi-f1"].remedies}, "an old vine stays"


def test_the_southern_season_gives_southern_dates():
    pears = garden(COMICE_1, COMICE_2, lat=-43.4)
    borrow = next(f for f in review(pears)["comice-1"].remedies if f.way == "borrow")
    assert borrow.first_day.month == 10


def test_a_plant_that_never_opens_this_season_gives_nothing():
    pears = garden(COMICE_1, plant("bosc", PEAR, 3, -14, cultivar="Bosc"))
    forecasts = blooms(pears) | {"bosc": bloom("bosc", np.inf)}
    assert review(pears, forecasts=forecasts)["comice-1"].adequacy == 0


def test_chances_of_flowering_of_all_plants_agree_with_those_one_by_one():
    pears = garden(COMICE_1, COMICE_2, NEW_PEAR, plant("k", KIWI, year=None))
    together = chances_of_flowering(
        a_day(pears), FloweringSeason(year=YEAR, observed=ObservedBloom(first={"comice-2": 2020}))
    )
    assert together["comice-2"] == 1.0
    for p, of in ((COMICE_1, PEAR), (NEW_PEAR, PEAR)):
        one = flowering_chance(p, flowering_age(Specimen(p, of, LIBRARY)), np.array([YEAR]))
        assert together[p.id] == one[1, 0]
    assert together["k"] == 0.75


def test_an_empty_garden():
    assert review(garden()) == {}


def test_a_neighbours_tree_with_a_place_counts_from_each_tree_by_its_own_distance_and_wind():
    """Downwind of the neighbour's hazel the pollen goes further than upwind of it."""
    east, west = (plant(i, HAZEL, x, 0, year=2012, cultivar="Barcelona") for i, x in (("e", 30), ("w", -30)))
    hedge = Neighbour(kind="hazel", how_far_m=30, point=Point(0.0, 0.0))
    still = garden(east, west, neighbours=[hedge])
    calm = review(still)
    blown = review(replace(still, place=replace(still.place, wind_from="W")))
    assert calm["e"].adequacy == pytest.approx(calm["w"].adequacy)
    assert blown["e"].adequacy > calm["e"].adequacy
    assert blown["e"].adequacy > blown["w"].adequacy


def test_the_trees_that_can_be_helped_this_year_are_read_first():
    trees = garden(
        plant("quince", QUINCE, 0, 60, year=2010),
        plant("served-1", HAZEL, 0, 0, year=2010, cultivar="Barcelona"),
        plant("served-2", HAZEL, 4, 0, year=2010, cultivar="Hall's Giant"),
        plant("not-in-flower", PAWPAW, 0, 30, year=2026),
        plant("in-flower", PEAR, 0, 300, year=2005, cultivar="Comice"),
    )
    order = reading_order(tuple(review(trees).values()), 2027)
    places = {r.plant: n for n, r in enumerate(order)}
    assert places["in-flower"] < places["not-in-flower"] < places["served-1"] < places["quince"]
