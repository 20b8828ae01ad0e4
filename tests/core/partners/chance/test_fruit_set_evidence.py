"""What noted sets do to the computed chance."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.samples.partners import APPLE, PEAR, YEAR, blooms, garden, plant, reviewed

from leafturn.base.closed_words import FRUIT_SETS
from leafturn.base.tunables import USUAL
from leafturn.journal.entries import BloomNote, DamageNote, FruitSetNote, HarvestNote
from leafturn.partners.chance.fruit_set_evidence import evidence_words, posterior, relevance, set_shares
from leafturn.partners.observations import observed_bloom

FEW = settings(max_examples=60, deadline=None)
chance = st.floats(0, 1)
WORDS = st.sampled_from(FRUIT_SETS)


def after(computed, notes):
    """The chance of a year like the noted ones."""
    observed = set_shares(notes, USUAL)
    now = np.array([computed])
    tells = relevance(now, np.full(len(observed), computed), observed, USUAL)
    return float(posterior(now, tells, observed, USUAL)[0])


def test_noted_sets_are_counted_as_a_beta_counts_them():
    """Beta(2a, 2(1-a)) with k good of n years has the mean (2a + k) / (2 + n): Gelman et al. 2013, Bayesian
    Data Analysis, 2.4 (from memory)."""
    good = dict.fromkeys((2024, 2025, 2026), "good")
    assert after(0.4, good) == pytest.approx((2 * 0.4 + 3) / (2 + 3))
    assert after(0.4, {**good, 2023: "none"}) == pytest.approx((2 * 0.4 + 3) / (2 + 4))
    assert after(0.4, {}) == pytest.approx(0.4)


@FEW
@given(chance, chance, st.lists(st.tuples(chance, st.sampled_from(FRUIT_SETS)), max_size=6))
def test_a_greater_computed_chance_is_never_believed_less(one, other, notes):
    years = {2000 + n: word for n, (_, word) in enumerate(notes)}
    then, observed = np.array([c for c, _ in notes]), set_shares(years, USUAL)
    asked = np.sort([one, other])
    low, high = posterior(asked, relevance(asked, then, observed, USUAL), observed, USUAL)
    assert low <= high + 1e-12
    assert low >= 0
    assert high <= 1


def test_a_set_of_none_beside_a_sapling_says_little_of_the_years_when_it_flowers():
    none = np.zeros(3)
    asked = np.array([0.03, 0.5])
    now, later = posterior(asked, relevance(asked, np.full(3, 0.03), none, USUAL), none, USUAL)
    assert now == pytest.approx(0.03 * 2 / 5)
    assert later == pytest.approx(0.5)


def test_the_review_says_by_how_much_a_noted_set_moves_the_chance():
    here = garden(plant("cox", APPLE, 0, 0, cultivar="Cox"), plant("d", APPLE, 12, 0, cultivar="Discovery"))

    def cox(sets):
        found = reviewed(here, blooms(here), sets=sets).trees
        return next(r for r in found if r.plant == "cox")

    plain, bad = cox({}), cox({"cox": {2025: "none", 2026: "none"}})
    assert plain.set_words == ""
    assert plain.computed == plain.adequacy
    assert bad.computed == pytest.approx(plain.adequacy)
    assert bad.adequacy == pytest.approx(plain.adequacy / 2, rel=1e-4)
    assert bad.set_words in bad.reasons
    assert "Set noted none in 2025 and 2026: that lowers the computed chance from " in bad.set_words
    good = cox({"cox": {2026: "good"}})
    assert good.adequacy > plain.adequacy
    assert dict(good.by_year)[YEAR] == pytest.approx(good.adequacy)
    assert good.low <= good.adequacy <= good.high


def test_words():
    assert evidence_words({2026: "none"}, 0.001, 0.0005).endswith("as computed, hardly ever.")
    assert "raises the computed chance from 4 of 10 springs to 5 of 10 springs" in evidence_words(
        {2026: "fair"}, 0.40, 0.47
    )


def test_a_frosted_year_tells_nothing_of_partners_and_the_last_word_of_a_season_counts():
    notes = (
        FruitSetNote(on=dt.date(2025, 6, 1), plant="p", set="none"),
        DamageNote(on=dt.date(2025, 5, 3), plant="p", cause="late frost"),
        FruitSetNote(on=dt.date(2026, 6, 1), plant="p", set="poor"),
        FruitSetNote(on=dt.date(2026, 6, 9), plant="p", set="fair"),
        BloomNote(on=dt.date(2024, 5, 1), plant="q", stage="none this year"),
        HarvestNote(on=dt.date(2026, 8, 1), plant="q", kg=1),
    )
    told = observed_bloom(notes, southern=False)
    assert told.sets == {"p": {2026: "fair"}}
    assert told.first == {"p": 2026, "q": 2026}
    assert told.none == {"q": frozenset({2024})}


def test_a_season_in_the_south_has_the_year_of_its_july():
    told = observed_bloom((FruitSetNote(on=dt.date(2027, 1, 5), plant="p", set="good"),), southern=True)
    assert told.sets == {"p": {2026: "good"}}


def test_notes_of_a_year_before_the_partner_flowered_leave_its_years_alone():
    pears = garden(
        plant("comice", PEAR, 0, 0, cultivar="Comice", year=2010),
        plant("new", PEAR, 5, 0, cultivar="Bartlett", year=2023, rootstock="seedling"),
    )

    def by_year(sets):
        found = reviewed(pears, blooms(pears), sets=sets).trees
        return dict(next(r for r in found if r.plant == "comice").by_year)

    none = {"comice": dict.fromkeys(range(2019, 2027), "none")}
    assert by_year(none)[2035] == pytest.approx(by_year({})[2035])
