"""Kinds as books state them: their sum of heat turned into warmth at one climate and carried to others."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import numpy as np
import pytest
from msgspec.structs import replace
from tests.samples.noted_gardens import opened, plant, usual

from leafturn.bloom.priors.leaf_seasons import LAST_BY_WARMTH, season_level
from leafturn.bloom.priors.response import FIRST_DAY, Response, ShortDays
from leafturn.bloom.priors.stated import (
    Climate,
    LeafNeed,
    leaf_prior,
    level_of,
    made_up_climate,
    reference,
    stated,
    stated_prior,
    timing_of,
)
from leafturn.kinds.library import Library, load_library
from leafturn.kinds.model import Kind

SOUTHERN = """
[climate]
tmax_c = [26.0, 25.6, 20.6, 15.0, 10.2, 8.3, 7.5, 9.5, 12.8, 15.9, 20.4, 24.0]
tmin_c = [13.6, 13.2, 9.3, 5.9, 3.8, 1.5, 0.5, 1.0, 3.3, 4.9, 8.4, 12.0]
"""


@pytest.fixture(scope="module")
def library() -> Library:
    return load_library()[0]


def prior_day(kind: Kind, climate: Climate) -> float:
    prior = stated_prior(kind)
    assert prior is not None
    return climate.usual_day(prior)


# Kalamata, about: monthly means of a place where loquats and strawberry trees are at home.
MEDITERRANEAN = """
[climate]
tmax_c = [15.0, 15.6, 17.9, 20.9, 25.7, 30.3, 32.6, 32.8, 29.2, 24.6, 20.0, 16.4]
tmin_c = [5.6, 5.6, 6.9, 9.0, 12.5, 16.2, 18.2, 18.4, 16.0, 12.9, 9.5, 7.0]
"""
# They flower in late autumn, so that frost may put an end to it in the cold.
LATE = ("loquat", "saffron", "strawberry tree", "ebbingei", "pigeon pea", "himalayan cedar")


def short_day_kinds(library: Library) -> list[str]:
    return [
        kind.name
        for kind in library.kinds.values()
        if kind.bloom.timing and kind.bloom.timing.value == "short days"
    ]


def test_at_the_reference_every_kind_opens_when_its_heat_says(library: Library) -> None:
    climate = reference()
    for kind in library.kinds.values():
        heat = kind.bloom.first_open_heat
        if heat is None or kind.bloom.base_c is None or kind.bloom.start is None:
            continue
        sums = climate.heat(kind.bloom.base_c.value, kind.bloom.start.value)
        by_heat = float(np.median((sums < heat.value).sum(axis=1))) + FIRST_DAY
        # with little growing in late winter a median of years may lie some days off
        assert prior_day(kind, climate) == pytest.approx(by_heat, abs=2.5 if by_heat > 80 else 9), kind.name


@pytest.mark.parametrize("name", ["resting buds", "new shoots", "short days"])
def test_the_order_of_the_books_holds_within_a_class_in_every_climate(library: Library, name: str) -> None:
    cold = made_up_climate(
        60.0,
        (-4.0, -3.5, 1.0, 8.0, 15.0, 20.0, 22.0, 20.0, 14.0, 8.0, 2.0, -2.0),
        (-11.0, -11.0, -7.0, -2.0, 3.0, 8.0, 11.0, 10.0, 6.0, 2.0, -3.0, -8.0),
    )
    mild = made_up_climate(
        35.0,
        (12.0, 14.0, 18.0, 22.0, 26.0, 30.0, 32.0, 32.0, 29.0, 24.0, 18.0, 13.0),
        (1.0, 2.0, 5.0, 9.0, 14.0, 18.0, 21.0, 20.0, 17.0, 11.0, 5.0, 2.0),
    )
    kinds = [
        (kind.bloom.first_open_heat.value, timing_of(kind), kind)
        for kind in library.kinds.values()
        if kind.bloom.first_open_heat
        and kind.bloom.base_c
        and (kind.bloom.base_c.value, kind.bloom.start.value if kind.bloom.start else "") == (5.0, "season")
        and (kind.bloom.timing.value if kind.bloom.timing else "resting buds") == name
    ]
    by_timing: dict[object, list[tuple[float, str, Kind]]] = {}
    for heat, timing, kind in kinds:
        by_timing.setdefault(timing, []).append((heat, kind.name, kind))
    for climate in (reference(), cold, mild):
        for of_one in by_timing.values():
            days = [prior_day(kind, climate) for _, _, kind in sorted(of_one, key=lambda row: row[:2])]
            assert (np.diff(days) >= -1e-9).all(), name


def test_the_class_of_a_kind_is_what_the_library_says(library: Library) -> None:
    known = stated()
    assert timing_of(library.kinds["hazel"]) == known.early_buds
    assert timing_of(library.kinds["apple"]) == known.resting_buds
    assert timing_of(library.kinds["pecan"]) == known.new_shoots
    kaki = timing_of(library.kinds["kaki"])
    assert isinstance(kaki, Response)
    assert kaki == replace(known.new_shoots, cold_need=kaki.cold_need)
    assert kaki.cold_need == pytest.approx(known.new_shoots.cold_need * known.low_chill.share)
    assert timing_of(library.kinds["ivy"]) == known.short_days
    assert len(short_day_kinds(library)) >= 5
    early = [
        kind for kind in library.kinds.values()
        if kind.bloom.first_open_heat and timing_of(kind) == known.early_buds
    ]  # fmt: skip
    heats = [kind.bloom.first_open_heat.value for kind in early if kind.bloom.first_open_heat]
    assert max(heats) <= known.spreads.early_heat


def test_the_less_a_book_is_sure_of_the_wider_the_doubt(library: Library) -> None:
    def lasting(kind: Kind) -> float:
        prior = stated_prior(kind)
        assert prior is not None
        return prior.usual.levels.lasting

    kinds = [
        k for k in library.kinds.values() if k.bloom.first_open_heat and isinstance(timing_of(k), Response)
    ]
    sure = {lasting(k) for k in kinds if k.bloom.first_open_heat and k.bloom.first_open_heat.sure != "guess"}
    guesses = {
        lasting(k) for k in kinds if k.bloom.first_open_heat and k.bloom.first_open_heat.sure == "guess"
    }
    unheard = lasting(library.match("unheard-of vine").kind)
    assert len(sure) == len(guesses) == 1
    assert max(sure) < min(guesses) < unheard


def test_leaf_out_is_read_at_the_reference_too() -> None:
    prior = leaf_prior(LeafNeed(heat=120.0))
    level, day = level_of(stated().resting_buds, 120.0)
    assert (prior.usual.levels.middle, prior.typical_day) == (level, day)
    assert reference().usual_day(prior) == pytest.approx(day, abs=1.5)


def test_a_season_of_picking_is_warmth_in_spring_and_the_calendar_later() -> None:
    early = season_level("04-10")
    later = season_level("06-24")
    assert early is not None
    assert later is not None
    assert early[0] == later[0] == stated().resting_buds
    assert early[1] < later[1]
    last = dt.date(2022, 12, 31) + dt.timedelta(days=LAST_BY_WARMTH)
    assert season_level(f"{last:%m-%d}") is not None
    assert season_level(f"{last + dt.timedelta(days=1):%m-%d}") is None
    assert season_level("10-15") is None


@pytest.mark.parametrize(
    ("lat", "weather", "on", "first", "last"),
    [
        (47.0, "normals", dt.date(2012, 1, 1), dt.date(2012, 8, 1), dt.date(2012, 10, 31)),
        (55.0, "normals", dt.date(2012, 1, 1), dt.date(2012, 8, 1), dt.date(2012, 10, 31)),
        (-41.0, SOUTHERN, dt.date(2011, 7, 2), dt.date(2012, 2, 1), dt.date(2012, 4, 30)),
        (-45.0, SOUTHERN, dt.date(2011, 7, 2), dt.date(2012, 2, 1), dt.date(2012, 4, 30)),
    ],
)
def test_flowers_of_autumn_open_in_late_summer_and_autumn(
    library: Library, tmp_path: Path, lat: float, weather: str, on: dt.date, first: dt.date, last: dt.date
) -> None:
    """August to October in the north, February to April in the south."""
    kinds = [name for name in short_day_kinds(library) if name not in LATE]
    text = "".join(plant(name.replace(" ", "-"), name) for name in kinds)
    almanac = opened(tmp_path, text, (), weather, on, lat=lat)
    for name in kinds:
        id = name.replace(" ", "-")
        assert first <= usual(almanac, id) <= last, name
        # no method beats a fixed date by much: weeks wide, not months
        middle, late = np.quantile(almanac.forecasts[id].first_open, (0.5, 0.9))
        assert 10 < late - middle < 60, name


def test_flowers_of_late_autumn_open_in_october_where_they_are_at_home(
    library: Library, tmp_path: Path
) -> None:
    """Loquat in Andalusia from October to January (a flora of Andalusia, read); the others recalled."""
    assert set(LATE) <= set(short_day_kinds(library))
    text = "".join(plant(name.replace(" ", "-"), name) for name in LATE)
    almanac = opened(tmp_path, text, (), MEDITERRANEAN, lat=37.0)
    for name in LATE:
        id = name.replace(" ", "-")
        assert dt.date(2012, 10, 1) <= usual(almanac, id) <= dt.date(2012, 11, 30), name
        middle, late = np.quantile(almanac.forecasts[id].first_open, (0.5, 0.9))
        assert 10 < late - middle < 60, name


@pytest.mark.parametrize("lat", [47.0, 55.0])
def test_flowers_of_late_autumn_are_foreseen_no_earlier_in_the_cold(
    library: Library, tmp_path: Path, lat: float
) -> None:
    """They open in October or are stopped by the cold: how late, is less sure than of the others."""
    text = "".join(plant(name.replace(" ", "-"), name) for name in LATE)
    almanac = opened(tmp_path, text, (), "normals", lat=lat)
    for name in LATE:
        id = name.replace(" ", "-")
        assert dt.date(2012, 10, 1) <= usual(almanac, id) <= dt.date(2012, 11, 30), name
        assert np.quantile(almanac.forecasts[id].first_open, 0.1) > almanac.axis.day(dt.date(2012, 9, 10))


def test_shorter_days_of_the_north_bring_them_at_the_same_time_of_year_as_warmth_would_not() -> None:
    """With one weather the day's length alone tells: all such days come later where days are longer."""
    timing = stated().short_days
    assert isinstance(timing, ShortDays)
    prior = stated_prior(load_library()[0].kinds["ivy"])
    assert prior is not None
    months = reference()
    here, north = (Climate(latitude, months.tmin, months.tmax).usual_day(prior) for latitude in (45.0, 58.0))
    assert 3 < north - here < 30
