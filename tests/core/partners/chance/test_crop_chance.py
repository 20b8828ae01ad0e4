"""Pollen, frost and flying weather of one year together."""

from __future__ import annotations

import numpy as np
import pytest
from tests.samples.partners import (
    APPLE,
    DRAWS,
    QUINCE,
    bloom,
    blooms,
    garden,
    plant,
    reviewed,
    weather,
)

PAIR = garden(plant("cox", APPLE, 0, 0, cultivar="Cox"), plant("d", APPLE, 6, 0, cultivar="Discovery"))


def cox(forecasts=None, here=PAIR, **more):
    found = reviewed(here, forecasts or blooms(here), **more).trees
    return next(r for r in found if r.plant == here.plants[0].id)


def test_without_losses_known_no_crop_is_told():
    assert cox().crop is None


def test_where_all_years_are_alike_the_crop_is_the_product():
    found = cox(crop_lost={"cox": np.full(DRAWS, 0.25)})
    assert found.crop == pytest.approx(found.adequacy * 0.75)
    assert cox(crop_lost={"cox": np.zeros(DRAWS)}).crop == pytest.approx(found.adequacy)
    assert cox(crop_lost={"cox": np.ones(DRAWS)}).crop == 0


def test_frost_and_pollen_of_the_same_years_are_joined():
    """In half of the years the two bloom together. Whether frost takes those or the others is all the
    difference, though the chance of pollen and of frost are the same in both cases."""
    together = np.arange(DRAWS) % 2 == 0
    start = np.full(DRAWS, 170.0)
    other = np.where(together, 170.0, 190.0)
    forecasts = {"cox": bloom("cox")}
    made = bloom("d")
    forecasts["d"] = type(made)(plant="d", first_open=other, full=other + 4, end=other + 12)
    assert np.array_equal(forecasts["cox"].first_open, start)
    spared = cox(forecasts, crop_lost={"cox": np.where(together, 0.0, 1.0)})
    taken = cox(forecasts, crop_lost={"cox": np.where(together, 1.0, 0.0)})
    assert spared.adequacy == taken.adequacy
    assert spared.crop == pytest.approx(spared.adequacy)
    assert taken.crop == pytest.approx(0)


def test_a_bloom_all_cold_and_wet_sets_little_whoever_stands_beside_it():
    warm = cox(weather=weather(20.0, 0.0), crop_lost={"cox": np.zeros(DRAWS)})
    cold = cox(weather=weather(5.0, 8.0), crop_lost={"cox": np.zeros(DRAWS)})
    assert cold.adequacy == pytest.approx(warm.adequacy), "the same share of the days is covered"
    assert warm.crop == pytest.approx(warm.adequacy)
    assert cold.crop < 0.2 * warm.crop


def test_what_fruits_alone_loses_only_what_frost_takes():
    alone = garden(plant("quince", QUINCE, 0, 0))
    found = cox(here=alone, crop_lost={"quince": np.full(DRAWS, 0.5)})
    assert found.crop == pytest.approx(found.adequacy / 2)


def test_losses_of_another_number_of_draws_are_not_guessed_at():
    assert cox(crop_lost={"cox": np.zeros(7)}).crop is None
