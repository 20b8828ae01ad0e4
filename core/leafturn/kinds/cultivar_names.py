"""The names of one kind's cultivars, as people write them."""

from __future__ import annotations

from leafturn.base.kept import kept
from leafturn.kinds.model import Cultivar, Kind
from leafturn.kinds.names import find_loosely, normalised


@kept
def cultivar_meant(kind: Kind, name: str) -> str | None:
    """The cultivar of `kind` that a name means, None if none."""
    return find_loosely(name, *_names_and_noise(kind))


@kept
def _names_and_noise(kind: Kind) -> tuple[dict[str, str], set[str]]:
    """The cultivar for each of its names, and the words that people add to any of them."""
    names = {normalised(said): name for name, other in kind.cultivar_names.items() for said in (*other, name)}
    return names, {word for said in (kind.name, *kind.common) for word in normalised(said).split()}


def facts_of_cultivar(kind: Kind, name: str) -> Cultivar:
    """What a cultivar of `kind` does otherwise; nothing where only its name is known."""
    return kind.cultivars.get(name, Cultivar())


def first_parent(kind: Kind, name: str) -> str:
    """The cultivar from which a cultivar of `kind` came by sporting alone; itself if it is no sport."""
    passed = {name}
    while (parent := facts_of_cultivar(kind, name).clone_of) and parent.value in kind.cultivars:
        name = parent.value
        if name in passed:  # two that name each other
            break
        passed.add(name)
    return name
