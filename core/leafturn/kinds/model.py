"""The plant library as frozen values: every fact carries its source and how sure it is.

In the TOML a fact is a list of three: `[value, "SOURCE-KEY", "sure" | "fair" | "guess"]`. A fact
that is not known is left out; it is then None here, never a silent zero.
"""

from typing import Literal

from msgspec import Struct

from leafturn.base.closed_words import Carrier, FlowerType, Habit, HoldsBy, Layer, Sex
from leafturn.kinds.fact import Fact as Fact
from leafturn.kinds.fact import SeasonStart, value_of
from leafturn.kinds.fact import Source as Source
from leafturn.kinds.fact import Sure as Sure
from leafturn.kinds.growing import (
    ChillFacts,
    ForageFacts,
    HardinessFacts,
    HeatSum,
    PruningFacts,
    WaterFacts,
)
from leafturn.kinds.harvest import HarvestFacts

Shape = Literal[
    "round", "oval", "upright", "pyramid", "cone", "column", "vase", "spreading", "broad", "open",
    "many-stemmed", "thicket", "clump", "mat", "climbing",
]  # fmt: skip
Juglone = Literal["producer", "sensitive", "tolerant", "disputed"]
Shade = Literal["very tolerant", "tolerant", "intermediate", "intolerant", "very intolerant"]
BloomTiming = Literal["resting buds", "cool weeks", "new shoots", "short days", "any month"]
System = Literal[
    "self-fertile", "partly self-fertile", "self-incompatible", "dioecious", "dichogamous",
    "sets without pollen", "fruit not wanted",
]  # fmt: skip


class BloomFacts(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """When it flowers. Heat is single-sine degree-days [degC d] above `base_c` counted from `start`.

    `start` is "season" (1 January, 1 July in the south) or a northern month and day such as "12-01", moved
    by half a year in the south. `spread_days` is the standard deviation [d] of first open about what heat
    alone says. `timing` tells what sets the day: buds that rested through the winter (where nothing is
    said), cool weeks of winter, shoots of the year, days that shorten, or nothing ("any month").
    """

    timing: Fact[BloomTiming] | None = None
    first_open_heat: Fact[float] | None = None
    base_c: Fact[float] | None = None
    start: Fact[SeasonStart] | None = None
    full_after_days: Fact[float] | None = None
    length_days: Fact[float] | None = None
    spread_days: Fact[float] | None = None


class LeafFacts(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Leaf-out [degC d above 5, from season start] and leaf fall [days after the first 0 degC night]."""

    out_heat: Fact[float] | None = None
    fall_after_frost_days: Fact[float] | None = None


class PollinationFacts(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Who can serve whom.

    `self_share` is the share of a full set that own pollen gives (0 to 1). `cross_group` names the
    plants that can fertilise each other ("european pear"). `half_metres` is the distance at which a
    partner counts half, `published_metres` the least and greatest that pages give. `females_per_male` is
    the most females one male serves, or one vine of perfect flowers.
    """

    system: Fact[System] | None = None
    self_share: Fact[float] | None = None
    carrier: Fact[Carrier] | None = None
    half_metres: Fact[float] | None = None
    published_metres: Fact[tuple[float, float]] | None = None
    cross_group: Fact[str] | None = None
    s_system: Fact[Literal["gametophytic", "sporophytic"]] | None = None
    females_per_male: Fact[float] | None = None

    @property
    def carried_by(self) -> Carrier:
        """What carries its pollen; insects where that is not known."""
        return value_of(self.carrier, "insect")


class AgeFacts(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Years from planting to the first useful flowers: by half of all plants, with the spread (sd)."""

    seedling_years: Fact[float] | None = None
    grafted_years: Fact[float] | None = None
    cutting_years: Fact[float] | None = None
    spread_years: Fact[float] | None = None


class SizeFacts(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Mature size [m], crown as radius; life [years]; growth constant k of the height curve [1/year].

    `height_20_m` is the height [m] twenty years after planting, where one was measured; it outweighs
    `growth_k`. `shape` is the outline of a grown crown.
    """

    height_m: Fact[float] | None = None
    crown_m: Fact[float] | None = None
    life_years: Fact[float] | None = None
    growth_k: Fact[float] | None = None
    height_20_m: Fact[float] | None = None
    shape: Fact[Shape] | None = None

    @property
    def grown_height(self) -> float:
        """Grown height [m]; a metre where even its habit tells nothing."""
        return value_of(self.height_m, 1.0)

    @property
    def grown_radius(self) -> float:
        """Grown crown radius [m]; a third of the height where even its habit tells nothing."""
        return value_of(self.crown_m, 0.35 * self.grown_height)


# Stages of buds and flowers in the order they come, as the tables of critical temperatures go by.
FROST_STAGES = (
    "swollen", "green_tip", "tight_cluster", "pink", "first_open", "full_bloom", "petal_fall", "green_fruit",
)  # fmt: skip


class FrostFacts(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Critical temperatures [degC] killing 10 % and 90 % of flowers after half an hour, by stage.

    `swollen` is the swelling bud (silver tip), `pink` the first colour of the petals ("first white"),
    `petal_fall` what the tables call post bloom. Of climbers, stages before bloom are those of the shoots.
    `flowers_for_crop` is the share of the flowers (0 to 1) that must live for a full crop; where it is not
    known, all of them. `green_tip_share` is the share of the warmth to first open that is had by green tip,
    where it is another than that of apples.
    """

    swollen: Fact[tuple[float, float]] | None = None
    green_tip: Fact[tuple[float, float]] | None = None
    tight_cluster: Fact[tuple[float, float]] | None = None
    pink: Fact[tuple[float, float]] | None = None
    first_open: Fact[tuple[float, float]] | None = None
    full_bloom: Fact[tuple[float, float]] | None = None
    petal_fall: Fact[tuple[float, float]] | None = None
    green_fruit: Fact[tuple[float, float]] | None = None
    flowers_for_crop: Fact[float] | None = None
    green_tip_share: Fact[float] | None = None

    def at(self, stage: str) -> Fact[tuple[float, float]] | None:
        """The temperatures at one of `FROST_STAGES`; None if not known."""
        fact: Fact[tuple[float, float]] | None = getattr(self, stage)
        return fact


class VineFacts(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """How a climber grows: metres of new shoot per 100 degree-days above 5 degC, and its way of holding.

    `host_trunk_cm` is the least trunk [cm, across at breast height] of a living tree that may carry it.
    """

    metres_per_100_heat: Fact[float] | None = None
    holds_by: Fact[HoldsBy] | None = None
    vigour: Fact[Literal["weak", "middling", "strong", "rampant"]] | None = None
    host_trunk_cm: Fact[float] | None = None


class LightFacts(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """What it wants of light and what its own crown lets through.

    `need_percent` is the share of open light from May to September [%] below which it crops or grows
    clearly less; `scorch_percent` the share above which a plant of the woodland floor scorches.
    `through_leaf` and `through_bare` are the shares of light (0 to 1) its crown lets pass in leaf and
    leafless. `shade` is the forester's class of how a young plant lives in shade, `sun_hours` the least and
    the wished hours of direct sun a day for a crop.
    """

    need_percent: Fact[float] | None = None
    scorch_percent: Fact[float] | None = None
    through_leaf: Fact[float] | None = None
    through_bare: Fact[float] | None = None
    shade: Fact[Shade] | None = None
    sun_hours: Fact[tuple[float, float]] | None = None


class SoilFacts(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """What it does to and wants of the soil. `nitrogen_kg_ha` is fixed in a year on closed ground.

    `mulch_kg_m2` is the fresh mass [kg] that cutting yields in a year from a closed square metre.
    """

    juglone: Fact[Juglone] | None = None
    fixes_nitrogen: Fact[bool] | None = None
    nitrogen_kg_ha: Fact[tuple[float, float]] | None = None
    mulch_cuts_a_year: Fact[float] | None = None
    mulch_kg_m2: Fact[tuple[float, float]] | None = None


class Cultivar(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """What one cultivar does otherwise than its kind; docs/kinds.md tells each entry.

    `clone_of` names the cultivar it is a sport of; who stands in both lists of pollinators is in dispute.
    `zone` and `killed_c` stand before those of the kind's hardiness.
    """

    also_called: tuple[str, ...] = ()
    clone_of: Fact[str] | None = None
    ploidy: Fact[int] | None = None
    good_pollen: Fact[bool] | None = None
    s_alleles: Fact[tuple[str, ...]] | None = None
    pollen_alleles: Fact[tuple[str, ...]] | None = None
    sex: Fact[Sex] | None = None
    flower_order: Fact[Literal["female first", "male first"]] | None = None
    flower_type: Fact[FlowerType] | None = None
    self_share: Fact[float] | None = None
    pollinated_by: Fact[tuple[str, ...]] | None = None
    not_pollinated_by: Fact[tuple[str, ...]] | None = None
    carried_only_by: Fact[str] | None = None
    wild_kin_serve: Fact[bool] | None = None
    cross_group: Fact[str] | None = None
    bloom_offset_days: Fact[float] | None = None
    harvest_offset_days: Fact[float] | None = None
    harvest_length_days: Fact[float] | None = None
    chill_portions: Fact[float] | None = None
    zone: Fact[int] | None = None
    killed_c: Fact[float] | None = None
    pruning_way: Fact[str] | None = None


class Kind(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, dict=True):
    """One kind of plant.

    `serves_for` names near relatives without an entry, for which this one's facts are lent. `guessed` is True
    where the kind is unknown and family or habit defaults serve. `stages` names its list in stages.toml.
    `also_grown` are cultivars of which only the name is known, each with its other names.
    """

    name: str = ""
    botanical: str
    common: tuple[str, ...] = ()
    synonyms: tuple[str, ...] = ()
    serves_for: tuple[str, ...] = ()
    family: str
    habit: Habit
    layer: Layer
    evergreen: bool = False
    traits: Fact[tuple[str, ...]] | None = None
    bloom: BloomFacts = BloomFacts()
    leaf: LeafFacts = LeafFacts()
    harvest: HarvestFacts = HarvestFacts()
    pollination: PollinationFacts = PollinationFacts()
    age: AgeFacts = AgeFacts()
    size: SizeFacts = SizeFacts()
    frost: FrostFacts = FrostFacts()
    vine: VineFacts = VineFacts()
    light: LightFacts = LightFacts()
    water: WaterFacts = WaterFacts()
    chill: ChillFacts = ChillFacts()
    soil: SoilFacts = SoilFacts()
    hardiness: HardinessFacts = HardinessFacts()
    pruning: PruningFacts = PruningFacts()
    forage: ForageFacts = ForageFacts()
    heat_sums: tuple[HeatSum, ...] = ()
    invasive_where: Fact[tuple[str, ...]] | None = None
    stages: Fact[str] | None = None
    cautions: tuple[Fact[str], ...] = ()
    cultivars: dict[str, Cultivar] = {}
    also_grown: dict[str, tuple[str, ...]] = {}
    guessed: bool = False

    @property
    def cultivar_names(self) -> dict[str, tuple[str, ...]]:
        """Every cultivar that is known, be it by its name alone, with its other names."""
        return self.also_grown | {name: facts.also_called for name, facts in self.cultivars.items()}

    def has(self, trait: str) -> bool:
        """Whether the kind carries this trait."""
        return self.traits is not None and trait in self.traits.value


class Rootstock(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A stock and what it makes of the trees grafted on it.

    `kinds` are the kinds grafted on it. `height_share` is the height reached as a share of the same
    tree on seedling roots; `flower_years` the years from planting to the first useful flowers, with
    `spread_years` as their standard deviation. `juglone` is set where the roots give off juglone.
    """

    name: str
    kinds: tuple[str, ...]
    also_called: tuple[str, ...] = ()
    height_share: Fact[float] | None = None
    flower_years: Fact[float] | None = None
    spread_years: Fact[float] | None = None
    juglone: Fact[Literal["producer"]] | None = None
