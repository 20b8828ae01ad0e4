"""Fruit of warm countries: who serves whom, when it flowers and when it is picked.

Sources, pages and excerpts read, named beside each row: University of Florida (longan; HS60 on passion
fruit; HS12 on carambola; MG216 on mango); Los Angeles Times 1987 (white sapote) and 1991 (cherimoya); Urata
1954 (macadamia); the Sub-Tropical Fruit Club of Queensland with Birdwood Nursery (white sapote); growers'
pages of Florida, California, Queensland, Okinawa and New Zealand. Monthly means of maxima and minima [degC]
are from memory.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import numpy as np
import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant
from tests.samples.towns import KOCHI, NAMBOUR, SAN_DIEGO, WHANGAREI

from leafturn.almanac import Almanac
from leafturn.garden.regions import region_named
from leafturn.journal.entries import BloomNote
from leafturn.kinds.library import load_library
from leafturn.kinds.spreading import spreads_into_wild_land

PLACES: dict[str, tuple[float, float, list[float], list[float]]] = {
    "southern Florida": (
        25.5, -80.4, [24.8, 25.7, 27.1, 28.9, 30.7, 32.1, 32.8, 32.9, 32.0, 30.2, 27.7, 25.7],
        [13.3, 14.4, 15.9, 18.2, 20.9, 23.0, 23.6, 23.8, 23.4, 21.3, 17.9, 15.1],
    ),
    "Nambour": (-26.6, 152.9, NAMBOUR["tmax_c"], NAMBOUR["tmin_c"]),
    "San Diego": (32.7, -117.2, SAN_DIEGO["tmax_c"], SAN_DIEGO["tmin_c"]),
    "Okinawa": (
        26.2, 127.7, [19.5, 19.8, 21.7, 24.1, 26.7, 29.4, 31.8, 31.5, 30.4, 27.9, 24.6, 21.2],
        [14.6, 14.8, 16.5, 19.0, 21.8, 24.8, 26.8, 26.6, 25.5, 23.1, 19.9, 16.3],
    ),
    "Whangarei": (-35.7, 174.3, WHANGAREI["tmax_c"], WHANGAREI["tmin_c"]),
    "Indio": (
        33.7, -116.2, [22, 24, 28, 31.5, 35.5, 40, 42, 41.5, 38.5, 33, 26, 21.5],
        [6, 8.5, 12, 15.5, 19.5, 23.5, 26.5, 26, 22.5, 16.5, 10, 5.5],
    ),
    "Kochi": (10.0, 76.3, KOCHI["tmax_c"], KOCHI["tmin_c"]),
}  # fmt: skip

OPENS = [  # kind, place, from and to of its first flowers as published
    ("lychee", "southern Florida", "01-01", "03-31"),  # growers' page on stages
    ("longan", "southern Florida", "02-01", "04-15"),  # University of Florida: February or March to early May
    ("macadamia", "Nambour", "08-01", "09-30"),  # orchard's page: August and September
    ("cherimoya", "San Diego", "05-01", "06-30"),  # Los Angeles Times 1991: brushed from June to August
    ("custard apple", "Nambour", "10-01", "12-31"),  # nursery: October to January
    ("passionfruit", "southern Florida", "02-20", "04-15"),  # HS60: early spring
    ("passionfruit", "Okinawa", "03-01", "04-15"),  # gardener of Okinawa: March and April
    ("yellow passionfruit", "Okinawa", "04-01", "05-15"),  # the same: April to November
    ("starfruit", "southern Florida", "04-01", "05-10"),  # Orlando Sentinel 2006: April through November
    ("dragon fruit", "southern Florida", "05-15", "07-15"),  # a growers' page: typically in June
    ("tamarillo", "Whangarei", "09-15", "11-30"),  # New Zealand Herald: spring
    (
        "surinam cherry",
        "southern Florida",
        "02-01",
        "03-20",
    ),  # Marco Eagle, 15 March 2012: in flower and setting
    ("jaboticaba", "southern Florida", "02-01", "03-20"),  # the same
    ("camphor tree", "San Diego", "04-20", "06-15"),  # pages on landscape trees of California: late spring
    ("date palm", "Indio", "02-10", "03-31"),  # growers: sheaths split from the last weeks of February
]
RIPE = [  # kind, cultivar, place, from and to of its first ripe fruit as published
    ("mango", "Kensington Pride", "Nambour", "11-15", "02-15"),  # Queensland guide: November to February
    ("mango", "Keitt", "southern Florida", "08-01", "09-15"),  # Naples: August to early October
    ("mango", "Edward", "southern Florida", "05-20", "07-15"),  # Naples: late May through July
    ("lychee", "Mauritius", "southern Florida", "05-15", "07-10"),  # state page: mid-May to July
    ("lychee", "", "Nambour", "12-01", "01-31"),  # Queensland guide: December and January
    (
        "longan",
        "",
        "southern Florida",
        "07-10",
        "08-31",
    ),  # University of Florida: mid-July to early September
    ("macadamia", "", "Nambour", "02-20", "05-31"),  # orchard's page: nuts fall from March to September
    ("cherimoya", "", "San Diego", "10-25", "01-31"),  # Los Angeles Times 1991: November to March
    ("custard apple", "", "Nambour", "02-10", "05-15"),  # growers' association: February to October
    ("white sapote", "", "San Diego", "08-15", "11-15"),  # Los Angeles Times 1987: late summer to November
    ("guava", "", "San Diego", "08-25", "11-30"),  # nursery pages: September to December
    ("strawberry guava", "", "southern Florida", "06-01", "08-15"),  # Florida page: June to August
    ("starfruit", "", "southern Florida", "07-20", "09-15"),  # nursery for the tropics: August to March
    ("tamarillo", "", "Whangarei", "04-01", "06-30"),  # growers: April to November
    ("cape gooseberry", "", "Whangarei", "02-01", "03-20"),  # Sustain Ewe: February to October
    ("banana passionfruit", "", "Whangarei", "02-20", "04-15"),  # FreshPoint: March to May and later
    (
        "surinam cherry",
        "",
        "southern Florida",
        "03-01",
        "04-20",
    ),  # about three weeks from mid-March's flowers
]


def grown(folder: Path, place: str, *things: str, on: str = "") -> Almanac:
    lat, lon, tmax, tmin = PLACES[place]
    day = on or ("2027-01-03" if lat > 0 else "2027-07-03")
    months: dict[str, object] = {"tmax_c": tmax, "tmin_c": tmin}
    return almanac_of(folder, garden_text(*things, climate=months, lat=lat, lon=lon), day)


def is_within(almanac: Almanac, days: np.ndarray, first: str, last: str) -> bool:
    """Whether the middle of days lies between two days of a year, over New Year where the first is later."""
    middle = float(np.median(days))
    assert np.isfinite(middle)
    on = f"{almanac.axis.date(middle):%m-%d}"
    return first <= on <= last if first <= last else on >= first or on <= last


@pytest.mark.parametrize(("kind", "place", "first", "last"), OPENS)
def test_it_opens_in_the_months_that_are_published(
    kind: str, place: str, first: str, last: str, tmp_path: Path
) -> None:
    almanac = grown(tmp_path, place, plant("one", kind, year=2008, at=[0, 0]))
    assert is_within(almanac, almanac.forecasts["one"].first_open, first, last)


@pytest.mark.parametrize(("kind", "cultivar", "place", "first", "last"), RIPE)
def test_it_is_ripe_in_the_months_that_are_published(
    kind: str, cultivar: str, place: str, first: str, last: str, tmp_path: Path
) -> None:
    named = {"cultivar": cultivar} if cultivar else {}
    almanac = grown(tmp_path, place, plant("one", kind, year=2008, at=[0, 0], **named))
    ripe = almanac.forecasts["one"].ripe
    assert ripe is not None
    assert is_within(almanac, ripe, first, last)


def standing(folder: Path, *things: tuple[str, dict[str, object]]) -> str:
    """How the first of some plants, five metres apart, is served in Nambour."""
    plants = [plant(f"p{n}", kind, year=2008, at=[5 * n, 0], **more) for n, (kind, more) in enumerate(things)]
    return next(tree.standing for tree in grown(folder, "Nambour", *plants).partners() if tree.plant == "p0")


def test_purple_passionfruit_sets_alone_and_yellow_wants_another_vine(tmp_path: Path) -> None:
    """HS60, Southern Living."""
    purple, yellow = ("passionfruit", {}), ("yellow passionfruit", {"raised": "seedling"})
    assert standing(tmp_path / "a", purple) == "needs none"
    assert standing(tmp_path / "b", yellow) == "lacks"
    assert standing(tmp_path / "c", yellow, yellow) == "served"


def test_papayas_and_date_palms_want_a_male_but_a_solo_serves_itself(tmp_path: Path) -> None:
    """Kauai Seascapes Nursery; growers of dates."""
    for kind in ("papaya", "date palm"):
        female, male = (kind, {"sex": "female"}), (kind, {"sex": "male"})
        assert standing(tmp_path / f"{kind} alone", female) == "lacks"
        assert standing(tmp_path / f"{kind} with male", female, male) == "served"
    assert standing(tmp_path / "solo", ("papaya", {"cultivar": "Solo"})) == "needs none"


def test_a_white_sapote_without_pollen_is_served_by_one_that_has_it(tmp_path: Path) -> None:
    """Sub-Tropical Fruit Club with Birdwood Nursery: McDill needs Dade or its like; Dade needs none."""
    mcdill, dade = (("white sapote", {"cultivar": name}) for name in ("McDill", "Dade"))
    assert standing(tmp_path / "a", mcdill) == "lacks"
    assert standing(tmp_path / "b", mcdill, dade) == "served"
    assert standing(tmp_path / "c", mcdill, ("white sapote", {"cultivar": "Candy"})) == "lacks"
    assert standing(tmp_path / "d", dade) == "needs none"


def test_a_macadamia_sets_more_beside_another(tmp_path: Path) -> None:
    """Urata 1954: partial self-incompatibility in the majority of trees."""
    one, other = (("macadamia", {"cultivar": name}) for name in ("344", "246"))
    assert standing(tmp_path / "a", one) == "thin"
    assert standing(tmp_path / "b", one, other) == "served"


def test_one_kind_is_no_clone_of_another_that_it_crosses_with(tmp_path: Path) -> None:
    """Queensland's custard apples are crosses of cherimoya, so none is its clone (a blog on them, read)."""
    custard_apple = plant("atemoya", "custard apple", cultivar="African Pride", year=2008, at=[2, 0])
    almanac = grown(tmp_path, "Nambour", plant("one", "cherimoya", year=2008, at=[0, 0]), custard_apple)
    (tree,) = (tree for tree in almanac.partners() if tree.plant == "one")
    assert "same clone" not in tree.weakest
    assert tree.adequacy > 0.5


def test_a_lone_cherimoya_is_brushed_while_it_flowers(tmp_path: Path) -> None:
    """Los Angeles Times 1991: brushed from June to August."""
    almanac = grown(tmp_path, "San Diego", plant("one", "cherimoya", year=2010, at=[0, 0]), on="2027-06-10")
    assert almanac.job("cherimoya:bring-pollen").state in ("due", "late")


def test_of_flowers_of_any_month_no_day_is_told_until_they_are_seen(tmp_path: Path) -> None:
    """Pages of Florida: a stem flowers in any month where it is warm; its bunch takes 3 to 6 months."""
    text = plant("banana", "banana", year=2020, at=[0, 0])
    almanac = grown(tmp_path, "southern Florida", text, on="2027-05-20")
    assert np.isinf(almanac.forecasts["banana"].first_open).all()
    assert any("come in any month" in note for note in almanac.season().notes)
    almanac, _ = almanac.note(
        BloomNote(on=dt.date(2027, 5, 10), plant="banana", stage="first open"), dt.date(2027, 5, 10)
    )
    ripe = almanac.forecasts["banana"].ripe
    assert ripe is not None
    wait = almanac.axis.date(float(np.median(ripe))) - dt.date(2027, 5, 10)
    assert 85 <= wait.days <= 185


def test_where_no_month_is_cool_no_day_is_told_of_leaf_root_or_fruit(tmp_path: Path) -> None:
    """Kochi's months lie within 4 degrees of each other: dates of colder places mean nothing there."""
    kinds = ("mango", "ginger", "lemongrass", "banana", "comfrey")
    plants = [plant(kind, kind, year=2015, at=[5 * n, 0]) for n, kind in enumerate(kinds)]
    almanac = grown(tmp_path, "Kochi", *plants)
    assert almanac.season().events == ()
    larder = almanac.larder()
    assert set(larder.undated) >= {"mango", "banana"}
    assert larder.picking_gaps == larder.forage_gaps == ()


def test_loquat_and_white_mulberry_are_listed_in_south_africa() -> None:
    """plantzafrica.com: declared weeds and invader plants, category 3."""
    kinds = load_library()[0].kinds
    for name in ("loquat", "white mulberry"):
        assert spreads_into_wild_land(kinds[name], region_named("south africa")), name


def test_strawberry_guava_spreads_in_hawaii_and_is_not_listed_for_spain() -> None:
    """Honolulu Star-Advertiser 2010: half a million acres of forest threatened."""
    kind = load_library()[0].kinds["strawberry guava"]
    assert spreads_into_wild_land(kind, region_named("hawaii"))
    assert not spreads_into_wild_land(kind, region_named("spain"))
