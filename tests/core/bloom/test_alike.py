"""Plants of which the same is known are told the same days, and yet do not all open at one stroke."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn.almanac import Almanac
from leafturn.base.arrays import median
from leafturn.journal.entries import BloomNote

ON = dt.date(2027, 4, 12)


@pytest.fixture(scope="module")
def almanac(tmp_path_factory: pytest.TempPathFactory) -> Almanac:
    """Four pears of no name, one of them noted; two of a name; a male and a female kiwi."""
    pears = [plant(f"pear-{n}", "pear", at=[6 * n, 0], year=2012) for n in range(4)]
    named = [plant(f"comice-{n}", "pear", cultivar="Comice", at=[6 * n, 9], year=2012) for n in range(2)]
    kiwis = [plant(f"kiwi-{sex}", "hardy kiwi", sex=sex, at=[30, 9], year=2012) for sex in ("male", "female")]
    text = garden_text(*pears, *named, *kiwis)
    noted = BloomNote(plant="pear-3", stage="first open", on=dt.date(2026, 4, 9))
    return almanac_of(tmp_path_factory.mktemp("alike"), text, ON, noted)


def test_what_is_told_of_one_is_told_of_all_alike(almanac: Almanac) -> None:
    blooms = almanac.forecasts
    for other in ("pear-1", "pear-2"):
        for stage in ("first_open", "full", "end", "ripe", "picked"):
            assert np.array_equal(getattr(blooms[other], stage), getattr(blooms["pear-0"], stage))
    assert np.array_equal(blooms["comice-0"].ripe, blooms["comice-1"].ripe)
    for other in ("pear-3", "comice-0"):
        assert not np.array_equal(blooms[other].full, blooms["pear-0"].full)
    assert blooms["kiwi-male"].ripe is None
    assert blooms["kiwi-female"].ripe is not None


def test_their_jobs_have_the_same_days_and_each_a_sentence_of_its_own(almanac: Almanac) -> None:
    jobs = {job.plant: job for job in almanac.jobs() if job.rule == "pick"}
    first, second = jobs["pear-0"], jobs["pear-1"]
    assert (first.open, first.best, first.close) == (second.open, second.best, second.close)
    assert "pear-1" in second.why[0]
    assert second.why[0].replace("pear-1", "pear-0") == first.why[0]


def test_pollen_is_reckoned_of_trees_that_go_their_own_ways(almanac: Almanac) -> None:
    """Two seedlings do not open on one day in every spring because no more is known of either."""
    apart = almanac._seasons.now.outlook.apart()
    one, other = apart["pear-0"].full, apart["pear-1"].full
    assert median(one) == pytest.approx(median(other), abs=2)
    assert np.mean(np.abs(one - other) > 1) > 0.5
