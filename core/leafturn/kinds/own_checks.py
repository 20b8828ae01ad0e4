"""The faults of a file of own kinds, and whether what its kinds name is in the library."""

from __future__ import annotations

import msgspec

from leafturn.base.faults import MOST_FAULTS, Fault, clipped, did_you_mean
from leafturn.kinds.model import Fact, Kind
from leafturn.kinds.packaged import packaged
from leafturn.kinds.pruning import names_of_ways
from leafturn.kinds.word_lists import stage_lists, traits
from leafturn.toml.positions import Steps, TomlLines


class OwnFile:
    """One file being read: its name, its lines, and the faults so far."""

    def __init__(self, file: str, text: str) -> None:
        self.file = file
        self.lines = TomlLines(text)
        self.faults: list[Fault] = []

    @property
    def hopeless(self) -> bool:
        """Whether so much is wrong that nothing more is mended, only counted: each look costs a little."""
        return len(self.faults) > MOST_FAULTS

    def fault(self, path: Steps, message: str, hint: str = "") -> None:
        """Gather a fault of what stands under a path of keys and list places."""
        self.faults.append(Fault(file=self.file, line=self.lines.line_of(*path), message=message, hint=hint))


def known_traits(own: OwnFile, name: str, kind: Kind) -> Kind:
    """`kind` without traits that no rule knows, each reported."""
    if kind.traits is None:
        return kind
    for trait in kind.traits.value:
        if trait not in traits():
            message = f'{clipped(name)}: no rule knows the trait "{clipped(trait)}"; it was left out.'
            own.fault((name, "traits"), message, did_you_mean(trait, traits()))
    good = tuple(trait for trait in kind.traits.value if trait in traits())
    fact = Fact(good, kind.traits.source, kind.traits.sure)
    return msgspec.structs.replace(kind, traits=fact)


def known_stages(own: OwnFile, name: str, kind: Kind) -> Kind:
    """`kind` without a list of stages that is not there, which is reported."""
    if kind.stages is None or kind.stages.value in stage_lists():
        return kind
    hint = did_you_mean(kind.stages.value, stage_lists())
    message = f'{clipped(name)}: no list of stages is called "{clipped(kind.stages.value)}"; it was left out.'
    own.fault((name, "stages"), message, f"{hint} Write one of {', '.join(stage_lists())}.".strip())
    return msgspec.structs.replace(kind, stages=None)


def known_ways(own: OwnFile, name: str, kind: Kind) -> None:
    """Report ways of pruning that the library does not have; a kind that names one is cut in no way."""
    named: dict[tuple[str, ...], Fact[str] | None] = {(name, "pruning", "way"): kind.pruning.way}
    named |= {(name, "cultivars", c, "pruning_way"): facts.pruning_way for c, facts in kind.cultivars.items()}
    for path, fact in named.items():
        if fact is not None and fact.value not in (
            ways := names_of_ways(packaged("pruning", dict[str, msgspec.Raw]))
        ):
            message = (
                f'{clipped(name)}: the library has no way of pruning "{clipped(fact.value)}"; no cut is told.'
            )
            own.fault(path, message, did_you_mean(fact.value, ways))
