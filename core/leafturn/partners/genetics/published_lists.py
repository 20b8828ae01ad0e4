"""What published pages say of a pair: that the one serves the other, that it does not, or both."""

from __future__ import annotations

from leafturn.base.tunables import Numbers
from leafturn.base.value import Value
from leafturn.kinds.model import Fact
from leafturn.partners.chance.shares import NONE, Share
from leafturn.partners.genetics.genotype import Genotype
from leafturn.partners.words import IS, Predicate


class PublishedDoubt(Value, kw_only=False):
    """What pages hold against a pair: what the pollen is worth, and what they say of the donor.

    `refused` where they say that it does not serve, `unknown` where they disagree.
    """

    compatible: Share
    refused: Predicate | None = None
    unknown: Predicate | None = None


def is_listed(recipient: Genotype, donor: Genotype) -> bool:
    """Whether a published list gives the donor to the recipient, by its name or by its type of flower."""
    if donor.kind.name != recipient.kind.name:
        return False
    return _same_type(recipient, donor) is False or _names(recipient.pollinated_by, donor)


def published_doubt(recipient: Genotype, donor: Genotype, numbers: Numbers) -> PublishedDoubt | None:
    """What published pages hold against the donor; None where they name it, or judged no such pair."""
    named, refused = recipient.pollinated_by, recipient.not_pollinated_by
    if donor.kind.name != recipient.kind.name:
        return None
    if recipient.flower_type is not None and _same_type(recipient, donor):
        type_ = f"of flower type {recipient.flower_type.value} too, and has no pollen when it wants it"
        return PublishedDoubt(NONE, refused=Predicate(IS, type_))
    disputed = Share(0.0, numbers["partner_disputed"], 1.0)
    if refused is not None and _names(refused, donor):
        if named is None or not _names(named, donor):
            return PublishedDoubt(
                NONE, refused=Predicate("does not serve", f"{recipient.cultivar} ({refused.source})")
            )
        both = f"named by {named.source}, refused by {refused.source}"
        doubt = Predicate(IS, f"in dispute as a partner of {recipient.cultivar}: {both}")
        return PublishedDoubt(disputed, unknown=doubt)
    if named is None or _names(named, donor) or recipient.system != "dichogamous" or not _in_some_list(donor):
        return None  # elsewhere a list names some of those that serve; by flower order it names all
    refusal = Predicate(IS, f"not among the pollinizers published for {recipient.cultivar}")
    if recipient.opposes(donor):
        order = "of the other flower order, which serves as a rule"
        return PublishedDoubt(disputed, unknown=Predicate(IS, f"{order}, but {refusal} ({named.source})"))
    return PublishedDoubt(Share(0.0, numbers["partner_not_listed"], 1.0), refused=refusal)


def _same_type(recipient: Genotype, donor: Genotype) -> bool | None:
    """Whether both have flowers of one type (A or B, as of avocados); None where that is not known."""
    if recipient.flower_type is None or donor.flower_type is None:
        return None
    return recipient.flower_type.value == donor.flower_type.value


def _names(cultivars: Fact[tuple[str, ...]] | None, donor: Genotype) -> bool:
    """Whether a list of cultivars of one kind names the donor."""
    return cultivars is not None and donor.cultivar in cultivars.value


def _in_some_list(donor: Genotype) -> bool:
    """Whether some cultivar's published list names the donor, so that its absence from another tells."""
    return any(_names(cultivar.pollinated_by, donor) for cultivar in donor.kind.cultivars.values())
