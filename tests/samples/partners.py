"""Hand-made kinds, gardens and forecasts, so that these tests do not lean on the plant library's values."""

from __future__ import annotations

import numpy as np
from msgspec import structs

from leafturn.bloom.model import BloomForecast
from leafturn.garden.model import Garden, Place, Plant, Point
from leafturn.kinds.defaults import Defaults
from leafturn.kinds.library import Library
from leafturn.kinds.model import (
    AgeFacts,
    BloomFacts,
    Cultivar,
    Fact,
    HarvestFacts,
    Kind,
    PollinationFacts,
    Rootstock,
    SizeFacts,
)
from leafturn.partners.flowering_season import FloweringSeason
from leafturn.partners.observations import ObservedBloom
from leafturn.partners.review import review_garden
from leafturn.season.axis import SeasonAxis
from leafturn.season.ensemble import Ensemble
from leafturn.season.garden_day import GardenDay
from tests.samples.frost_years import OWN_RECORD

YEAR = 2027
DRAWS = 240
HERE = "made up for the test"


def fact(value):
    return Fact(value, HERE, "fair")


def pollination(system, carrier="insect", half=25.0, **more):
    return PollinationFacts(
        system=fact(system), carrier=fact(carrier), half_metres=fact(half),
        **{key: fact(value) for key, value in more.items()},
    )  # fmt: skip


def ages(seedling=None, grafted=None, cutting=None, spread=1.5):
    years = {
        "seedling_years": seedling,
        "grafted_years": grafted,
        "cutting_years": cutting,
        "spread_years": spread,
    }
    return AgeFacts(**{key: fact(value) for key, value in years.items() if value is not None})


def cultivar(**facts):
    return Cultivar(**{key: fact(value) for key, value in facts.items()})


CROWNS_M = {"tree": 3.0, "shrub": 1.2, "climber": 1.0}


def kind(name, botanical, pollination_facts, age_facts, habit="tree", **more):
    return Kind(
        name=name, botanical=botanical, family="Testaceae", habit=habit, layer="small tree",
        pollination=pollination_facts, age=age_facts, harvest=HarvestFacts(part=fact("fruit")),
        bloom=BloomFacts(length_days=fact(12.0)), size=SizeFacts(crown_m=fact(CROWNS_M[habit])), **more,
    )  # fmt: skip


PEAR = kind(
    "pear", "Pyrus communis",
    pollination("self-incompatible", cross_group="european pear", s_system="gametophytic"),
    ages(seedling=11, grafted=5, spread=1.5),
    cultivars={
        "Comice": cultivar(s_alleles=("S4", "S5")),
        "Bartlett": cultivar(s_alleles=("S1", "S2")),
        "Seckel": cultivar(s_alleles=("S1", "S2")),
        "Bosc": cultivar(s_alleles=("S7", "S14")),
        "Red Comice": cultivar(clone_of="Comice", s_alleles=("S4", "S5")),
    },
)  # fmt: skip
APPLE = kind(
    "apple", "Malus domestica",
    pollination("self-incompatible", half=20.0, cross_group="apple", s_system="gametophytic"),
    ages(seedling=8, grafted=4, spread=1.2),
    cultivars={
        "Boskoop": cultivar(ploidy=3, good_pollen=False), "Discovery": cultivar(), "Cox": cultivar(),
    },
)  # fmt: skip
HAZEL = kind(
    "hazel", "Corylus avellana",
    pollination("self-incompatible", "wind", 25.0, cross_group="hazel", s_system="sporophytic"),
    ages(seedling=5, grafted=4, cutting=4, spread=1.2), habit="shrub",
    cultivars={
        "Barcelona": cultivar(s_alleles=("S1", "S2"), pollen_alleles=("S1",)),
        "Jefferson": cultivar(s_alleles=("S1", "S3"), pollen_alleles=("S3",)),
        "Hall's Giant": cultivar(s_alleles=("S5", "S15"), pollen_alleles=("S5", "S15")),
    },
)  # fmt: skip
KIWI = kind(
    "hardy kiwi", "Actinidia arguta",
    pollination("dioecious", half=12.0, cross_group="hardy kiwi", females_per_male=8.0),
    ages(seedling=7, cutting=4, grafted=4, spread=1.2), habit="climber",
)  # fmt: skip
HEARTNUT = kind(
    "heartnut", "Juglans ailantifolia", pollination("dichogamous", "wind", 27.0, cross_group="walnut kin"),
    ages(seedling=8, grafted=4, spread=1.5),
)  # fmt: skip
PAWPAW = kind(
    "pawpaw", "Asimina triloba", pollination("self-incompatible", "fly", 8.0), ages(seedling=7, grafted=4)
)
QUINCE = kind("quince", "Cydonia oblonga", pollination("self-fertile"), ages(grafted=4))
ELDER = kind(
    "elderberry", "Sambucus nigra", pollination("partly self-fertile", self_share=0.4),
    ages(cutting=3), habit="shrub",
)  # fmt: skip
EUROPEAN_PLUM = kind(
    "european plum",
    "Prunus domestica",
    pollination("self-incompatible", cross_group="european plum"),
    ages(grafted=4),
)
MYROBALAN = kind(
    "myrobalan plum", "Prunus cerasifera", pollination("self-incompatible", cross_group="diploid plum"),
    ages(seedling=4, grafted=3),
)  # fmt: skip
OAK = kind("sessile oak", "Quercus petraea", pollination("fruit not wanted", "wind"), ages(seedling=25))

KINDS = (PEAR, APPLE, HAZEL, KIWI, HEARTNUT, PAWPAW, QUINCE, ELDER, EUROPEAN_PLUM, MYROBALAN, OAK)
STOCKS = (
    Rootstock(
        name="seedling pear", kinds=("pear",), also_called=("seedling",),
        flower_years=fact(7.0), spread_years=fact(2.0),
    ),
    Rootstock(name="quince A", kinds=("pear",), flower_years=fact(4.0), spread_years=fact(1.2)),
)  # fmt: skip
DEFAULTS = Defaults(
    scale={}, word={}, layer={"shrub": "shrub"}, family={},
    habit={h: {} for h in ("tree", "shrub", "climber", "cane", "perennial", "bulb", "fern", "ground")},
)  # fmt: skip
LIBRARY = Library(
    kinds={k.name: k for k in KINDS}, sources={}, rootstocks=STOCKS, defaults=DEFAULTS, shared_names={}
)


def plant(plant_id, of, east=None, north=0.0, **more):
    point = None if east is None else Point(east, north)
    return Plant(id=plant_id, kind=of.name, point=point, **{"year": 2000, **more})


def garden(*plants, neighbours=(), lat=46.9):
    return Garden(place=Place(lat=lat, lon=15.9), plants=tuple(plants), neighbours=tuple(neighbours))


def bloom(plant_id, first=170.0, length=12.0, seed=None, stray=2.0, draws=DRAWS):
    """A forecast whose first open strays by `stray` days; without a seed it does not stray at all."""
    shift = np.zeros(draws) if seed is None else np.random.default_rng(seed).normal(0, stray, draws)
    start = np.full(draws, first) + shift
    return BloomForecast(plant=plant_id, first_open=start, full=start + length / 3, end=start + length)


def blooms(of_garden, first=170.0, **more):
    return {p.id: bloom(p.id, first, **more) for p in of_garden.plants}


def weather(tmax, rain, members=30):
    """The same days in every version of the year."""
    tmax, rain = (np.broadcast_to(np.asarray(v, dtype=float), (members, 488)) for v in (tmax, rain))
    return Ensemble(
        axis=SeasonAxis(YEAR),
        tmin=tmax - 8,
        tmax=tmax,
        rain=rain,
        observed_to=100,
        filled=0,
        made_of=OWN_RECORD,
    )


def a_day(a_garden, year=YEAR, *, library=LIBRARY, rules=None, today=None):
    """A garden on a day; without one on the first of the season, so that nothing of it is past."""
    axis = SeasonAxis(year, a_garden.place.southern)
    a_garden = a_garden if rules is None else structs.replace(a_garden, rules=rules)
    return GardenDay(a_garden, library, (), today or axis.first)


def reviewed(a_garden, forecasts, year=YEAR, *, first_bloom=None, no_bloom=None, sets=None,
             library=LIBRARY, rules=None, today=None, **season):  # fmt: skip
    """A garden's review of pollen in one season; what is noted and known of it as wanted."""
    observed = ObservedBloom(first=first_bloom or {}, none=no_bloom or {}, sets=sets or {})
    day = a_day(a_garden, year, library=library, rules=rules, today=today)
    return review_garden(day, FloweringSeason(year=year, forecasts=forecasts, observed=observed, **season))
