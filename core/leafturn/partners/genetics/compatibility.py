"""What share of one tree's pollen can fertilise another: clones, species, sexes, S-alleles, ploidy.

Notes
-----
Gametophytic rule (pears, apples, cherries, plums): each grain shows its own one allele and is refused
by a pistil that holds the same. Both alleles shared: nothing grows. One shared: half the grains grow.
An allele written with a prime (S4') has lost its mark in the pollen and is refused by no pistil.
Sporophytic rule (hazel): every grain shows what its mother tree shows, one allele or both; the pistil
shows both of its own. One allele in common refuses all.

References
----------
.. [1] de Nettancourt 2001, Incompatibility and Incongruity in Wild and Cultivated Plants (from memory).
.. [2] Zisovich, Stern, Shafir, Goldway 2004, J. Hort. Sci. Biotech. 79: half of a semi-compatible
   partner's pollen is rejected.
.. [3] Mehlenbacher 2014, J. Amer. Soc. Hort. Sci. 139:191-212: both alleles act in the stigma, often
   only one in the pollen.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from leafturn.base.tunables import USUAL, Numbers
from leafturn.base.value import Value
from leafturn.kinds.allele_names import in_both_names
from leafturn.kinds.model import Fact
from leafturn.partners.chance.shares import FULL, NONE, Share
from leafturn.partners.genetics.genotype import Genotype
from leafturn.partners.genetics.published_lists import is_listed, published_doubt
from leafturn.partners.words import IS, Predicate, a

OTHER_PLOIDY = Share(0.0, 0.1, 0.5)  # guess; persimmon races of 4 and 6 sets give no seed (KSU, Pomper)


class Verdict(Value, kw_only=False):
    """What a donor's pollen can do on a recipient.

    `compatible` is the worth of the pollen for this pistil, `pollen` its goodness on any. `refused` and
    `poor` say what holds each back ("is the same clone (Comice)"), `unknown` what is not known; None when
    nothing does.
    """

    compatible: Share
    pollen: Share = FULL
    refused: Predicate | None = None
    poor: Predicate | None = None
    unknown: Predicate | None = None
    listed: bool = False


Judged = tuple[Share, Predicate | None, Predicate | None]  # worth, what refuses, what is not known
Crosses = Mapping[frozenset[str], Fact[float]]
NO_CROSSES: Crosses = MappingProxyType({})


def judge(
    recipient: Genotype, donor: Genotype, numbers: Numbers = USUAL, crosses: Crosses = NO_CROSSES
) -> Verdict:
    """Whether the donor's pollen can fertilise the recipient. The two are different plants.

    Parameters
    ----------
    recipient, donor : Genotype
    numbers : Numbers
    crosses : mapping of two cross groups to a share
        What pollen of one group is worth on another that it can fertilise in part.

    Returns
    -------
    Verdict
        Low and high are apart where a name, a sex or an allele is not known.
    """
    if recipient.cross_group != donor.cross_group:
        return _between_groups(recipient, donor, numbers, crosses)
    if donor.sex == "female":
        both = " too" if recipient.sex == "female" else ""
        return Verdict(NONE, refused=Predicate(IS, f"female{both}"))
    if recipient.system == "sets without pollen" and donor.sex not in ("male", "both"):
        return Verdict(NONE, refused=Predicate("bears", "without pollen and gives none"))
    if recipient.clone is not None and recipient.clone == donor.clone:
        return Verdict(NONE, refused=_clone_clue(recipient, donor))
    published = published_doubt(recipient, donor, numbers)
    if published is not None:
        return Verdict(published.compatible, refused=published.refused, unknown=published.unknown)
    pollen, poor = pollen_of(donor, numbers)
    match, refused, unsure = _match(recipient, donor, numbers)
    sexed, sex_doubt = _sex_share(recipient, donor, numbers)
    return Verdict(
        Share(match.low * sexed.low, match.likely * sexed.likely, match.high * sexed.high),
        pollen,
        refused=refused,
        poor=poor,
        unknown=_both(unsure, sex_doubt),
        listed=is_listed(recipient, donor),
    )


def _between_groups(recipient: Genotype, donor: Genotype, numbers: Numbers, crosses: Crosses) -> Verdict:
    """Pollen of another group: worth what the library says of the two, else nothing."""
    worth = crosses.get(frozenset((recipient.cross_group, donor.cross_group)))
    if worth is None or worth.value <= 0:
        return Verdict(NONE, refused=stranger_words(recipient, donor))
    pollen, poor = pollen_of(donor, numbers)
    held = Predicate(IS, f"{a(donor.kind.name)}, which serves {recipient.kind.name} only in part")
    if worth.sure == "sure":
        return Verdict(Share.exactly(worth.value), pollen, refused=held, poor=poor)
    return Verdict(
        Share(worth.value / 2, worth.value, min(worth.value * 1.5, 1.0)), pollen, refused=held, poor=poor
    )


def pollen_of(donor: Genotype, numbers: Numbers = USUAL) -> tuple[Share, Predicate | None]:
    """How good a genotype's pollen is on any pistil, and why it is not; None where it is."""
    if donor.good_pollen is False or (donor.ploidy is not None and donor.ploidy % 2):
        triploid = Predicate(IS, "triploid: its pollen is poor")
        why = triploid if donor.ploidy == 3 else Predicate("gives", "poor pollen")
        likely = numbers["partner_poor_pollen"]
        return Share(0.0, likely, max(likely, numbers["partner_poor_pollen_most"])), why
    return FULL, None


def stranger_words(recipient: Genotype, donor: Genotype) -> Predicate:
    """That a donor belongs to another cross group."""
    if donor.kind.name == recipient.kind.name:
        return Predicate("does not cross", f"with {recipient.kind.name} of this sort ({donor.cross_group})")
    return Predicate(IS, f"{a(donor.kind.name)}, which does not cross with {recipient.kind.name}")


def gametophytic_share(pistil: tuple[str, ...], pollen_parent: tuple[str, ...]) -> float:
    """Share of the grains that grow, from 0 to 1.

    Parameters
    ----------
    pistil, pollen_parent : tuple of str
        S-alleles of the two trees. A prime means that the allele's pollen is refused nowhere.
    """
    held = {allele.rstrip("'") for allele in pistil}
    grows = [allele.endswith("'") or allele not in held for allele in pollen_parent]
    return sum(grows) / len(grows)


def sporophytic_share(
    pistil: tuple[str, ...], pollen_parent: tuple[str, ...], shown: tuple[str, ...] | None
) -> Share:
    """Share of the grains that grow under the sporophytic rule.

    Parameters
    ----------
    pistil, pollen_parent : tuple of str
        Both S-alleles of the two trees.
    shown : tuple of str or None
        Those that the pollen shows; None where not known, then a single shared allele leaves it open.
    """
    held = set(pistil)
    if shown is not None:
        return NONE if held & set(shown) else FULL
    shared = held & set(pollen_parent)
    if not shared:
        return FULL
    return NONE if set(pollen_parent) <= held else Share(0.0, 0.5, 1.0)


def self_fertile_by_alleles(tree: Genotype) -> bool:
    """Whether a tree holds an allele, such as S4', whose pollen its own pistil lets through."""
    return tree.kind.pollination.s_system is not None and any(a.endswith("'") for a in tree.pistil_alleles)


def _clone_clue(recipient: Genotype, donor: Genotype) -> Predicate:
    if donor.cultivar == recipient.cultivar:
        return Predicate(IS, f"the same clone ({donor.cultivar})")
    return Predicate(IS, f"a sport of the same clone ({donor.cultivar} and {recipient.cultivar})")


def _both(one: Predicate | None, other: Predicate | None) -> Predicate | None:
    if one is None or other is None:
        return one or other
    return Predicate(one.verb, f"{one.rest} and {other}")


def _sex_share(recipient: Genotype, donor: Genotype, numbers: Numbers) -> tuple[Share, Predicate | None]:
    """Chance that the one bears female flowers and the other gives pollen, and whose sex is not noted."""
    if recipient.system != "dioecious":
        return FULL, None
    if donor.sex is None:
        return Share(0.0, numbers["partner_unknown_sex"], 1.0), Predicate("has", "no sex noted")
    if recipient.sex is None:
        only = Predicate("serves", "it only if it is a female")
        return Share(0.0, numbers["partner_unknown_sex"], 1.0), only
    return FULL, None


def _match(recipient: Genotype, donor: Genotype, numbers: Numbers) -> Judged:
    """Worth of the pollen by likeness, ploidy and alleles; what refuses it; what is not known."""
    own = "own" in (recipient.likeness, donor.likeness)  # no clone of anything, nor is one kind of another
    unlike = own or recipient.kind.name != donor.kind.name or _must_be_two(recipient, donor)
    if not unlike and "unknown" in (recipient.likeness, donor.likeness):
        open_ = ", so a clone cannot be ruled out"
        whose = ("has", "no cultivar noted") if donor.likeness == "unknown" else ("may be", "the same clone")
        return _unknown(numbers), None, Predicate(whose[0], whose[1] + open_)
    if _ploidies_part(recipient, donor):
        sets = f"{donor.ploidy} sets of chromosomes, not {recipient.ploidy}"
        return OTHER_PLOIDY, Predicate("has", sets), None
    rule = recipient.kind.pollination.s_system
    stated = rule is not None and recipient.pistil_alleles and donor.pistil_alleles
    if not unlike and not stated and not (recipient.in_library and donor.in_library):
        return _unknown(numbers), None, _not_in_library(recipient, donor)
    if rule is None:
        return FULL, None, None
    if not recipient.pistil_alleles or not donor.pistil_alleles:
        low = 0.0 if rule.value == "sporophytic" else 0.5
        likely = numbers["partner_unknown_alleles"]
        return Share(min(low, likely), likely, 1.0), None, None
    if rule.value == "gametophytic":
        return _gametophytic(recipient, donor, numbers)
    return _sporophytic(recipient, donor)


def _unknown(numbers: Numbers) -> Share:
    return Share(0.0, numbers["partner_unknown_cultivar"], 1.0)


def _not_in_library(recipient: Genotype, donor: Genotype) -> Predicate:
    """Whose name the plant library lacks."""
    named = [one.cultivar for one in (donor, recipient) if not one.in_library and one.cultivar]
    names = " nor ".join(named)
    held = f"neither {names}" if len(named) > 1 else f"not {names}"
    return Predicate("may or may not suit:", f"the plant library knows {held}")


def _gametophytic(recipient: Genotype, donor: Genotype, numbers: Numbers) -> Judged:
    grows = gametophytic_share(recipient.pistil_alleles, donor.pistil_alleles)
    shared = " ".join(in_both_names(recipient.kind.name, recipient.pistil_alleles))
    if grows == 0:
        return NONE, Predicate("shares", f"both S-alleles ({shared})"), None
    if grows == 1:
        return FULL, None, None
    half = numbers["partner_semi_compatible"]
    one = Predicate("shares", "one S-allele: half its pollen grows")
    return Share(min(0.5, half), half, 1.0), one, None


def _sporophytic(recipient: Genotype, donor: Genotype) -> Judged:
    share = sporophytic_share(recipient.pistil_alleles, donor.pistil_alleles, donor.pollen_alleles)
    shown = donor.pollen_alleles or donor.pistil_alleles
    common = " and ".join(allele for allele in shown if allele in recipient.pistil_alleles)
    if share == NONE:
        return NONE, Predicate("shares", f"{common} with it, so its pollen is refused"), None
    if share == FULL:
        return FULL, None, None
    return share, None, Predicate("may share", f"{common} with it, and its pollen then is refused")


def _must_be_two(recipient: Genotype, donor: Genotype) -> bool:
    """Whether they are of two sexes, or of two flower orders, or would have to be for the one to serve.

    Of one clone neither differs.
    """
    if recipient.opposes(donor):
        return True
    if recipient.system == "dioecious" and None in (recipient.sex, donor.sex):
        return True
    return {recipient.sex, donor.sex} == {"female", "male"}


def _ploidies_part(recipient: Genotype, donor: Genotype) -> bool:
    """Whether both are fertile by count but of different counts; odd counts are judged as pollen."""
    if recipient.ploidy is None or donor.ploidy is None or recipient.ploidy % 2 or donor.ploidy % 2:
        return False
    return recipient.ploidy != donor.ploidy
