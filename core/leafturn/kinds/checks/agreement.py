"""Whether what is said of a kind agrees with itself."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from leafturn.kinds.checks.evidence import said
from leafturn.kinds.fact import value_of
from leafturn.kinds.model import FROST_STAGES, Cultivar, Fact, Kind
from leafturn.toml.positions import Steps

_LEAST_DAYS_TO_RIPE = 20  # guess: nothing in the library is ripe sooner after full bloom
_SEXED = ("dioecious", "sets without pollen", "self-fertile")


class Clash(NamedTuple):
    """Two things that cannot both be so: where the second stands in the kind's table, and what is wrong."""

    path: Steps
    says: str


def clashes(kind: Kind) -> Iterator[Clash]:
    """What in a kind's entry cannot be so, with the kind's name at the head of each sentence."""
    for check in (_bloom_and_harvest, _frost, _shares, _cautions, _cultivars):
        for path, says in check(kind):
            yield Clash(path, f"{kind.name}: {says}")


def _bloom_and_harvest(kind: Kind) -> Iterator[Clash]:
    full, length = kind.bloom.full_after_days, kind.bloom.length_days
    if full and length and not 0 < full.value < length.value:
        says = (
            f"full bloom comes {full.value:g} days after the first flowers, which end after {length.value:g}."
        )
        yield Clash(("bloom", "full_after_days"), says)
    ripe = kind.harvest.after_full_bloom_days
    if ripe and ripe.value <= 0:
        yield Clash(("harvest", "after_full_bloom_days"), "it is ripe before it blooms.")


def _frost(kind: Kind) -> Iterator[Clash]:
    known = [(stage, fact.value) for stage in FROST_STAGES if (fact := kind.frost.at(stage))]
    for stage, (tenth, most) in known:
        if not 0 > tenth > most:
            says = (
                f"the temperatures at {stage} are {tenth:g} and {most:g}; both lie below 0, the milder first."
            )
            yield Clash(("frost", stage), says)
    hardening = [row for row in known if row[0] in FROST_STAGES[: FROST_STAGES.index("petal_fall")]]
    for (before, (one, _)), (stage, (other, _)) in pairwise(hardening):
        if other < one:
            says = (
                f"at {stage} it bears {other:g} C and at {before}, earlier, only {one:g} C; buds grow tender."
            )
            yield Clash(("frost", stage), says)


def _shares(kind: Kind) -> Iterator[Clash]:
    for path, share in (
        (("pollination", "self_share"), kind.pollination.self_share),
        (("frost", "flowers_for_crop"), kind.frost.flowers_for_crop),
        (("frost", "green_tip_share"), kind.frost.green_tip_share),
        (("light", "through_leaf"), kind.light.through_leaf),
        (("light", "through_bare"), kind.light.through_bare),
    ):
        yield from _no_share(path, share)


def _no_share(path: Steps, share: Fact[float] | None) -> Iterator[Clash]:
    if share and not 0 <= share.value <= 1:
        yield Clash(path, f"{said(path)} is {share.value:g}; a share lies between 0 and 1.")


def _cautions(kind: Kind) -> Iterator[Clash]:
    for number, caution in enumerate(kind.cautions):
        if "safe" in caution.value.lower():
            yield Clash(("cautions", number), "a caution names a danger and calls nothing safe.")
        if not caution.value.endswith("."):
            yield Clash(("cautions", number), "a caution is a whole sentence and ends in a full stop.")
    for trait in ("poisonous", "poisonous look-alikes"):
        if kind.has(trait) and not kind.cautions:
            yield Clash(("traits",), f'it is marked "{trait}" and carries no caution.')


def _cultivars(kind: Kind) -> Iterator[Clash]:
    for name in kind.also_grown.keys() & kind.cultivars.keys():
        yield Clash(("also_grown", name), f"{name} stands under cultivars as well.")
    for name, cultivar in kind.cultivars.items():
        if not any(isinstance(getattr(cultivar, field), Fact) for field in cultivar.__struct_fields__):
            says = f"{name}: nothing is said of it; a bare name stands under also_grown."
            yield Clash(("cultivars", name), says)
        for path, says in _cultivar(kind, cultivar):
            yield Clash(("cultivars", name, *path), f"{name}: {says}")


def _cultivar(kind: Kind, cultivar: Cultivar) -> Iterator[Clash]:
    parent = cultivar.clone_of
    if parent and parent.value not in kind.cultivars:
        yield Clash(("clone_of",), f"it is a sport of {parent.value}, which has no entry here.")
    yield from _no_share(("self_share",), cultivar.self_share)
    system = kind.pollination.system
    if cultivar.sex and system and system.value not in _SEXED:
        yield Clash(("sex",), f"it has a sex, but the kind is {system.value}.")
    bears = cultivar.sex is not None and cultivar.sex.value != "male"
    if system and system.value == "dioecious" and cultivar.self_share and not bears:
        says = 'it sets alone, but the kind is dioecious: say its sex, "both", or "female" if without pollen.'
        yield Clash(("self_share",), says)
    ripe, later = kind.harvest.after_full_bloom_days, cultivar.harvest_offset_days
    if ripe and later and ripe.value + later.value <= _LEAST_DAYS_TO_RIPE:
        says = f"it would be ripe {ripe.value + later.value:g} days after full bloom."
        yield Clash(("harvest_offset_days",), says)
    yield from _alleles(kind, cultivar)


def _alleles(kind: Kind, cultivar: Cultivar) -> Iterator[Clash]:
    held, shown = cultivar.s_alleles, cultivar.pollen_alleles
    if (held or shown) and kind.pollination.s_system is None:
        path = "s_alleles" if held else "pollen_alleles"
        yield Clash((path,), "it has S-alleles, but the kind has no pollination.s_system.")
    if held:
        sets = value_of(cultivar.ploidy, 2)
        if len(set(held.value)) != sets:
            says = f"it has {len(set(held.value))} different S-alleles and {sets} sets of chromosomes."
            yield Clash(("s_alleles",), says)
        odd = sorted(set(shown.value) - set(held.value)) if shown else []
        if odd:
            yield Clash(("pollen_alleles",), f"its pollen shows {', '.join(odd)}, which it does not hold.")
