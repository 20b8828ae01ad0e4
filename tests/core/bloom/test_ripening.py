"""When fruit ripens: by time and by warmth, and when leaves and roots are in season."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import numpy as np
import pytest
from tests.samples.garden_text import climate_text
from tests.samples.noted_gardens import NORMALS, opened, plant, usual

from leafturn.bloom import ripening_need
from leafturn.bloom.priors.stated import LeafNeed, leaf_prior, stated_prior
from leafturn.bloom.ripening_need import (
    COLD_NIGHT_C,
    HOTTEST_C,
    WARM_DAY_C,
    FruitWeather,
    Need,
    Stretch,
    daily_warmth,
    facts,
    need_of,
    warmth_shares,
)
from leafturn.kinds.library import Library, load_library
from leafturn.season.degree_days import single_sine


@pytest.fixture(scope="module")
def library() -> Library:
    return load_library()[0]


def warmer(degrees: float) -> str:
    """The climate of the tests, warmer from June to September."""
    summer = [degrees if 5 <= month <= 8 else 0.0 for month in range(12)]
    return climate_text(
        {key: [v + d for v, d in zip(values, summer, strict=True)] for key, values in NORMALS.items()}
    )


def days_alike(warmth: float, cold: float = 0.0) -> FruitWeather:
    """A hundred days that bring the same."""
    return FruitWeather(warmth=np.cumsum(np.full(100, warmth)), cold=np.cumsum(np.full(100, cold)))


def test_a_stretch_counts_time_and_warmth_by_their_shares() -> None:
    weather = days_alike(10.0)
    for share in (-0.3, 0.0, 0.4, 1.0):
        at_the_books = Stretch(share=share, warmth_a_day=10.0).counted(weather)
        assert at_the_books == pytest.approx(np.arange(1.0, 101.0))
        twice = Stretch(share=share, warmth_a_day=5.0).counted(weather)
        assert twice == pytest.approx((1 + share) * np.arange(1.0, 101.0))


@pytest.mark.parametrize("digit", [1 - 1e-13, 1 + 1e-13])
def test_what_ripening_takes_is_the_same_on_every_processor(
    library: Library, monkeypatch: pytest.MonkeyPatch, digit: float
) -> None:
    """Processors round the last digit of sums apart, by which no fruit may ripen a day sooner."""

    def needs() -> dict[str, float]:
        found = ((kind, stated_prior(kind)) for kind in library.kinds.values())
        taken = {k.name: need_of(k, prior, None, 5.0, -13.0) for k, prior in found if prior is not None}
        return {name: need.days for name, need in taken.items() if need is not None}

    here, weather_of = needs(), ripening_need._weather_of_the_books
    monkeypatch.setattr(
        ripening_need, "_weather_of_the_books", lambda where: rounded(weather_of(where), digit)
    )
    assert len(here) > 50
    assert needs() == pytest.approx(here, abs=1e-6)


def rounded(weather: FruitWeather, digit: float) -> FruitWeather:
    """The same, each day's sum a last digit more or less, by turns."""
    by_turns = np.where(np.arange(weather.warmth.shape[-1]) % 2, digit, 1.0)
    return FruitWeather(warmth=weather.warmth * by_turns, cold=weather.cold * by_turns)


def test_the_first_weeks_count_by_their_own_share() -> None:
    """Twice as warm as the books: forty days by warmth pass in twenty, the rest by time alone as they are."""
    weather = days_alike(20.0)
    warm, time = Stretch(share=1.0, warmth_a_day=10.0), Stretch(share=0.0, warmth_a_day=10.0)
    need = Need(days=90.0, first_days=40.0, first=warm, rest=time)
    assert need.between(weather, 0, 15) == pytest.approx(30.0)
    assert need.between(weather, 0, 70) == pytest.approx(40.0 + 50.0)


def test_no_day_counts_backward(library: Library) -> None:
    """Where heat holds fruit back, the warmest day there can be still brings it on."""
    for kind in library.kinds.values():
        prior = stated_prior(kind)
        need = None if prior is None else need_of(kind, prior, None, 5.0, 0.0)
        if need is not None:
            hot = days_alike(HOTTEST_C - 5.0)
            for stretch in (need.first, need.rest):
                assert (np.diff(stretch.counted(hot)) > 0.3).all(), kind.name


def test_cold_nights_bring_apples_and_pears_on_and_no_peach(library: Library) -> None:
    """Nine nights of 50 F bring Bartlett pears on (Oregon State University, FS 241, read)."""
    rests = {}
    for name in ("apple", "pear", "peach"):
        prior = stated_prior(library.kinds[name])
        assert prior is not None
        need = need_of(library.kinds[name], prior, None, 5.0, 0.0)
        assert need is not None
        assert need.first.cold_nights == 0.0
        rests[name] = need.rest
    mild, cold = days_alike(8.0), days_alike(8.0, 3.0)
    gained = {name: (rest.counted(cold) - rest.counted(mild))[29] for name, rest in rests.items()}
    assert 5.0 < gained["apple"] < 15.0
    assert gained["pear"] == pytest.approx(gained["apple"])
    assert gained["peach"] == 0.0
    nights = np.array([COLD_NIGHT_C - 2.0, COLD_NIGHT_C + 4.0, COLD_NIGHT_C - 2.0])
    by_day = np.array([20.0, 20.0, WARM_DAY_C - 1.0])
    assert FruitWeather.summed(nights, by_day).cold == pytest.approx([2.0, 2.0, 2.0])


def test_warmth_is_held_at_its_most() -> None:
    hot = daily_warmth(np.array([24.0, 34.0]), np.array([40.0, 50.0]))
    assert hot == pytest.approx(np.full(2, HOTTEST_C - 5.0))
    mild = np.array([8.0]), np.array([18.0])
    assert daily_warmth(*mild) == pytest.approx(single_sine(*mild, 5.0))


def test_shares_go_by_kind_then_part_then_stages(library: Library) -> None:
    known = facts()
    assert warmth_shares(library.kinds["raspberry"]) == known.by_kind["raspberry"]
    assert warmth_shares(library.kinds["sweet chestnut"]) == known.by_part["nut"]
    assert warmth_shares(library.kinds["apple"]) == known.by_stages["pome"]
    assert warmth_shares(library.kinds["european plum"]) == known.by_stages["stone"]
    for kind in library.kinds.values():
        assert all(-0.5 <= share <= 1 for share in warmth_shares(kind))


@pytest.mark.parametrize("name", ["apple", "pear", "peach", "raspberry", "quince", "persian walnut"])
def test_at_the_climate_of_the_books_a_need_is_about_the_days_published(library: Library, name: str) -> None:
    kind = library.kinds[name]
    prior, days = stated_prior(kind), kind.harvest.after_full_bloom_days
    assert prior is not None
    assert days is not None
    need = need_of(kind, prior, None, 5.0, 0.0)
    assert need is not None
    assert need.days == pytest.approx(days.value, rel=0.05)
    later = need_of(kind, prior, None, 5.0, 14.0)
    assert later is not None
    assert 4 < later.days - need.days < 20  # cold nights of October count for more than one
    late_leaves = leaf_prior(LeafNeed(heat=600.0))
    assert need_of(kind, prior, late_leaves, 5.0, 0.0) != need  # they put the start off


@pytest.mark.parametrize("name", ["sweet cherry", "european plum", "hazel", "grape", "raspberry"])
def test_a_warmer_summer_ripens_earlier_and_most_where_warmth_counts_most(
    library: Library, tmp_path: Path, name: str
) -> None:
    days = [
        usual(opened(tmp_path / str(degrees), plant("p", name), (), warmer(degrees)), "p", "ripe")
        for degrees in (0.0, 3.0)
    ]
    sooner = (days[0] - days[1]).days
    assert sooner > 0 or max(warmth_shares(library.kinds[name])) < 0.3
    assert sooner >= 0
    if min(warmth_shares(library.kinds[name])) == 1.0:
        assert sooner >= 3


def test_heat_of_summer_brings_no_apple_on(tmp_path: Path) -> None:
    """Growers of hot places pick late apples later than days alone tell."""
    days = [
        usual(opened(tmp_path / str(degrees), plant("p", "apple"), (), warmer(degrees)), "p", "ripe")
        for degrees in (0.0, 3.0)
    ]
    assert 0 <= (days[1] - days[0]).days <= 14


def test_ripe_comes_after_full_bloom_in_every_draw_and_every_kind(tmp_path: Path, library: Library) -> None:
    kinds = [k for k in library.kinds.values() if k.harvest.after_full_bloom_days is not None]
    text = "".join(plant(f"p{i}", kind.name) for i, kind in enumerate(kinds))
    almanac = opened(tmp_path, text)
    for id, forecast in almanac.forecasts.items():
        assert forecast.ripe is not None, id
        kind = kinds[int(id[1:])]
        least = 5.0 if kind.harvest.ripens else 0.0  # flowers are picked as they open
        assert (forecast.ripe >= forecast.full + least - 1e-9).all(), kind.name
        assert forecast.picked is not None
        assert (forecast.picked >= forecast.ripe).all()


def test_leaves_and_roots_are_picked_in_their_season(tmp_path: Path) -> None:
    """Spring dates of the books move with the warmth, later ones are the calendar's."""
    text = plant("rhubarb", "rhubarb") + plant("horseradish", "horseradish")
    here = opened(tmp_path / "here", text)
    season = load_library()[0].kinds["rhubarb"].harvest.season
    assert season is not None
    mild = opened(
        tmp_path / "mild", text, (),
        "[climate]\ntmax_c = [10, 10, 12, 14, 17, 19, 21, 21, 19, 16, 13, 11]\n"
        "tmin_c = [5, 5, 6, 7, 9, 12, 14, 14, 12, 10, 8, 6]\n",
    )  # fmt: skip
    assert usual(mild, "rhubarb", "ripe") < usual(here, "rhubarb", "ripe") - dt.timedelta(days=5)
    root = load_library()[0].kinds["horseradish"].harvest.season
    assert root is not None
    month, day = (int(part) for part in root.value[0].split("-"))
    for almanac in (here, mild):
        assert abs((usual(almanac, "horseradish", "ripe") - dt.date(2012, month, day)).days) <= 2
        forecast = almanac.forecasts["horseradish"]
        assert forecast.ripe is not None
        assert forecast.picked is not None
        assert (forecast.picked > forecast.ripe).all()
        assert forecast.ready == "ready to pick"


@pytest.mark.parametrize("cultivar", ["Court Pendu Plat", "Cortland"])
def test_a_stated_day_is_the_usual_one_however_late_the_cultivar_flowers(
    tmp_path: Path, cultivar: str
) -> None:
    """Court Pendu Plat flowers nine days after its kind, Cortland with it."""
    almanac = opened(tmp_path, plant("tree", "apple", f'cultivar = "{cultivar}"\nripe = "10-05"\n'))
    assert abs((usual(almanac, "tree", "ripe") - dt.date(2012, 10, 5)).days) <= 3
