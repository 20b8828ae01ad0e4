"""Published facts on who fertilises whom, asked of the plant library and the partner rules together.

Each check names its source. "Seen" means that the page or abstract was read for this check, "from
memory" that it was not.
"""

from __future__ import annotations

from itertools import combinations, permutations

import numpy as np
import pytest
from tests.samples.partners import reviewed

from leafturn.bloom.model import BloomForecast
from leafturn.garden.model import Garden, Place, Plant, Point
from leafturn.kinds.library import load_library
from leafturn.kinds.specimen import specimen_of
from leafturn.partners.chance.shares import FULL, NONE
from leafturn.partners.genetics.compatibility import judge
from leafturn.partners.genetics.genotype import genotype_of

LIBRARY, _ = load_library()
DRAWS = 400


def tree(kind, cultivar=None, **more):
    return genotype_of(specimen_of(Plant(kind=kind, cultivar=cultivar, **more), LIBRARY))


def verdict(kind, recipient, donor):
    return judge(tree(kind, recipient), tree(kind, donor))


def known(kind, *names):
    """The names, all of which the library must know."""
    for name in names:
        assert LIBRARY.cultivar(LIBRARY.match(kind).kind, name), f"{name} is not in the library"
    return names


def review(*plants):
    """Grown trees on one spot, all opening at one time give or take two days."""
    grown = [
        Plant(id=f"p{n}", year=1980, point=Point(float(n), 0.0), **more) for n, more in enumerate(plants)
    ]
    forecasts = {}
    for n, p in enumerate(grown):
        start = 170 + np.random.default_rng(n).normal(0, 2, DRAWS)
        forecasts[p.id] = BloomForecast(plant=p.id, first_open=start, full=start + 4, end=start + 12)
    garden = Garden(place=Place(lat=47, lon=15), plants=tuple(grown))
    return {r.plant: r for r in reviewed(garden, forecasts, 2027, library=LIBRARY).trees}


# --- hazel --------------------------------------------------------------------------------------


def test_barcelona_cannot_serve_jefferson_but_jefferson_serves_barcelona():
    """Barcelona S1 S2 sheds S1 (a nursery's chart, seen); Jefferson S1 S3 sheds S3 (Oregon hazelnut page and
    Grimo's cultivar list, seen); the rule: Mehlenbacher 2014, J. Amer. Soc. Hort. Sci. 139:191-212 (abstract
    seen): both alleles act in the stigma, often only one in the pollen."""
    assert verdict("hazel", "Jefferson", "Barcelona").compatible == NONE
    assert verdict("hazel", "Barcelona", "Jefferson").compatible == FULL


@pytest.mark.parametrize("donor", ["Felix", "Eta", "Theta"])
def test_the_pollenizers_recommended_for_jefferson_serve_it(donor):
    """An Oregon hazelnut page, seen, recommends these three; HortScience 53:904 (seen) has Felix for it."""
    known("hazel", "Jefferson", donor)
    assert verdict("hazel", "Jefferson", donor).compatible == FULL


@pytest.mark.parametrize("recipient", ["Yamhill", "Dorris", "Wepster", "McDonald"])
def test_york_is_not_refused_by_the_cultivars_it_was_released_for(recipient):
    """HortScience 53:904 (Mehlenbacher, Smith, McCluskey 2018; abstract seen)."""
    known("hazel", recipient, "York")
    assert verdict("hazel", recipient, "York").compatible.high == 1


# --- pear ---------------------------------------------------------------------------------------


def test_bartlett_and_seckel_refuse_each_other_and_comice_and_bartlett_do_not():
    """Bartlett and Seckel: extension pages and growers (pages seen that repeat it); Washington State
    University names Bartlett for Seckel all the same. Comice S4 S5 and Bartlett S1 S2: a nursery's table,
    second-hand; authors number pear alleles differently."""
    known("pear", "Bartlett", "Seckel", "Comice")
    assert verdict("pear", "Bartlett", "Seckel").compatible == NONE
    doubted = verdict("pear", "Seckel", "Bartlett")
    assert doubted.compatible.likely < 0.45
    assert "in dispute" in str(doubted.unknown)
    assert verdict("pear", "Comice", "Bartlett").compatible == FULL
    assert verdict("pear", "Bartlett", "Comice").compatible == FULL


def test_a_red_sport_is_no_partner():
    """Max Red Bartlett arose as a sport of Bartlett (common practice, no source)."""
    assert verdict("pear", "Bartlett", "Max Red Bartlett").compatible == NONE
    assert verdict("pear", "Williams", "Bartlett").compatible == NONE, "two names of one cultivar"


@pytest.mark.parametrize("pollinator", [("Sb", "Sk"), ("Si", "Sj"), ("Sk", "Sl")])
def test_spadonas_pollinators_are_half_compatible(pollinator):
    """Zisovich, Stern, Shafir, Goldway 2004 (abstract seen): Spadona SjSk, its pollinators Coscia SbSk,
    Gentile SiSj and Spadochina SkSl each share one allele, so half their pollen is rejected."""
    spadona = tree("pear", "Spadona", s_alleles=("Sj", "Sk"))
    share = judge(spadona, tree("pear", "pollinator", s_alleles=pollinator)).compatible
    assert share.low == 0.5
    assert 0.5 < share.likely < 1


# --- sweet cherry -------------------------------------------------------------------------------

# Groups as in the sweet-cherry pollination table of the Australian nursery-fruit improvement company, 2014
# (names and groups seen; which name stands in which column from memory, after Schuster 2012).
CHERRY_GROUPS = {
    "I, S1S2": ("Summit", "Black Tartarian"),
    "II, S1S3": ("Van", "Regina", "Cristalina", "Samba"),
    "III, S3S4": ("Bing", "Lambert", "Napoleon", "Emperor Francis"),
    "VI, S3S6": ("Kordia", "Stark's Gold"),
    "IX, S1S4": ("Rainier", "Sylvia", "Hudson"),
    "XIII, S2S4": ("Sam", "Royalton"),
    "XVI, S3S9": ("Chelan", "Tieton", "Burlat"),
    "XXII, S3S12": ("Schneiders", "0900 Ziraat"),
}
UNIVERSAL_DONORS = ("Lapins", "Stella", "Sweetheart", "Sunburst", "Skeena", "Santina")


@pytest.mark.parametrize("group", CHERRY_GROUPS)
def test_cherries_of_one_group_fail(group):
    """Self-sterile cultivars need a pollinizer from a different group (table's note, seen)."""
    for one, other in permutations(known("sweet cherry", *CHERRY_GROUPS[group]), 2):
        assert verdict("sweet cherry", one, other).compatible == NONE, (one, other)


@pytest.mark.parametrize(("one", "other"), list(combinations(CHERRY_GROUPS, 2)))
def test_cherries_of_different_groups_work_both_ways(one, other):
    """Sharing one allele is enough to differ: half the grains then grow (Schuster 2012, from memory)."""
    first, second = CHERRY_GROUPS[one][0], CHERRY_GROUPS[other][0]
    assert verdict("sweet cherry", first, second).compatible.likely > 0.5
    assert verdict("sweet cherry", second, first).compatible.likely > 0.5


@pytest.mark.parametrize("donor", UNIVERSAL_DONORS)
def test_the_self_fertile_cherries_serve_all_and_themselves(donor):
    """The same table (seen) heads them self-fertile with the S4' allele, universal donors."""
    known("sweet cherry", donor)
    for names in CHERRY_GROUPS.values():
        for recipient in names:
            assert verdict("sweet cherry", recipient, donor).compatible.likely > 0.5, recipient
    alone = review({"kind": "sweet cherry", "cultivar": donor})["p0"]
    assert alone.standing == "needs none"


# --- apple --------------------------------------------------------------------------------------


TRIPLOIDS = (
    "Boskoop", "Bramley's Seedling", "Gravenstein", "Jonagold", "Mutsu", "Blenheim Orange", "Ribston Pippin",
)  # fmt: skip


@pytest.mark.parametrize("name", TRIPLOIDS)
def test_triploid_apples_take_and_do_not_give(name):
    """Extension and orchard pages, seen: poor pollen; a triploid and two others are wanted. Crane and
    Lawrence, second-hand, counted a few fruits after triploid pollen, so it is not nought."""
    known("apple", name, "Discovery")
    gives = verdict("apple", "Discovery", name)
    takes = verdict("apple", name, "Discovery")
    assert 0 < gives.pollen.likely <= 0.05
    assert gives.pollen.high > 0.05
    assert takes.pollen == FULL
    assert takes.compatible.likely > 0.7


def test_a_triploid_beside_one_other_leaves_the_other_without():
    """A growers' page, seen: the Bramley crops well, and the other apple tree never produces a thing."""
    apples = review(
        {"kind": "apple", "cultivar": "Bramley's Seedling"}, {"kind": "apple", "cultivar": "Discovery"}
    )
    assert apples["p0"].standing == "served"
    assert apples["p1"].standing == "lacks"


# --- nuts with two orders of flowering ----------------------------------------------------------

MALE_FIRST = ("Caddo", "Cape Fear", "Cheyenne", "Desirable", "Pawnee", "Podsednik", "Hark")
FEMALE_FIRST = ("Apache", "Choctaw", "Elliott", "Forkert", "Gloria Grande", "Kanza")


@pytest.mark.parametrize("one", MALE_FIRST)
@pytest.mark.parametrize("two", FEMALE_FIRST[::2])
def test_pecans_of_the_two_types_serve_each_other(one, two):
    """Types: a Texas list of cultivars, and for Hark and Kanza a Kansas trial's page (both seen)."""
    known("pecan", one, two)
    pair = review({"kind": "pecan", "cultivar": one}, {"kind": "pecan", "cultivar": two})
    assert pair["p0"].partners[0].overlap > 0.6
    assert pair["p1"].partners[0].overlap > 0.6
    assert pair["p0"].standing == pair["p1"].standing == "served"


@pytest.mark.parametrize("names", [MALE_FIRST[-2:], FEMALE_FIRST[:2]])  # no published list pairs these
def test_pecans_of_one_type_mostly_miss_each_other(names):
    pair = review(*({"kind": "pecan", "cultivar": name} for name in known("pecan", *names)))
    for found in pair.values():
        assert found.partners[0].overlap < 0.3
        assert found.standing != "served"


# --- sexes --------------------------------------------------------------------------------------


def test_one_male_kiwi_serves_eight_females_and_not_sixteen():
    """Royal Horticultural Society, kiwi profile, seen: one male can pollinate up to eight females."""

    def with_females(number):
        females = [{"kind": "fuzzy kiwi", "sex": "female"} for _ in range(number)]
        return review({"kind": "fuzzy kiwi", "sex": "male"}, *females)["p1"].partners[0]

    assert with_females(8).pollen == 1.0
    assert with_females(16).pollen == pytest.approx(0.5, abs=0.1)


def test_female_kiwis_alone_bear_nothing():
    """Dioecious: every source on the genus (common practice)."""
    pair = review({"kind": "hardy kiwi", "sex": "female"}, {"kind": "hardy kiwi", "sex": "female"})
    assert pair["p0"].adequacy == 0
    assert (
        review({"kind": "fuzzy kiwi", "cultivar": "Hayward"}, {"kind": "fuzzy kiwi", "cultivar": "Matua"})[
            "p0"
        ].standing
        == "served"
    ), "Hayward is a female, Matua a male (from memory)"


def test_persimmons_of_the_two_chromosome_races_do_not_serve_each_other():
    """Kentucky State University (Pomper and others, abstracts seen): no seed between 60- and 90-chromosome
    trees; Ennis Seedless was found tetraploid."""
    known("american persimmon", "Ennis Seedless", "Early Golden")
    tetraploid, hexaploid = tree("american persimmon", "Ennis Seedless"), tree("american persimmon", "Meader")
    assert judge(tetraploid, hexaploid).compatible == NONE


# --- plums --------------------------------------------------------------------------------------


@pytest.mark.parametrize("other", ["japanese plum", "myrobalan plum", "american plum"])
def test_european_plums_do_not_cross_with_the_diploid_ones(other):
    """USDA Agricultural Research Service page, seen: Prunus domestica has six sets of chromosomes, most other
    stone fruits two; no natural hybrids are reported."""
    european, diploid = tree("european plum", raised="seedling"), tree(other, raised="seedling")
    assert judge(european, diploid).compatible == NONE
    assert judge(diploid, european).compatible == NONE


@pytest.mark.parametrize(
    ("one", "other"), [("japanese plum", "american plum"), ("japanese plum", "myrobalan plum")]
)
def test_plums_of_two_sets_of_chromosomes_cross_in_part_either_way(one, other):
    """Extension pages on hybrid plums, as the plant library's source for these crosses tells (from memory):
    Japanese-American hybrids take pollen of American plums, and myrobalan serves Japanese ones."""
    trees = tree(one, raised="seedling"), tree(other, raised="seedling")
    for recipient, donor in (trees, trees[::-1]):
        part = judge(recipient, donor, crosses=LIBRARY.crosses)
        assert 0 < part.compatible.low <= part.compatible.likely < 1
    pair = review({"kind": one, "raised": "seedling"}, {"kind": other, "raised": "seedling"})
    lone = review({"kind": one, "raised": "seedling"})
    assert pair["p0"].adequacy > lone["p0"].adequacy + 0.2


@pytest.mark.parametrize("other", ["japanese plum", "myrobalan plum", "american plum"])
def test_nor_do_they_once_the_crosses_between_groups_are_asked(other):
    european, diploid = tree("european plum", raised="seedling"), tree(other, raised="seedling")
    for recipient, donor in ((european, diploid), (diploid, european)):
        assert judge(recipient, donor, crosses=LIBRARY.crosses).compatible == NONE


def test_european_and_asian_pears_serve_each_other_in_part():
    """Extension advice, seen in a digest: they cross where the earlier Asian bloom meets the European."""
    european, asian = tree("pear", "Bosc"), tree("asian pear", raised="seedling")
    for recipient, donor in ((european, asian), (asian, european)):
        assert 0 < judge(recipient, donor, crosses=LIBRARY.crosses).compatible.likely < 1


def test_persimmons_of_one_race_do_serve_each_other_and_the_races_do_not_either_way():
    """Kentucky State University, as above: Early Golden and Meader have 90 chromosomes, Ennis Seedless 60."""
    female, male = tree("american persimmon", "Early Golden"), tree("american persimmon", "Meader")
    assert judge(female, male).compatible.high > 0
    tetraploid = tree("american persimmon", "Ennis Seedless")
    for hexaploid in (female, male):
        assert judge(tetraploid, hexaploid, crosses=LIBRARY.crosses).compatible == NONE
        assert judge(hexaploid, tetraploid, crosses=LIBRARY.crosses).compatible == NONE
