"""Whether facts have a source that is known, and are as sure as their source allows."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from leafturn.base.faults import did_you_mean
from leafturn.kinds.defaults import DEFAULT_SOURCE
from leafturn.kinds.growing import HeatSum
from leafturn.kinds.model import Fact, Kind, Source
from leafturn.toml.positions import Steps

GUESSED = ("own guess", DEFAULT_SOURCE)


class EvidenceFault(NamedTuple):
    """What is wrong with the evidence of one fact, and where it stands in its kind.

    `unknown` is True where the source is none of the library's, which a steward's own words may be.
    """

    path: Steps
    says: str
    hint: str
    unknown: bool = False


def said(path: Steps) -> str:
    """A place in a kind's table in words: "bloom.length_days", "cautions (no. 2)"."""
    return (
        ".".join(map(str, path)) if isinstance(path[-1], str) else f"{said(path[:-1])} (no. {path[-1] + 1})"
    )


def facts_in(kind: Kind) -> Iterator[tuple[Steps, Fact[Any] | HeatSum]]:
    """Every fact of a kind and of its cultivars with its place in the kind's table."""
    for section in kind.__struct_fields__:
        value = getattr(kind, section)
        if isinstance(value, Fact):
            yield (section,), value
        elif isinstance(value, tuple):
            for number, item in enumerate(value):
                if isinstance(item, Fact | HeatSum):
                    yield (section, number), item
        else:
            for field in getattr(value, "__struct_fields__", ()):
                if (fact := getattr(value, field)) is not None:
                    yield (section, field), fact
    for name, cultivar in kind.cultivars.items():
        for field in cultivar.__struct_fields__:
            fact = getattr(cultivar, field)
            if isinstance(fact, Fact):
                yield ("cultivars", name, field), fact


def evidence_faults(kind: Kind, sources: Mapping[str, Source], file: str) -> Iterator[EvidenceFault]:
    """Facts whose source is not known, or does not bear out how sure they are said to be.

    Parameters
    ----------
    kind : Kind
    sources : mapping of str to Source
        The library's.
    file : str
        The file's own name, which is the source of plain values.
    """
    for path, fact in facts_in(kind):
        what = f"{kind.name}: {said(path)}"
        source = sources.get(fact.source)
        if fact.source == file:
            says = f"{what} has no source; this file is taken for it, and the value is called fair."
            yield EvidenceFault(path, says, 'Write [value, "where it is from", "fair"].', unknown=True)
        elif source is None:
            says = f'{what} cites "{fact.source}", which is not a key of sources.toml.'
            yield EvidenceFault(path, says, did_you_mean(fact.source, sources), unknown=True)
        elif fact.source in GUESSED and fact.sure != "guess":
            yield EvidenceFault(
                path, f'{what} is a guess by its source, and is called "{fact.sure}".', 'Write "guess".'
            )
        elif fact.sure == "sure" and not source.read:
            says = f'{what} is called sure, but "{fact.source}" was not read (read = false in sources.toml).'
            yield EvidenceFault(path, says, 'Write "fair", or read the source and write read = true there.')
