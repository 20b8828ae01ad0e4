"""Speed of the soil's arithmetic, as a ratio to a plain loop in the same run."""

from __future__ import annotations

import numpy as np
import pytest
from tests.bench.timing import best_of

from leafturn.soil.water.balance import DEVELOPMENT_DAYS, LATE_DAYS, Buckets, water_balance

pytestmark = pytest.mark.bench

PLACES, YEARS, DAYS = 200, 30, 275


def test_root_zones_against_a_plain_loop():
    """Two hundred places in thirty years; the plain loop does one place in two years and is scaled."""
    rng = np.random.default_rng(5)
    buckets = Buckets(
        total_mm=rng.uniform(30, 250, PLACES),
        share=rng.uniform(0.3, 0.7, PLACES),
        bare=np.full(PLACES, 0.5),
        leafy=rng.uniform(0.1, 0.7, PLACES),
        leaf_out=rng.uniform(150, 190, (PLACES, YEARS)),
        leaf_fall=rng.uniform(340, 370, (PLACES, YEARS)),
    )
    demand, rain = rng.uniform(0.5, 6, (YEARS, DAYS)), rng.gamma(0.2, 10, (YEARS, DAYS))

    def plain(place, year):
        used, evenings = 0.0, []
        for day in range(DAYS):
            leaves = min(
                (121 + day - buckets.leaf_out[place, year]) / DEVELOPMENT_DAYS,
                (buckets.leaf_fall[place, year] - 121 - day) / LATE_DAYS,
            )
            factor = buckets.bare[place] + buckets.leafy[place] * min(max(leaves, 0.0), 1.0)
            wanted = factor * demand[year, day]
            total = buckets.total_mm[place]
            ready = total * min(max(buckets.share[place] + 0.04 * (5 - wanted), 0.1), 0.8)
            if rain[year, day] >= 0.2 * demand[year, day]:
                used = max(used - rain[year, day], 0.0)
            left = min(max((total - used) / (total - ready), 0.0), 1.0)
            used = min(used + left * wanted, total)
            evenings.append(used)
        return evenings

    def loop():
        return [plain(7, year) for year in (0, 1)]

    def ours():
        return water_balance(buckets, demand, rain, None, 121)

    found, evenings = ours(), loop()
    best, two_years = best_of(ours, loop)
    loop_all = two_years * PLACES * YEARS / 2
    np.testing.assert_allclose(found.depletion[:, 7, :2].T, evenings, atol=1e-3)
    print(f"{PLACES} root zones x {YEARS} years: {best * 1e3:.0f} ms, {loop_all / best:.0f} x plain loop")
    assert loop_all / best >= 30
