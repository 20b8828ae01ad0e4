"""Speed of the partner review on 2,000 plants, against the same figures worked out pair by pair."""

from __future__ import annotations

import tracemalloc

import numpy as np
import pytest
from tests.bench.timing import seconds
from tests.samples.frost_years import OWN_RECORD
from tests.samples.partners import reviewed

from leafturn.base.tunables import USUAL
from leafturn.bloom.model import BloomForecast
from leafturn.garden.model import Garden, Place, Plant, Point
from leafturn.kinds.library import load_library
from leafturn.kinds.specimen import Specimen
from leafturn.partners.bloom_overlap.flowering_age import flowering_age, flowering_chance
from leafturn.partners.distance.pollen_distance import half_metres
from leafturn.partners.genetics.compatibility import judge
from leafturn.partners.genetics.genotype import genotype_of
from leafturn.partners.genetics.self_fertility import self_share
from leafturn.season.axis import SeasonAxis
from leafturn.season.ensemble import Ensemble

pytestmark = pytest.mark.bench

YEAR, PLANTS, DRAWS = 2027, 2000, 240
FRUITING = (
    "apple", "pear", "hazel", "sweet cherry", "european plum", "pawpaw", "american persimmon",
    "sweet chestnut", "quince", "redcurrant", "elderberry", "honeyberry", "grape", "medlar",
    "raspberry", "comfrey", "goumi",
    "grey alder", "rhubarb", "black currant",
)  # fmt: skip


def large_garden(number=PLANTS):
    """Plants of twenty kinds at about one for ten square metres, every second with a cultivar."""
    random = np.random.default_rng(11)
    library, _ = load_library()
    plants, forecasts = [], {}
    seasons = np.repeat(random.normal(0, 8, DRAWS // 8), 8)
    side = (10 * number) ** 0.5
    for n in range(number):
        kind = library.match(FRUITING[n % len(FRUITING)]).kind
        names = list(kind.cultivars)
        plants.append(
            Plant(
                id=f"p{n}", kind=kind.name, year=int(random.integers(1995, 2026)),
                cultivar=names[random.integers(len(names))] if names and n % 2 else None,
                point=Point(*random.uniform(0, side, 2)),
            )
        )  # fmt: skip
        start = 165 + (n % len(FRUITING)) * 3 + seasons + random.normal(0, 2, DRAWS)
        forecasts[f"p{n}"] = BloomForecast(plant=f"p{n}", first_open=start, full=start + 4, end=start + 10)
    return Garden(place=Place(lat=47, lon=15), plants=tuple(plants)), library, forecasts


def pair_by_pair(garden, library, forecasts, wanted):
    """The same rule in a plain loop over plants and draws, for the plants in `wanted`."""
    kinds = {p.id: library.match(p.kind).kind for p in garden.plants}
    genotypes = {p.id: genotype_of(Specimen(p, kinds[p.id], library)) for p in garden.plants}
    flowers = {}
    for p in garden.plants:
        facts = flowering_age(Specimen(p, kinds[p.id], library))
        flowers[p.id] = flowering_chance(p, facts, np.array([YEAR]))[1, 0]
    found = {}
    for recipient in garden.plants:
        if recipient.id not in wanted:
            continue
        genotype, half = genotypes[recipient.id], half_metres(kinds[recipient.id])
        fails = 1 - self_share(genotype).likely
        open_, end = forecasts[recipient.id].first_open, forecasts[recipient.id].end
        for donor in garden.plants:
            if donor is recipient or genotypes[donor.id].cross_group != genotype.cross_group:
                continue
            metres = recipient.point.metres_to(donor.point)
            if metres > half * USUAL["partner_reach_halves"]:
                continue
            verdict = judge(genotype, genotypes[donor.id])
            start, stop = forecasts[donor.id].first_open, forecasts[donor.id].end
            shares = [
                max(0.0, min(e, t) - max(o, s)) / (e - o)
                for o, e, s, t in zip(open_, end, start, stop, strict=True)
            ]
            worth = verdict.compatible.likely * verdict.pollen.likely * flowers[donor.id]
            fails *= 1 - worth * sum(shares) / len(shares) * 0.5 ** (metres / half)
        found[recipient.id] = 1 - fails
    return found


def test_two_thousand_plants_against_pair_by_pair(capsys):
    garden, library, forecasts = large_garden()
    reviewed(garden, forecasts, library=library)  # names looked up once, as in a session
    ours = seconds(lambda: reviewed(garden, forecasts, library=library))
    reviews = {r.plant: r for r in reviewed(garden, forecasts, library=library).trees}
    alone = {i for i, r in reviews.items() if r.standing == "needs none"}
    dioecious = {i for i, r in reviews.items() if r.needs.startswith("a male")}
    every = sorted(set(reviews) - alone - dioecious)
    wanted = set(every[:: max(len(every) // 20, 1)])
    plain = pair_by_pair(garden, library, forecasts, wanted)
    some = seconds(lambda: pair_by_pair(garden, library, forecasts, wanted), rounds=1)
    plain_time = some * len(every) / len(wanted)
    for i, chance in plain.items():
        assert reviews[i].adequacy == pytest.approx(chance, abs=1e-4)
    with capsys.disabled():
        print(f"\n{PLANTS} plants reviewed in {ours:.3f} s, {len(every)} of them in need of a partner;")
        print(f"pair by pair {plain_time:.1f} s, so {plain_time / ours:.0f} times as fast")
    assert plain_time / ours >= 8


def a_season():
    """Thirty weather years without meaning, as many draws as the forecasts have."""
    random = np.random.default_rng(1)
    shape = (DRAWS // 8, 488)
    return Ensemble(
        axis=SeasonAxis(YEAR), tmin=random.normal(3, 3, shape), tmax=random.normal(13, 4, shape),
        rain=random.exponential(2, shape), observed_to=100, filled=0, made_of=OWN_RECORD,
    )  # fmt: skip


def best_time(number, weather, repeats=3):
    garden, library, forecasts = large_garden(number)
    lost = {p: np.random.default_rng(n).uniform(0, 1, DRAWS) for n, p in enumerate(forecasts)}

    def review():
        return reviewed(garden, forecasts, library=library, weather=weather, crop_lost=lost)

    review()  # names are looked up
    return seconds(review, repeats)


def test_time_grows_about_as_the_number_of_plants(capsys):
    """With weather and frost joined in, at one density: an all-pairs review would have the exponent 2."""
    weather = a_season()
    numbers = np.array([500, 1000, 2000, 4000])
    times = np.array([best_time(number, weather) for number in numbers])
    exponent = np.polyfit(np.log(numbers), np.log(times), 1)[0]
    with capsys.disabled():
        said = ", ".join(f"{n}: {t:.2f} s" for n, t in zip(numbers, times, strict=True))
        print(f"\nreview with weather and frost, {said}; exponent {exponent:.2f}")
    assert exponent <= 1.3


def test_no_array_of_all_pairs_is_made():
    """The most memory that a review of 4,000 scattered apples takes, kept reviews and all."""
    library, _ = load_library()
    random = np.random.default_rng(5)
    number = 4000
    names = ("Gala", "Bramley", "Cox")
    plants = tuple(
        Plant(id=f"p{n}", kind="apple", cultivar=names[n % 3], year=2000, point=Point(*at))
        for n, at in enumerate(random.uniform(0, 8000, (number, 2)))
    )
    garden = Garden(place=Place(lat=47, lon=15), plants=plants)
    tracemalloc.start()
    try:
        reviews = reviewed(garden, {}, library=library).trees
        most = tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()
    assert len(reviews) == number
    assert most < 4 * number * number, "40 MB when measured; one array of doubles for all pairs is 128 MB"
