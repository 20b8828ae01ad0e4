"""S-alleles by the names of this library and by those of others, who number them otherwise."""

import functools
from collections.abc import Iterable, Mapping

from msgspec import Struct

from leafturn.kinds.fact import Fact
from leafturn.kinds.packaged import packaged

_PRIME = "'"  # of an allele that no pistil refuses: S4'


class AlleleNames(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """How the alleles of a kind are numbered, in a sentence; `also`: the name here to that elsewhere."""

    says: Fact[str]
    also: dict[str, str]


@functools.cache
def allele_names() -> Mapping[str, AlleleNames]:
    """By kind; kinds whose alleles have one numbering only are left out."""
    return packaged("alleles", dict[str, AlleleNames])


def in_both_names(kind: str, alleles: Iterable[str]) -> list[str]:
    """Alleles as this library writes them, with the other name in brackets: "S7 (Sc)"."""
    names = allele_names().get(kind)
    also = names.also if names else {}
    return [
        f"{allele} ({also[plain]}{allele[len(plain) :]})"
        if (plain := allele.rstrip(_PRIME)) in also
        else allele
        for allele in alleles
    ]


def as_here(kind: str, allele: str) -> str:
    """An allele by this library's name, where the other name was given."""
    names = allele_names().get(kind)
    plain = allele.rstrip(_PRIME)
    if names is None:
        return allele
    ours = {other: own for own, other in names.also.items()}
    return ours.get(plain, plain) + allele[len(plain) :]
