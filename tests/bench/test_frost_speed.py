"""Speed of frost losses and a cold night: against a plain loop, and against the forecasts they stand on."""

from __future__ import annotations

import datetime as dt
import math

import numpy as np
import pytest
from tests.bench.timing import seconds
from tests.samples.places import DEMO

from leafturn.almanac import open_almanac
from leafturn.bloom.frost.bud_stages import BudDates, Hardiness
from leafturn.bloom.frost.loss import frost_losses

pytestmark = pytest.mark.bench

PLANTS = 2000
KINDS = (
    "apple",
    "pear",
    "european plum",
    "sweet cherry",
    "hardy kiwi",
    "hazel",
    "redcurrant",
    "quince",
    "comfrey",
)


@pytest.fixture(scope="module")
def big(tmp_path_factory: pytest.TempPathFactory):
    """Two thousand plants in the demo garden's weather."""
    folder = tmp_path_factory.mktemp("big")
    head = (DEMO / "garden.toml").read_text(encoding="utf-8").split("[[plant]]")[0]
    plants = (
        f'[[plant]]\nid = "p{n}"\nkind = "{KINDS[n % len(KINDS)]}"\nyear = 2005\nat = [{n % 50}, {n // 50}]\n'
        for n in range(PLANTS)
    )
    (folder / "garden.toml").write_text(head + "\n".join(plants), encoding="utf-8")
    (folder / "weather.csv").write_bytes((DEMO / "weather.csv").read_bytes())
    return open_almanac(folder, dt.date(2027, 4, 19))


def test_losses_of_a_plant_against_a_loop_over_its_nights(big) -> None:
    season = big._seasons.now
    forecasts, weather, pocket = season.forecasts, season.weather, big.garden.place.frost_pocket_c
    kinds = {plant.id: big.library.match(plant.kind).kind for plant in big.garden.plants}

    def loop() -> float:
        """One pear in plain Python, its places already known."""
        total = 0.0
        for draw, row in enumerate(places):
            worst = 0.0
            for day, place in enumerate(row):
                night = nights[draw // 8][day]
                if night <= 0.0 and hardiness.first <= place <= 3.0:
                    tenth = float(np.interp(place, hardiness.places, hardiness.tenth_c))
                    nine_tenths = float(np.interp(place, hardiness.places, hardiness.nine_tenths_c))
                    if night <= tenth:
                        middle = (tenth + nine_tenths) / 2
                        odds = 2 * math.log(9) * (middle - night) / (tenth - nine_tenths)
                        worst = max(worst, 1 / (1 + math.exp(-odds)))
            total += worst
        return total / len(places)

    pear = next(plant for plant in kinds if kinds[plant].name == "pear")
    hardiness = Hardiness.of(kinds[pear])
    assert hardiness is not None
    dates = BudDates([forecasts[pear]], kinds[pear], weather)
    days = np.arange(weather.now.tmin.shape[1])[None, :]
    places = dates.place(days)[0].reshape(-1, days.size).tolist()
    nights = (weather.now.tmin + pocket).tolist()

    told = sum(Hardiness.of(kind) is not None for kind in kinds.values())
    ours = seconds(lambda: frost_losses(forecasts, kinds, weather, pocket)) / told
    plain = seconds(loop, rounds=1)
    found = frost_losses({pear: forecasts[pear]}, kinds, weather, pocket)[pear]
    assert found.mean_share == pytest.approx(loop(), abs=0.01)
    print(f"frost losses: {ours * 1e3:.2f} ms a plant ({told} told of), {plain / ours:.0f} x a plain loop")
    assert plain / ours >= 40


def test_a_cold_night_costs_less_than_the_forecasts_it_stands_on(big) -> None:
    forecasts = seconds(lambda: big.at(big.on).forecasts, rounds=1)
    assert big.at(big.on).forecasts
    assert len(big.tonight(-3.0).plants) > PLANTS / 3
    night = seconds(lambda: big.tonight(-3.0))
    print(f"a cold night over {PLANTS} plants: {night * 1e3:.0f} ms, forecasts {forecasts * 1e3:.0f} ms")
    assert night < forecasts
