"""Facts of the plant library against published tables; each check names its source, and if it was read."""

from __future__ import annotations

import pytest
from tests.samples.facts import known

from leafturn.kinds.library import Library, load_library
from leafturn.kinds.model import Cultivar, Kind


@pytest.fixture(scope="module")
def library() -> Library:
    return load_library()[0]


# eXtension (Mutsu, Jonagold, Shizuka) and a city extension page (the others), both read.
TRIPLOIDS = [
    "Mutsu", "Jonagold", "Shizuka", "Gravenstein", "Bramley's Seedling", "Boskoop", "Karmijn de Sonnaville",
    "Tompkins King",
]  # fmt: skip


@pytest.mark.parametrize("name", TRIPLOIDS)
def test_triploid_apples_give_no_pollen(library: Library, name: str) -> None:
    cultivar = library.kinds["apple"].cultivars[name]
    assert cultivar.ploidy is not None
    assert cultivar.ploidy.value == 3
    assert cultivar.good_pollen is not None
    assert not cultivar.good_pollen.value
    assert cultivar.good_pollen.sure == "sure"


def test_diploid_apples_are_not_called_triploid(library: Library) -> None:
    # The demo's pollen donor; Discovery is a diploid seedling of Worcester Pearmain (common knowledge).
    discovery = library.kinds["apple"].cultivars["Discovery"]
    assert discovery.ploidy is not None
    assert discovery.ploidy.value == 2


# Of one plant alone. Hawthorn: diploid hawthorns are self-incompatible, polyploid ones not (American
# Journal of Botany 73:116), and C. monogyna is a diploid that outbreeds (Canadian Journal of Botany
# 63:1319). Roses: 23 diploid ones more than 96 in 100 self-incompatible (J. Amer. Soc. Hort. Sci. 111:122),
# R. rugosa set nothing with its own pollen (J. Kor. Soc. Hort. Sci. 43:326). Dog rose sets as much with
# insects shut out (Annals of Botany 104:1397). Abstracts read.
ALONE = {
    "hawthorn": "self-incompatible",
    "rugosa rose": "self-incompatible",
    "rowan": "self-incompatible",
    "dog rose": "self-fertile",
}


@pytest.mark.parametrize("name", ALONE)
def test_hedge_plants_alone(library: Library, name: str) -> None:
    assert known(library.kinds[name].pollination.system).value == ALONE[name]


def alleles(kind: Kind, name: str) -> set[str]:
    fact = known(kind.cultivars[name].s_alleles)
    return set(fact.value)


# Oregon State University Extension, "Sweet cherry compatibility and bloom timing chart" (read).
CHERRY_GROUPS = {
    "S1 S2": ["Black Tartarian", "Summit"],
    "S1 S3": ["Samba", "Van", "Early Robin", "Cristalina", "Olympus", "Sonnet", "Oktavia", "Regina"],
    "S3 S4": ["Somerset", "Bing", "Napoleon", "Emperor Francis", "Lambert"],
    "S3 S6": ["Kordia", "Stark's Gold"],
    "S3 S5": ["Hedelfingen"],
    "S1 S4": ["Rainier", "Black Republican", "Bada", "Sylvia", "Hudson"],
    "S2 S4": ["Royalton", "Sam"],
    "S3 S9": ["Chelan", "Burlat", "Tieton"],
    "S3 S12": ["Schneiders", "0900 Ziraat"],
}
CHERRIES_SELF_FERTILE = [
    "Lapins", "Sweetheart", "Staccato", "Stella", "Symphony", "Selah", "Santina", "Benton", "Skeena",
    "White Gold", "Black Gold",
]  # fmt: skip


@pytest.mark.parametrize("group", CHERRY_GROUPS)
def test_sweet_cherry_groups(library: Library, group: str) -> None:
    for name in CHERRY_GROUPS[group]:
        assert alleles(library.kinds["sweet cherry"], name) == set(group.split()), name


def test_self_fertile_sweet_cherries(library: Library) -> None:
    for name in CHERRIES_SELF_FERTILE:
        share = known(library.kinds["sweet cherry"].cultivars[name].self_share)
        assert share.value >= 0.8, name


def test_late_cherries_bloom_after_early_ones(library: Library) -> None:
    # The same chart: Chelan in period II, Bing III, Regina V.
    cultivars = library.kinds["sweet cherry"].cultivars

    def offset(name: str) -> float:
        fact = cultivars[name].bloom_offset_days
        return fact.value if fact else 0.0

    assert offset("Chelan") < offset("Bing") < offset("Regina")


def test_pear_alleles(library: Library) -> None:
    # A nursery's table, second-hand, old numbering; Bartlett x Seckel fail in orchards (Westwood).
    pear = library.kinds["pear"]
    assert alleles(pear, "Comice") == {"S4", "S5"}
    assert alleles(pear, "Bartlett") == alleles(pear, "Seckel") == {"S1", "S2"}
    bosc = known(pear.cultivars["Bosc"].s_alleles)
    assert bosc.sure == "guess"


def test_apple_alleles(library: Library) -> None:
    # Fuji: Matsumoto 2014, Int. J. Agronomy 138271, table 1 (read). Red Delicious: abstract of the Balsgard
    # study of 104 apple cultivars (read). Golden Delicious, Gala: recalled.
    apple = library.kinds["apple"]
    assert alleles(apple, "Fuji") == {"S1", "S9"}
    assert alleles(apple, "Red Delicious") == {"S9", "S28"}
    assert alleles(apple, "Golden Delicious") & alleles(apple, "Gala") == {"S2"}


def served_by_hazel(library: Library, stigma: str, pollen: str) -> bool:
    """Mehlenbacher and Miller 1988 (opening read): no allele the pollen shows may be in the stigma."""
    hazel = library.kinds["hazel"]
    shown = hazel.cultivars[pollen].pollen_alleles
    return not (set(shown.value) if shown else alleles(hazel, pollen)) & alleles(hazel, stigma)


@pytest.mark.parametrize(
    ("stigma", "pollen", "works"),
    [
        ("Jefferson", "Barcelona", False),  # Barcelona sheds S1 (Rutgers and growers' pages, read)
        ("Barcelona", "Jefferson", True),  # Jefferson sheds S3 (recalled)
        ("Jefferson", "Hall's Giant", True),
        ("Barcelona", "Hall's Giant", True),
        ("Jefferson", "Felix", True),  # HortScience 53:904, abstract read: Felix serves Jefferson,
        ("Yamhill", "York", True),  # York serves these four
        ("Dorris", "York", True),
        ("Wepster", "York", True),
        ("McDonald", "York", True),
        ("Jefferson", "Eta", True),  # an Oregon growers' page, read: plant Felix, Eta and Theta for Jefferson
        ("Jefferson", "Theta", True),
        ("Tonda di Giffoni", "Gamma", False),  # an Ontario nursery's page, read
        ("Barcelona", "Barcelona", False),
    ],
)
def test_hazels_that_serve_one_another(library: Library, stigma: str, pollen: str, works: bool) -> None:
    assert served_by_hazel(library, stigma, pollen) is works


# Extension lists of pecan types, read: I sheds pollen before its stigmas are ready, II the other way round.
PECAN_TYPE_I = ["Caddo", "Cape Fear", "Cheyenne", "Desirable", "Pawnee", "Podsednik", "Hark"]
PECAN_TYPE_II = ["Apache", "Choctaw", "Elliott", "Forkert", "Gloria Grande", "Kanza"]


@pytest.mark.parametrize(
    ("name", "first"),
    [(name, "male first") for name in PECAN_TYPE_I] + [(name, "female first") for name in PECAN_TYPE_II],
)
def test_pecan_types(library: Library, name: str, first: str) -> None:
    order = known(library.kinds["pecan"].cultivars[name].flower_order)
    assert order.value == first


def test_forde_walnut_is_female_first(library: Library) -> None:
    # University of California walnut cultivar table (read): "females bloom before catkins".
    order = known(library.kinds["persian walnut"].cultivars["Forde"].flower_order)
    assert order.value == "female first"


def test_persimmon_races_do_not_serve_each_other(library: Library) -> None:
    # Pomper and others, Kentucky State University, 2017 and 2020 (abstracts read).
    kind = library.kinds["american persimmon"]
    for name in ("Ennis Seedless", "Weeping", "Sugar Bear", "SFES"):
        ploidy, group = kind.cultivars[name].ploidy, kind.cultivars[name].cross_group
        assert ploidy is not None
        assert ploidy.value == 4
        assert group is not None
        assert group != kind.pollination.cross_group


def test_plum_self_fertility(library: Library) -> None:
    # An English nursery's plum, gage and damson chart (read).
    plum = library.kinds["european plum"].cultivars

    def share(name: str) -> float:
        fact = known(plum[name].self_share)
        return fact.value

    for name in ("Czar", "Denniston's Superb", "Early Transparent Gage", "Jubilee", "Herman"):
        assert share(name) >= 0.8, name
    for name in ("Avalon", "Belle de Louvain", "Marjorie's Seedling"):
        assert 0.2 < share(name) < 0.8, name
    for name in ("Coe's Golden Drop", "Kirke's Blue", "Excalibur"):
        assert share(name) < 0.1, name


def test_males_for_kiwis(library: Library) -> None:
    # RHS kiwi profile (read): up to eight females to a male; hardy kiwi six to nine (fact sheets, recalled).
    fuzzy = library.kinds["fuzzy kiwi"].pollination.females_per_male
    hardy = library.kinds["hardy kiwi"].pollination.females_per_male
    assert fuzzy is not None
    assert fuzzy.value == 8
    assert hardy is not None
    assert 6 <= hardy.value <= 9
    issai = library.kinds["hardy kiwi"].cultivars["Issai"]
    assert issai.self_share is not None
    assert 0 < issai.self_share.value < 1


def test_juglone_lists(library: Library) -> None:
    # Funt and Martin, Ohio State HYG-1148, as read: producers, and plants that suffer.
    def juglone(name: str) -> str:
        fact = known(library.kinds[name].soil.juglone)
        return fact.value

    assert {juglone(name) for name in ("black walnut", "butternut")} == {"producer"}
    for name in ("apple", "pear", "rhubarb", "asparagus", "highbush blueberry", "blackberry"):
        assert juglone(name) == "sensitive", name
    assert juglone("black raspberry") == "tolerant"
    # In none of the lists read: the library must not claim to know.
    assert library.kinds["sea buckthorn"].soil.juglone is None


def test_light_through_crowns(library: Library) -> None:
    # Wilkinson 1992, reprinted in Tregenza and Sharples (read): sky seen through a crown in leaf and bare.
    for name, leaf, bare in [
        ("common ash", 0.22, 0.53), ("sessile oak", 0.17, 0.50), ("small-leaved lime", 0.11, 0.54),
        ("silver birch", 0.24, 0.54), ("grey alder", 0.24, 0.49), ("hawthorn", 0.22, 0.44),
    ]:  # fmt: skip
        light = library.kinds[name].light
        assert light.through_leaf is not None
        assert light.through_bare is not None
        assert (light.through_leaf.value, light.through_bare.value) == (leaf, bare)


def test_dwarfing_stocks_stay_smaller_and_bear_sooner(library: Library) -> None:
    # East Malling order of vigour, common practice: M27 < M9 < M26 < MM106 < MM111 < seedling.
    stocks = [
        library.rootstock(name, library.kinds["apple"])
        for name in ("M27", "M9", "M26", "MM106", "MM111", "seedling")
    ]
    shares = [stock.height_share.value for stock in stocks if stock and stock.height_share]
    years = [stock.flower_years.value for stock in stocks if stock and stock.flower_years]
    assert len(shares) == len(years) == 6
    assert shares == sorted(shares)
    assert years == sorted(years)


def test_bearing_ages_lie_in_the_extension_ranges(library: Library) -> None:
    # Iowa State University Extension (read): apple 4-5, pear 4-6, plum 3-6, sour cherry 3-5 years.
    for name, low, high in [("apple", 4, 5), ("pear", 4, 6), ("european plum", 3, 6), ("sour cherry", 3, 5)]:
        years = known(library.kinds[name].age.grafted_years)
        assert low <= years.value <= high, name


# University of California, Davis, "Chill requirements in chill portions", table 1 (read).
DAVIS = {
    "almond": {"Nonpareil": 23, "Desmayo Largueta": 28, "Ferragnès": 32},
    "apple": {"Golden Delicious": 50},
    "apricot": {
        "Currot": 39.6, "Rojo Pasion": 51.2, "Bulida": 53.8, "San Castrese": 55.25, "Murciana": 55.9,
        "Orangered": 61.35, "Goldrich": 61.9, "Bergeron": 64.8,
    },
    "sweet cherry": {
        "Cristobalina": 30.4, "Lapins": 35, "Brooks": 36.7, "Rainier": 45, "Ruby": 48, "Somerset": 48,
        "Burlat": 48, "New Star": 53.5, "Marvin": 57.6, "Sam": 70,
    },
    "peach": {
        "Mayglo": 18, "Sunlite": 33.2, "Flavortop": 41.4, "Fantasia": 41.7, "Flordaprince": 8,
        "Earligrande": 12, "Maravilha": 12, "Redhaven": 75,
    },
    "persian walnut": {"Hartley": 53.8, "Payne": 68.2, "Franquette": 69.7, "Chandler": 71.5},
}  # fmt: skip


@pytest.mark.parametrize("name", DAVIS)
def test_chill_portions_are_those_of_the_table(library: Library, name: str) -> None:
    kind = library.kinds[name]
    for cultivar, portions in DAVIS[name].items():
        fact = known(kind.cultivars[cultivar].chill_portions)
        assert (fact.value, fact.sure) == (portions, "sure"), cultivar
    if kind.chill.portions is not None:
        low, high = kind.chill.portions.value
        for portions in DAVIS[name].values():
            assert low - 1 <= portions <= high + 1, name  # the kind's range is rounded


def test_walnuts_of_known_order(library: Library) -> None:
    # University of California walnut table (read): Forde, females before catkins. Two nurseries: Gillet too.
    for name in ("Forde", "Gillet"):
        fact = known(library.kinds["persian walnut"].cultivars[name].flower_order)
        assert fact.value == "female first"


def test_felix_and_york_hazels(library: Library) -> None:
    # Oregon State University technology sheet of Felix (read): S5 and S21. Its parent Delta, S1 S15, has no
    # S5 to give, so S15 is taken. York, Acta Horticulturae 1226:6 (abstract read): S2 and S21, S21 in the
    # pollen; serves Wepster and McDonald.
    hazel = library.kinds["hazel"]
    assert alleles(hazel, "Felix") == {"S15", "S21"}
    assert alleles(hazel, "York") == {"S2", "S21"}
    fact = known(hazel.cultivars["York"].pollen_alleles)
    assert (fact.value, fact.sure) == (("S21",), "sure")
    assert not served_by_hazel(library, "McDonald", "Felix"), "both hold S15"
    for stigma in ("Wepster", "McDonald"):
        assert served_by_hazel(library, stigma, "York")
    for stigma in ("Jefferson", "Wepster", "Dorris", "Yamhill"):
        assert served_by_hazel(library, stigma, "Felix"), stigma


# Baker's classes of shade tolerance as reprinted in Spurr and Barnes 1980 (box read).
BAKER = {
    "sugar maple": "very tolerant", "red maple": "tolerant", "silver maple": "intermediate",
    "white oak": "intermediate", "red oak": "intermediate", "shagbark hickory": "intermediate",
    "black cherry": "intolerant", "black walnut": "intolerant",
    "black locust": "very intolerant", "aspen": "very intolerant",
}  # fmt: skip


@pytest.mark.parametrize("name", BAKER)
def test_shade_classes(library: Library, name: str) -> None:
    fact = known(library.kinds[name].light.shade)
    assert (fact.value, fact.sure) == (BAKER[name], "sure")


@pytest.mark.parametrize(
    ("name", "what", "sum_"),
    [
        # Ohio State University pages 1452 (read), a CFAES page of 2018 (read) and columns (read).
        ("silver maple", "full bloom", 42), ("cornelian cherry", "first bloom", 40),
        ("red maple", "first bloom", 44), ("grey alder", "first bloom of speckled alder", 52),
        ("forsythia", "first bloom", 86), ("crab apple", "full bloom of Spring Snow", 209),
        ("japanese quince", "full bloom of Chaenomeles speciosa", 214), ("black locust", "full bloom", 548),
    ],
)  # fmt: skip
def test_published_sums_stand_as_they_were_published(
    library: Library, name: str, what: str, sum_: float
) -> None:
    (found,) = [s for s in library.kinds[name].heat_sums if s.what == what]
    assert (found.low, found.high, found.unit, found.base) == (sum_, sum_, "F-days", 50)
    assert (found.start, found.method, found.sure) == ("01-01", "clipped average", "sure")


def ripe_after(kind: Kind, name: str) -> float:
    """Days by the calendar from the kind's reference to the cultivar's ripeness."""
    cultivar = kind.cultivars[name]
    assert cultivar.harvest_offset_days is not None, name
    bloom = cultivar.bloom_offset_days.value if cultivar.bloom_offset_days else 0.0
    return cultivar.harvest_offset_days.value + bloom


@pytest.mark.parametrize(
    ("kind", "reference", "published"),
    [
        # Michigan State University Extension, normal dates of Grand Rapids (read), in days from Jonathan.
        (
            "apple",
            "Jonathan",
            {"Gala": -16, "McIntosh": -11, "Honeycrisp": -8, "Empire": -2, "Golden Delicious": 6,
             "Red Delicious": 9, "Idared": 14, "Fuji": 29, "Braeburn": 29},
        ),
        # Good Fruit Grower, western New York (read), in days from Red Delicious.
        (
            "apple",
            "Red Delicious",
            {"Cortland": -12, "Topaz": -2, "Mutsu": 10, "Braeburn": 19, "GoldRush": 25},
        ),
        # Michigan State University, plums in days from Stanley (read).
        ("european plum", "Stanley", {"Oullins Gage": -25, "Reine Claude": -5}),
        # University of Kentucky HO-6 in weeks from Redhaven (read); a produce reference (read).
        ("peach", "Redhaven", {"Reliance": 0, "Contender": 17, "Loring": 17, "Cresthaven": 24}),
        ("peach", "Elberta", {"Dixired": -42, "J.H. Hale": 3}),
        # Northwest Cherry Growers and Californian nurseries (read).
        (
            "sweet cherry",
            "Bing",
            {"Chelan": -12, "Brooks": -12, "Tieton": -7, "Cristalina": -6, "Santina": -8, "Benton": -2.5,
             "Skeena": 16},
        ),
        # Oregon State University (read): ten to fifteen days before Barcelona.
        ("hazel", "Barcelona", {"Yamhill": -12, "Santiam": -12, "Gamma": -12, "Sacajawea": -12}),
        # University of California walnut table (read).
        ("persian walnut", "Chandler", {"Forde": 0, "Franquette": 9, "Fernette": 5, "Gillet": -11}),
        # Horticulture New Zealand and New South Wales (read), days from bloom.
        ("asian pear", "Kosui", {"Nijisseiki": 17, "Shinseiki": -5}),
    ],
)  # fmt: skip
def test_cultivars_ripen_when_the_lists_say(
    library: Library, kind: str, reference: str, published: dict[str, float]
) -> None:
    # Lists of different places disagree by days; what stands here is drawn from several.
    entry = library.kinds[kind]
    for name, days in published.items():
        ours = ripe_after(entry, name) - ripe_after(entry, reference)
        assert ours == pytest.approx(days, abs=5), name


def test_plums_bloom_in_the_order_of_brogdale(library: Library) -> None:
    # Fruit Forum, National Fruit Collection (read): in each of four years.
    plums = library.kinds["european plum"].cultivars
    order = ["Denniston's Superb", "Oullins Gage", "Cambridge Gage", "Marjorie's Seedling"]
    offsets = [fact.value for name in order if (fact := plums[name].bloom_offset_days) is not None]
    assert len(offsets) == len(order)
    assert offsets == sorted(offsets)


# No published ripening time was found for these; docs/kinds.md says so.
RIPENING_UNKNOWN = {"Weeping", "Sugar Bear", "SFES"}
RIPENING_KNOWN = [
    "apple", "pear", "asian pear", "european plum", "damson", "japanese plum", "apricot", "peach",
    "sweet cherry", "sour cherry", "grape", "highbush blueberry", "rabbiteye blueberry", "redcurrant",
    "blackcurrant", "gooseberry", "raspberry", "black raspberry", "blackberry", "hazel",
    "persian walnut", "pecan", "sweet chestnut", "chinese chestnut", "kaki", "american persimmon",
    "pawpaw", "fig",
]  # fmt: skip


def of_pollen_alone(facts: Cultivar) -> bool:
    """Whether a cultivar stands in the library for a table of alleles or sexes, and no more.

    Two tables of cherries tell when each blooms as well.
    """
    pollen = {
        "s_alleles",
        "pollen_alleles",
        "self_share",
        "good_pollen",
        "sex",
        "pollinated_by",
        "carried_only_by",
    }
    bloom = facts.bloom_offset_days
    if bloom is not None and bloom.source in ("Australian cherry chart", "Pacific Northwest cherry chart"):
        pollen.add("bloom_offset_days")
    stated = {name for name in facts.__struct_fields__ if getattr(facts, name)} - {"also_called"}
    return stated <= pollen


@pytest.mark.parametrize("name", RIPENING_KNOWN)
def test_every_cultivar_of_the_main_fruits_says_when_it_ripens(library: Library, name: str) -> None:
    cultivars = library.kinds[name].cultivars
    without = {
        cultivar
        for cultivar, facts in cultivars.items()
        if facts.harvest_offset_days is None and not of_pollen_alone(facts)
    }
    assert without <= RIPENING_UNKNOWN


def test_early_honeyberries_bloom_together(library: Library) -> None:
    # Honeyberry bloom times, a grower in Minnesota (read): Indigo Gem and Tundra, Berry Blue with them
    # or a few days later; two nurseries (read) have Berry Blue serve all others.
    cultivars = library.kinds["honeyberry"].cultivars
    offsets = [known(cultivars[name].bloom_offset_days).value for name in ("Tundra", "Berry Blue", "Aurora")]
    assert 0 <= offsets[1] - offsets[0] <= 3
    assert abs(offsets[2] - offsets[1]) <= 4
