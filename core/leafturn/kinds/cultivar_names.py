"""The names of one kind's cultivars, as people write them."""

from __future__ import annotations

from leafturn.base.kept import kept
from leafturn.kinds.model import Cultivar, Kind
from leafturn.kinds.names import find_loosely, normalised


class CultivarNames:
    """The names of one kind's cultivars."""

    def __init__(self, kind: Kind) -> None:
        self.kind = kind
        self._names = {
            normalised(said): name for name, other in kind.cultivar_names.items() for said in (*other, name)
        }
        self._noise = {word for said in (kind.name, *kind.common) for word in normalised(said).split()}

    @kept
    def meant(self, name: str) -> str | None:
        """The cultivar a name means, None if none."""
        return find_loosely(name, self._names, self._noise)


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
