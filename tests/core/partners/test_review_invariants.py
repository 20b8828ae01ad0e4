"""What must hold in every garden."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from msgspec.structs import replace as with_changes
from tests.samples.partners import (
    APPLE,
    ELDER,
    HAZEL,
    HEARTNUT,
    KIWI,
    PAWPAW,
    PEAR,
    YEAR,
    bloom,
    garden,
    plant,
    reviewed,
)

from leafturn.garden.model import Neighbour, Point

FEW = settings(max_examples=40, deadline=None)
NAMES = {
    "pear": ("Comice", "Bartlett", "Seckel", "Bosc", "Red Comice"),
    "apple": ("Boskoop", "Discovery", "Cox"),
    "hazel": ("Barcelona", "Jefferson", "Hall's Giant"),
}


@st.composite
def plants(draw, number):
    of = draw(st.sampled_from([PEAR, APPLE, HAZEL, KIWI, HEARTNUT, PAWPAW, ELDER]))
    placed = draw(st.booleans()) or draw(st.booleans())
    return plant(
        f"p{number}", of,
        draw(st.floats(-60, 60)) if placed else None, draw(st.floats(-60, 60)),
        year=draw(st.sampled_from([None, 2005, 2020, 2024])),
        cultivar=draw(st.sampled_from((None, "Mill", *NAMES.get(of.name, ())))),
        raised=draw(st.sampled_from([None, "seedling"])),
        sex=draw(st.sampled_from(["female", "male", None])) if of is KIWI else None,
        flower_order=draw(st.sampled_from(["female first", "male first", None])) if of is HEARTNUT else None,
        count=draw(st.sampled_from([1, 1, 3])),
        also_bears=draw(st.sampled_from([(), (), ("Bosc",)])) if of is PEAR else (),
    )  # fmt: skip


@st.composite
def gardens(draw):
    these = [draw(plants(n)) for n in range(draw(st.integers(1, 7)))]
    near = [Neighbour(kind="hazel", how_far_m=draw(st.floats(0, 200)))] if draw(st.booleans()) else []
    return garden(*these, neighbours=near)


@st.composite
def forecasts_of(draw, a_garden):
    return {
        p.id: bloom(p.id, draw(st.floats(150, 190)), draw(st.floats(4, 20)), seed=n, draws=24)
        for n, p in enumerate(a_garden.plants)
        if draw(st.integers(0, 9))
    }


def review(a_garden, forecasts, **more):
    return {r.plant: r for r in reviewed(a_garden, forecasts, **more).trees}


@FEW
@given(st.data())
def test_every_figure_is_a_chance_in_its_range_and_the_whole_one_less_the_product_of_the_failures(data):
    here = data.draw(gardens())
    for r in review(here, data.draw(forecasts_of(here))).values():
        assert 0 <= r.low <= r.adequacy + 1e-12
        assert r.adequacy <= r.high + 1e-12 <= 1 + 2e-12
        for p in r.partners:
            assert 0 <= p.low <= p.chance + 1e-12 <= p.high + 2e-12 <= 1 + 3e-12
            product = p.compatible * p.flowering * p.overlap * p.nearness * p.pollen
            assert p.chance == pytest.approx(product)
        strengths = [p.chance for p in r.partners[:6]]
        assert strengths == sorted(strengths, reverse=True)
        assert r.weakest or r.standing == "needs none"
        assert all(0 <= f.adequacy <= 1 and f.year >= YEAR for f in r.remedies)
        # the rule itself, by hand, wherever all partners are listed
        if r.standing != "needs none" and len(r.partners) < 6:
            fails = 1 - (0.4 if r.kind == "elderberry" else 0.0)
            for p in r.partners:
                fails *= 1 - p.chance
            assert r.adequacy == pytest.approx((1 - fails) * r.flowers)


@FEW
@given(st.floats(0, 40), st.floats(0, 40), st.sampled_from(["Bosc", "Bartlett", "Seckel"]))
def test_a_compatible_partner_helps_and_a_clone_never_does(east, north, name):
    comice = plant("c", PEAR, 0, 0, cultivar="Comice")
    alone = garden(comice)
    forecasts = {i: bloom(i, 170, seed=n) for n, i in enumerate("cxy")}
    before = review(alone, forecasts)["c"].adequacy
    helped = review(garden(comice, plant("x", PEAR, east, north, cultivar=name)), forecasts)["c"]
    assert helped.adequacy > before
    both = garden(
        comice, plant("x", PEAR, east, north, cultivar=name), plant("y", PEAR, 1, 1, cultivar="Red Comice")
    )
    assert review(both, forecasts)["c"].adequacy == pytest.approx(helped.adequacy)


@pytest.mark.long
@FEW
@given(st.data())
def test_a_partner_moved_nearer_never_lowers_it(data):
    here = data.draw(gardens())
    of = data.draw(st.sampled_from([PEAR, APPLE, HAZEL, ELDER]))
    recipient, donor = plant("taker", of, 0, 0), plant("giver", of, 100, 0, raised="seedling")
    forecasts = data.draw(forecasts_of(here)) | {
        i: bloom(i, 170, seed=99, draws=24) for i in ("taker", "giver")
    }
    far, near = sorted((data.draw(st.floats(0, 120)), data.draw(st.floats(0, 120))), reverse=True)

    def at(metres):
        moved = with_changes(donor, point=Point(metres, 0.0))
        r = review(garden(*here.plants, recipient, moved, neighbours=here.neighbours), forecasts)["taker"]
        return r.low, r.adequacy, r.high

    for nearer, farther in zip(at(near), at(far), strict=True):
        assert nearer >= farther - 1e-12


@FEW
@given(st.data(), st.integers(-30, 30))
def test_a_season_early_or_late_for_all_changes_nothing(data, days):
    here = data.draw(gardens())
    forecasts = data.draw(forecasts_of(here))
    moved = {
        i: replace(f, first_open=f.first_open + days, full=f.full + days, end=f.end + days)
        for i, f in forecasts.items()
    }
    before, after = review(here, forecasts), review(here, moved)
    for i, r in before.items():
        assert after[i].adequacy == pytest.approx(r.adequacy, abs=1e-4)
        at_a_limit = min(abs(r.adequacy - 0.15), abs(r.adequacy - 0.45)) < 1e-3
        assert after[i].standing == r.standing or at_a_limit


@pytest.mark.long
@FEW
@given(st.data())
def test_the_order_of_the_file_does_not_matter(data):
    here = data.draw(gardens())
    forecasts = data.draw(forecasts_of(here))
    turned = garden(*reversed(here.plants), neighbours=here.neighbours)
    before, after = review(here, forecasts), review(turned, forecasts)
    assert set(before) == set(after)
    placed = all(p.point is not None for p in here.plants) and all(p.id in forecasts for p in here.plants)
    for i in before if placed and not here.neighbours else ():
        assert after[i].adequacy == pytest.approx(before[i].adequacy)
