"""What pollination depends on in a tree: its clone, sex, flower order, alleles and chromosomes."""

from __future__ import annotations

from typing import Literal

from leafturn.base.closed_words import FlowerOrder, FlowerType, Sex
from leafturn.base.value import Value
from leafturn.garden.model import Neighbour, Plant, Raised
from leafturn.kinds.allele_names import as_here
from leafturn.kinds.cultivar_elsewhere import kind_of_cultivar
from leafturn.kinds.defaults import DEFAULT_SOURCE
from leafturn.kinds.fact import value_of
from leafturn.kinds.library import Library
from leafturn.kinds.model import Cultivar, Fact, Kind
from leafturn.kinds.specimen import Specimen, sex_of

Likeness = Literal["named", "own", "unknown"]
NOT_NAMED = Cultivar()
FEMALES_FRUIT = ("dioecious", "sets without pollen")  # kinds whose stated share is that of their females
NO_OWN_POLLEN: Fact[float] = Fact(0.0, "own guess", "sure")


class Genotype(Value, eq=False):
    """One genotype standing in the garden or over the fence.

    Parameters
    ----------
    cultivar : str or None
        Name as the library writes it, or as the garden file does where the library lacks it.
    clone : str or None
        What all its grafts and sports share; None for seedlings and where the name is not known.
    likeness : {"named", "own", "unknown"}
        "own": raised from seed, so like no other. "unknown": may be a clone of anything.
    in_library : bool
        False where a cultivar is named that the library lacks: what it descends from is not known.
    of_kind : str or None
        The other kind that has a cultivar of this name, where the plant's own has none.
    sex, flower_order : str or None
        None where not known.
    flower_type : Fact or None
        Of avocados; None where not known.
    pistil_alleles : tuple of str
        S-alleles, all of which the pistil shows.
    pollen_alleles : tuple of str or None
        Those that pollen shows under the sporophytic rule; None where not known.
    ploidy : int or None
        Sets of chromosomes.
    self_share : Fact or None
        Share of a full set that own pollen gives, where the cultivar or kind states it.
    own_self_share : bool
        Whether the cultivar states it.
    pollinated_by, not_pollinated_by : Fact or None
        Cultivars that published pages give it for partners, and those that they say do not serve it.
    bloom_offset_days : float
        Days [d] before (negative) or after the kind's usual first open.
    carried_only_by : str or None
        What alone brings pollen to it, where it is not what serves the rest of the kind.
    own_group : str or None
        Cross group of a cultivar that differs from its kind, such as a chromosome race.
    """

    kind: Kind
    cultivar: str | None = None
    clone: str | None = None
    likeness: Likeness = "unknown"
    sex: Sex | None = None
    flower_order: FlowerOrder | None = None
    flower_type: Fact[FlowerType] | None = None
    pistil_alleles: tuple[str, ...] = ()
    pollen_alleles: tuple[str, ...] | None = None
    ploidy: int | None = None
    good_pollen: bool | None = None
    self_share: Fact[float] | None = None
    bloom_offset_days: float = 0.0
    own_group: str | None = None
    carried_only_by: str | None = None
    in_library: bool = True
    of_kind: str | None = None
    own_self_share: bool = False
    pollinated_by: Fact[tuple[str, ...]] | None = None
    not_pollinated_by: Fact[tuple[str, ...]] | None = None

    @property
    def cross_group(self) -> str:
        """Name of the plants that can fertilise each other; a kind without one stands alone."""
        group = self.kind.pollination.cross_group
        return self.own_group or value_of(group, self.kind.name)

    @property
    def system(self) -> str | None:
        """How the kind is pollinated, or None where the library does not say."""
        return value_of(self.kind.pollination.system, None)

    def opposes(self, other: Genotype) -> bool:
        """Whether the one opens its female flowers first and the other its male ones."""
        return {self.flower_order, other.flower_order} == {"female first", "male first"}

    @property
    def sex_unknown(self) -> bool:
        """Whether it is not known if a plant of a kind of two sexes can bear at all."""
        return self.system == "dioecious" and self.sex is None


def usual_raising(kind: Kind, cultivar: str | None) -> Raised:
    """How a plant of this kind is usually raised where the garden file does not say.

    Common practice, no source: named cultivars are grafted, or struck where the kind is struck;
    unnamed nuts and other wind-carried trees come from seed.
    """
    struck, grafted = stated(kind.age.cutting_years), stated(kind.age.grafted_years)
    if cultivar is not None:
        return "cutting" if struck and not grafted else "graft"
    wind_tree = kind.habit == "tree" and kind.pollination.carried_by == "wind"
    if wind_tree or kind.has("nut"):
        return "seedling"
    if grafted and not struck:
        return "graft"
    return "cutting" if struck else "seedling"


def raised_how(plant: Plant, kind: Kind) -> tuple[Raised, bool]:
    """How a plant was raised, and whether that is only assumed."""
    if plant.raised:
        return plant.raised, False
    if plant.origin == "came by itself":
        return "seedling", False
    return usual_raising(kind, plant.cultivar), True


def genotype_of(specimen: Specimen) -> Genotype:
    """The genotype of a plant's main crown."""
    plant, kind = specimen.plant, specimen.kind
    raised, _ = raised_how(plant, kind)
    own = plant.cultivar is None and raised == "seedling"
    return _genotype(
        kind, plant.cultivar, specimen.library, own, plant.sex, plant.flower_order, plant.s_alleles
    )


def grafted_genotype(specimen: Specimen, name: str) -> Genotype:
    """The genotype of a branch of another cultivar that a tree also bears."""
    order = specimen.plant.flower_order
    return _genotype(specimen.kind, name, specimen.library, False, None, order, ())


def neighbour_genotype(neighbour: Neighbour, kind: Kind, library: Library, *, wild: bool) -> Genotype:
    """The genotype of a plant over the fence; a wild one grew from seed."""
    own = wild or (neighbour.cultivar is None and usual_raising(kind, None) == "seedling")
    return _genotype(kind, neighbour.cultivar, library, own, neighbour.sex, neighbour.flower_order, ())


def cultivar_genotype(kind: Kind, name: str, library: Library) -> Genotype:
    """The genotype of a cultivar of the library that does not stand here yet."""
    return _genotype(kind, name, library, False, None, None, ())


def _genotype(
    kind: Kind,
    name: str | None,
    library: Library,
    own: bool,
    sex: Sex | None,
    order: FlowerOrder | None,
    alleles: tuple[str, ...],
) -> Genotype:
    found = library.cultivar(kind, name)
    title, facts = found if found else (name, NOT_NAMED)
    sex = sex_of(sex, facts)
    pistil = _alleles(kind, alleles or value_of(facts.s_alleles, ()))
    shown = _alleles(kind, facts.pollen_alleles.value) if facts.pollen_alleles else None
    if shown is not None and not set(shown) <= set(pistil):
        shown = None  # the steward's own alleles speak against the library's
    return Genotype(
        kind=kind,
        cultivar=title,
        clone=library.clone(kind, name) if name else None,
        likeness="named" if name else "own" if own else "unknown",
        sex=sex,
        flower_order=order or (facts.flower_order.value if facts.flower_order else None),
        flower_type=facts.flower_type,
        pistil_alleles=pistil,
        pollen_alleles=shown,
        ploidy=value_of(facts.ploidy, None),
        good_pollen=value_of(facts.good_pollen, None),
        self_share=facts.self_share or _of_kind(kind, sex),
        own_self_share=facts.self_share is not None,
        bloom_offset_days=value_of(facts.bloom_offset_days, 0.0),
        own_group=value_of(facts.cross_group, None),
        pollinated_by=facts.pollinated_by,
        not_pollinated_by=facts.not_pollinated_by,
        carried_only_by=value_of(facts.carried_only_by, None),
        in_library=found is not None or not name,
        of_kind=kind_of_cultivar(library, kind, name),
    )


def _of_kind(kind: Kind, sex: Sex | None) -> Fact[float] | None:
    """What own pollen gives by kind; a female of a kind that has both sexes in one flower gives none."""
    system = kind.pollination.system
    if sex == "female" and system is not None and system.value not in FEMALES_FRUIT:
        return NO_OWN_POLLEN
    return kind.pollination.self_share


def stated(fact: Fact[float] | None) -> bool:
    """Whether the library knows a fact of this kind itself, not of its family or habit."""
    return fact is not None and fact.source != DEFAULT_SOURCE


def _alleles(kind: Kind, written: tuple[str, ...]) -> tuple[str, ...]:
    """Alleles by this library's names, whichever numbering a garden or a file of own kinds has them in."""
    return tuple(as_here(kind.name, _allele(a)) for a in written)


def _allele(text: str) -> str:
    """One spelling for "s1", "1" and "S1", and for the primes of alleles that pollen is free of."""
    plain = text.strip().replace("’", "'").replace("′", "'")
    return f"S{plain.lstrip('Ss')}" if plain[:1] in "Ss" or plain[:1].isdigit() else plain
