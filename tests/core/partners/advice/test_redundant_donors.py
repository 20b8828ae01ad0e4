"""Males that nobody would miss, and what each partner adds."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.samples.partners import APPLE, KIWI, PEAR, YEAR, blooms, garden, plant, reviewed

FEW = settings(max_examples=30, deadline=None)


def answer(*plants):
    here = garden(*plants)
    return reviewed(here, blooms(here))


def chances(*plants):
    return {r.plant: dict(r.by_year)[YEAR + 15] for r in answer(*plants).trees}


def female(n, east, north=0.0):
    return plant(f"f{n}", KIWI, east, north, sex="female")


def male(n, east, north=0.0, **more):
    return plant(f"m{n}", KIWI, east, north, sex="male", **more)


def test_the_only_male_is_not_spare_and_a_far_one_is():
    found = answer(female(1, 0), male(1, 3), male(2, 400))
    assert [s.plant for s in found.redundant_donors] == ["m2"]


def test_of_three_males_round_one_female_each_could_go():
    found = answer(female(1, 0), *(male(n, 0.5, 0.2 * n) for n in range(3)))
    assert [s.plant for s in found.redundant_donors] == ["m0", "m1", "m2"]


def test_a_male_that_others_need_to_share_the_work_is_not_spare():
    """Eight females a male is all one serves here, so that sixteen want both."""
    females = [female(n, 0.3 * n, 1.0) for n in range(16)]
    assert answer(*females, male(1, 2), male(2, 2.2)).redundant_donors == ()


def test_a_young_male_is_not_spare():
    assert answer(female(1, 0), male(1, 3, year=YEAR - 1)).redundant_donors == ()


def test_a_fruit_tree_is_never_called_spare_but_one_kept_for_its_pollen_is():
    cox, other = plant("a", APPLE, 0, 0, cultivar="Cox"), plant("b", APPLE, 400, 0, cultivar="Discovery")
    assert answer(cox, other).redundant_donors == ()
    marked = plant("b", APPLE, 400, 0, cultivar="Discovery", role=("pollinizer",))
    assert [s.plant for s in answer(cox, marked).redundant_donors] == ["b"]


@FEW
@given(st.data())
def test_a_spare_plant_taken_away_lowers_no_chance_by_more_than_it_says(data):
    place = st.tuples(st.floats(-25, 25), st.floats(-25, 25))
    females = [female(n, *data.draw(place)) for n in range(data.draw(st.integers(1, 9)))]
    males = [male(n, *data.draw(place)) for n in range(data.draw(st.integers(1, 3)))]
    before = chances(*females, *males)
    for redundant_donors in answer(*females, *males).redundant_donors:
        after = chances(*females, *(m for m in males if m.id != redundant_donors.plant))
        falls = max(before[f.id] - after[f.id] for f in females)
        assert falls == pytest.approx(redundant_donors.most_lost, abs=1e-6)
        assert falls <= 0.02 + 1e-6


def test_what_a_partner_adds_is_what_its_absence_takes():
    comice = plant("comice", PEAR, 0, 0, cultivar="Comice")
    bosc, bartlett = (
        plant(name.lower(), PEAR, east, 0, cultivar=name) for name, east in (("Bosc", 6), ("Bartlett", 15))
    )
    both = next(r for r in answer(comice, bosc, bartlett).trees if r.plant == "comice")
    alone = next(r for r in answer(comice, bartlett).trees if r.plant == "comice")
    adds = {p.plant: p.adds for p in both.partners}
    assert adds["bosc"] == pytest.approx(both.adequacy - alone.adequacy, abs=1e-5)
    assert adds["bosc"] > adds["bartlett"] > 0
