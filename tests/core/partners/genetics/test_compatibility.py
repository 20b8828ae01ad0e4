"""Who can fertilise whom, rule by rule, on hand-made genotypes."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from tests.samples.partners import LIBRARY, plant

from leafturn.base.tunables import USUAL
from leafturn.kinds.model import Fact
from leafturn.kinds.specimen import Specimen
from leafturn.partners.chance.shares import FULL, NONE
from leafturn.partners.genetics.compatibility import gametophytic_share, judge, sporophytic_share
from leafturn.partners.genetics.genotype import genotype_of
from leafturn.partners.genetics.published_lists import is_listed, published_doubt
from leafturn.partners.genetics.self_fertility import self_share


def of(name, **more):
    """What is known of a plant of this kind."""
    kind = LIBRARY.kinds[name]
    return genotype_of(Specimen(plant("x", kind, **more), kind, LIBRARY))


def test_two_of_one_cultivar_are_one_tree_and_a_sport_is_that_tree_too():
    comice, red = of("pear", cultivar="Comice"), of("pear", cultivar="Red Comice")
    assert judge(comice, of("pear", cultivar="comice")).compatible == NONE
    assert judge(comice, red).compatible == judge(red, comice).compatible == NONE
    assert "same clone" in str(judge(comice, red).refused)


def test_a_cultivar_the_library_lacks_is_no_proven_partner():
    one, other = of("european plum", cultivar="Grandmother's"), of("european plum", cultivar="Mill Plum")
    assert judge(one, of("european plum", cultivar="grandmothers")).compatible == NONE
    strangers = judge(one, other)
    assert strangers.compatible == (0, USUAL["partner_unknown_cultivar"], 1)
    assert (
        str(strangers.unknown)
        == "may or may not suit: the plant library knows neither Mill Plum nor Grandmother's"
    )
    pears = [of("pear", cultivar=name, s_alleles=s) for name, s in (("A", ("S1", "S2")), ("B", ("S3", "S4")))]
    assert judge(*pears).compatible == FULL, "alleles in the garden file prove it"


def test_an_unnamed_tree_may_be_a_clone_but_a_seedling_is_not():
    named, unnamed = of("pear", cultivar="Comice"), of("pear")
    share = judge(named, unnamed).compatible
    assert share.low == 0
    assert 0 < share.likely < 1
    assert share.high == 1
    assert "clone" in str(judge(named, unnamed).unknown)
    seedling = judge(of("european plum"), of("european plum", raised="seedling"))
    assert seedling.compatible == FULL


def test_groups_that_do_not_cross():
    verdict = judge(of("european plum"), of("myrobalan plum", raised="seedling"))
    assert verdict.compatible == NONE
    assert str(verdict.refused) == "is a myrobalan plum, which does not cross with european plum"


def test_gametophytic_pollen_grows_by_the_grain():
    assert gametophytic_share(("S1", "S2"), ("S1", "S2")) == 0
    assert gametophytic_share(("S1", "S2"), ("S1", "S3")) == 0.5
    assert gametophytic_share(("S1", "S2"), ("S3", "S4")) == 1
    assert gametophytic_share(("S1", "S4"), ("S1", "S4'")) == 0.5, "the primed allele is refused nowhere"
    assert gametophytic_share(("S1", "S4'"), ("S1", "S4")) == 0, "but its pistil still refuses plain S4"


def test_sporophytic_pollen_is_refused_whole_or_not_at_all():
    assert sporophytic_share(("S1", "S3"), ("S1", "S2"), ("S1",)) == NONE
    assert sporophytic_share(("S1", "S2"), ("S1", "S3"), ("S3",)) == FULL
    assert sporophytic_share(("S1", "S2"), ("S1", "S3"), None) == (0, 0.5, 1)
    assert sporophytic_share(("S1", "S2"), ("S1", "S2"), None) == NONE


def test_half_compatible_pollen_works_and_is_marked_down():
    half = judge(
        of("pear", s_alleles=("1", "2"), cultivar="A"), of("pear", s_alleles=("s1", "S3"), cultivar="B")
    )
    assert half.compatible == (0.5, USUAL["partner_semi_compatible"], 1.0)
    assert "half its pollen" in str(half.refused)


def test_alleles_written_in_the_garden_go_before_the_library():
    own = of("hazel", cultivar="Barcelona", s_alleles=("S8", "S9"))
    assert judge(of("hazel", cultivar="Jefferson"), own).compatible == FULL


def test_triploids_take_but_do_not_give():
    boskoop, discovery = of("apple", cultivar="Boskoop"), of("apple", cultivar="Discovery")
    assert judge(discovery, boskoop).pollen.likely == pytest.approx(0.05)
    assert str(judge(discovery, boskoop).poor) == "is triploid: its pollen is poor"
    assert judge(boskoop, discovery).pollen == FULL
    assert judge(boskoop, discovery).compatible.likely > 0.8


def test_sexes():
    female, male = of("hardy kiwi", sex="female"), of("hardy kiwi", sex="male")
    assert judge(female, male).compatible == FULL, "a male and a female are never one clone"
    assert judge(female, of("hardy kiwi", sex="female")).compatible == NONE
    assert str(judge(female, of("hardy kiwi", sex="female")).refused) == "is female too"
    unknown = judge(female, of("hardy kiwi", raised="seedling"))
    assert unknown.compatible == (0, USUAL["partner_unknown_sex"], 1)
    assert "no sex noted" in str(unknown.unknown)


def test_flower_order_is_left_to_the_days():
    first, second = of("heartnut", flower_order="female first"), of("heartnut", flower_order="female first")
    assert judge(first, second).compatible == FULL


genotypes = st.builds(
    lambda kind, name, alleles, sex: of(kind, cultivar=name, s_alleles=alleles, sex=sex),
    st.sampled_from(["pear", "apple", "hazel", "hardy kiwi"]),
    st.sampled_from([None, "Comice", "Boskoop", "Barcelona", "Mill"]),
    st.lists(st.sampled_from(["S1", "S2", "S3", "S4'"]), min_size=0, max_size=2, unique=True).map(tuple),
    st.sampled_from([None, "female", "male", "both"]),
)


@settings(max_examples=60, deadline=None)
@given(genotypes, genotypes)
def test_every_verdict_is_an_ordered_share(recipient, donor):
    verdict = judge(recipient, donor)
    for share in (verdict.compatible, verdict.pollen):
        assert 0 <= share.low <= share.likely <= share.high <= 1
    if verdict.compatible == NONE:
        assert verdict.refused, "a refusal always has a reason"


def test_groups_that_cross_in_part_do_so_both_ways_with_a_range():
    crosses = {frozenset(("european plum", "diploid plum")): Fact(0.4, "made up", "guess")}
    plums = [of(kind, raised="seedling") for kind in ("european plum", "myrobalan plum")]
    for recipient, donor in (plums, plums[::-1]):
        assert judge(recipient, donor).compatible == NONE
        part = judge(recipient, donor, crosses=crosses)
        assert part.compatible == pytest.approx((0.2, 0.4, 0.6))
        assert "serves" in str(part.refused)
    sure = {frozenset(("european plum", "diploid plum")): Fact(0.4, "made up", "sure")}
    assert judge(*plums, crosses=sure).compatible == pytest.approx((0.4, 0.4, 0.4))


def test_a_plant_that_bears_both_sexes_gives_pollen_and_may_set_its_own():
    both = of("hardy kiwi", sex="both")
    female = of("hardy kiwi", sex="female")
    assert judge(female, both).compatible.high == 1
    assert 0 < self_share(both).low < self_share(both).likely < self_share(both).high < 1
    assert self_share(female).likely == 0


@pytest.mark.parametrize(
    ("named", "refused", "compatible", "said"),
    [
        (("B",), (), None, ""),
        ((), ("B",), NONE, "does not serve A (page 2)"),
        (("B",), ("B",), (0, USUAL["partner_disputed"], 1), "named by page 1, refused by page 2"),
        ((), (), None, ""),
    ],
)
def test_pages_may_name_refuse_or_dispute_a_pair(named, refused, compatible, said):
    a = replace(
        of("pear", cultivar="Comice"), cultivar="A",
        pollinated_by=Fact(named, "page 1", "fair"), not_pollinated_by=Fact(refused, "page 2", "fair"),
    )  # fmt: skip
    b = replace(of("pear", cultivar="Conference"), cultivar="B")
    doubt = published_doubt(a, b, USUAL)
    assert (doubt and doubt.compatible) == compatible
    assert said in str((doubt and (doubt.refused or doubt.unknown)) or "")
    assert is_listed(a, b) == ("B" in named)
    assert published_doubt(a, of("apple", cultivar="Boskoop"), USUAL) is None
