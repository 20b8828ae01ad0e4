"""A kind in a climate, and how its levels vary at one place."""

from __future__ import annotations

import msgspec
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from leafturn.bloom.priors.fitted import FittedKind, Provenance, fitted
from leafturn.bloom.priors.level_spreads import WithinPlace, eked_out, within_place
from leafturn.bloom.priors.prior import BloomPrior, KindHere, LevelSpreads
from leafturn.bloom.priors.response import Response
from leafturn.bloom.priors.site_table import SiteTable, weighted_median
from leafturn.kinds.library import load_library

SITES = 40
WINTER = np.linspace(-5, 15, SITES)
TABLE = SiteTable(
    winter=WINTER, level=3.0 + 0.05 * WINTER, level_variance=np.where(WINTER > 10, 0.04, 0.01),
    notes=np.full(SITES, 20), day=110 - 4 * WINTER, day_spread=np.full(SITES, 7.0),
)  # fmt: skip
USUAL = KindHere(levels=LevelSpreads(middle=3.25), day=90.0)
WITHIN = WithinPlace(variance=0.01, drift_share=0.4, drift_years=4.0)
PRIOR = BloomPrior(
    response=Response(), usual=USUAL, climates=TABLE.climates(USUAL, WITHIN), winters=TABLE.winters
)


@settings(max_examples=30, deadline=None)
@given(winter=st.floats(-3, 13))
def test_sites_of_like_winters_say_how_the_kind_is_here(winter: float) -> None:
    here = PRIOR.at(winter)
    assert here.levels.middle == pytest.approx(3.0 + 0.05 * winter, abs=0.06)
    assert here.day == pytest.approx(110 - 4 * winter, abs=5)
    assert here.degrees_outside == 0.0


def test_levels_vary_more_where_like_sites_vary_more() -> None:
    assert PRIOR.at(14.0).levels.chance > 2 * PRIOR.at(0.0).levels.chance


def test_between_two_climates_every_number_lies_on_the_line() -> None:
    (low, one), (high, other) = PRIOR.climates[3:5]
    between = PRIOR.at(low + 0.25 * (high - low))
    for part, a, b in [
        (between.day, one.day, other.day),
        (between.levels.middle, one.levels.middle, other.levels.middle),
        (between.levels.lasting, one.levels.lasting, other.levels.lasting),
        (between.year_spread, one.year_spread, other.year_spread),
    ]:
        assert part == pytest.approx(0.75 * a + 0.25 * b)


@pytest.mark.parametrize("winter", [None, float("nan")])
def test_without_a_climate_the_kind_in_general_stands(winter: float | None) -> None:
    assert PRIOR.at(winter) is PRIOR.usual
    assert replace(PRIOR, climates=()).at(3.0) is PRIOR.usual
    assert PRIOR.typical_day == 90.0


def test_a_climate_like_no_site_is_met_with_wide_spreads() -> None:
    low, high = PRIOR.winters
    mild, cold = PRIOR.at(high + 7.0), PRIOR.at(low - 7.0)
    assert [mild.degrees_outside, cold.degrees_outside] == pytest.approx([6.0, 6.0])
    nearest = PRIOR.at(high)
    assert (mild.day, mild.levels.middle) == (nearest.day, nearest.levels.middle)
    # A winter too mild may leave the need of cold unmet; a colder one meets every need.
    grown = [here.levels.lasting - PRIOR.at(w).levels.lasting for here, w in ((mild, high), (cold, low))]
    assert grown[0] > 10 * grown[1] > 0
    assert PRIOR.at(high + 0.9).degrees_outside == 0.0


@pytest.fixture
def provenance() -> Provenance:
    return Provenance(records="invented", species="none", sites=40, notes=800, years=(1980, 2019))


def test_a_fitted_prior_is_written_and_read_again(provenance: Provenance) -> None:
    prior = replace(
        PRIOR, response=Response(saturation=22.6, day_length_rate=0.05), widening=1.2, widening_ahead=1.3
    )
    written = msgspec.toml.encode({"kind": FittedKind.of(prior, provenance)})
    (found,) = msgspec.toml.decode(written, type=dict[str, FittedKind]).values()
    assert found.provenance == provenance
    again = found.prior()
    assert again.usual == prior.usual
    assert (again.response, again.origin) == (prior.response, "fitted")
    assert (again.widening, again.widening_ahead) == (1.2, 1.3)
    assert again.winters == pytest.approx(prior.winters)
    for winter in (-20.0, -4.0, 0.3, 8.8, 14.9, 30.0):
        assert again.at(winter) == prior.at(winter)


@pytest.mark.long
def test_a_kind_learnt_from_records_is_written_and_read_again(
    learnt: BloomPrior, provenance: Provenance
) -> None:
    again = FittedKind.of(learnt, provenance).prior()
    assert again == replace(learnt, winters=again.winters)
    assert again.winters == pytest.approx(learnt.winters)


def test_packaged_priors_are_of_kinds_the_library_has() -> None:
    kinds = load_library()[0].kinds
    for name, prior in fitted().items():
        assert name in kinds
        assert prior.winters[0] <= prior.winters[1]
        assert np.isfinite([prior.usual.day, prior.usual.levels.middle]).all()


@settings(max_examples=40, deadline=None)
@given(st.lists(st.tuples(st.floats(-100, 100), st.integers(1, 9)), min_size=1, max_size=9))
def test_a_weighted_median_is_that_of_values_written_so_often(values: list[tuple[float, int]]) -> None:
    numbers, often = (np.array(column, dtype=float) for column in zip(*values, strict=True))
    repeated = np.sort(np.repeat(numbers, often.astype(int)))
    found = weighted_median(numbers, often)
    assert repeated.min() <= found <= repeated.max()
    # no more than half of the weight, give or take one value's own, lies on either side
    assert (often[numbers < found]).sum() <= often.sum() / 2 + often.max() / 2
    assert (often[numbers > found]).sum() <= often.sum() / 2 + often.max() / 2


def invented_levels(drift: float, years: float, chance: float) -> tuple[np.ndarray, ...]:
    """Sixty sites of forty years: a level for good, one that drifts (first order), and chance."""
    draw = np.random.default_rng(11)
    keep = np.exp(-1 / years)
    site, year, level = [], [], []
    for number in range(60):
        wandering = draw.normal(0, drift**0.5)
        lasting = draw.normal(3, 0.1)
        for when in range(1970, 2010):
            site.append(number)
            year.append(when)
            level.append(lasting + wandering + draw.normal(0, chance**0.5))
            wandering = keep * wandering + draw.normal(0, (drift * (1 - keep**2)) ** 0.5)
    return np.array(site), np.array(year), np.array(level)


@pytest.mark.parametrize(("drift", "chance"), [(0.004, 0.006), (0.002, 0.01), (0.006, 0.003)])
def test_drift_and_chance_are_told_apart(drift: float, chance: float) -> None:
    within = within_place(*invented_levels(drift, 4.0, chance))
    assert within.variance == pytest.approx(drift + chance, rel=0.2)
    assert within.drift_share == pytest.approx(drift / (drift + chance), abs=0.12)
    assert 1.5 <= within.drift_years <= 10


def test_few_notes_leave_the_usual_parts() -> None:
    within = within_place(np.array([0, 0, 1]), np.array([2000, 2001, 2000]), np.array([3.0, 3.5, 3.1]))
    assert within == WithinPlace(
        variance=pytest.approx(0.01), drift_share=pytest.approx(0.4), drift_years=4.0
    )


def test_seen_and_usual_are_weighed_by_how_often() -> None:
    assert eked_out(10.0, 3, 2.0, 1) == 8.0
