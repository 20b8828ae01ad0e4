"""Finding kinds and cultivars by any part of any of their names, quickly enough to ask at every key."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from leafturn.kinds.library import Library
from leafturn.kinds.model import Kind
from leafturn.kinds.names import normalised


class FoundKind(NamedTuple):
    """A kind, or a cultivar of it, that was found; with what else there is to say of the kind."""

    kind: str
    cultivar: str = ""
    botanical: str = ""


class _Entry(NamedTuple):
    found: FoundKind
    name: str  # its own, folded
    own: str  # all its own names, folded, each after a bar
    all: str  # those of its kind too


class KindSearch:
    """All kinds and cultivars of a library by their names; made once, it decodes every kind.

    Parameters
    ----------
    library : Library
    """

    def __init__(self, library: Library) -> None:
        shared: dict[str, list[str]] = {}
        for name, meant in library.shared_names.items():
            for one in meant:
                shared.setdefault(one, []).append(name)
        self._shared = {normalised(name): kinds for name, kinds in library.shared_names.items()}
        self._misspelt = library.misspelt
        self._entries: list[_Entry] = []
        for kind_name in sorted(library.kinds):
            kind = library.kinds[kind_name]
            own = _names(kind, shared.get(kind_name, ()))
            found = FoundKind(kind.name, "", kind.botanical)
            self._entries.append(_Entry(found, normalised(kind.name), own, own))
            known = kind.cultivar_names
            for cultivar in sorted(known):
                names = _joined((cultivar, *known[cultivar]))
                found = FoundKind(kind.name, cultivar, kind.botanical)
                self._entries.append(_Entry(found, normalised(cultivar), names, names + own))

    def find(self, typed: str, *, kind: str = "", most: int = 60) -> list[FoundKind]:
        """Those whose names hold every word that is typed, whole or in part, likeliest first.

        Where no name does, the kind of whose name it is a slip of the pen.

        Parameters
        ----------
        typed : str
            Such as "com", "comice pear" or "pyrus"; nothing typed gives the kinds.
        kind : str
            Only cultivars of this kind.
        most : int
        """
        words = normalised(typed).split()
        among: Iterable[_Entry] = self._entries
        if kind:
            among = [e for e in among if e.found.kind == kind and e.found.cultivar]
        elif not words:
            among = [e for e in among if not e.found.cultivar]
        held = [e for e in among if all(word in e.all for word in words)]
        if not held and not kind and (meant := self._misspelt(typed)) is not None:
            return [FoundKind(meant.name, "", meant.botanical)]
        whole = " ".join(words)
        often = self._shared.get(whole, ())
        held.sort(key=lambda e: (*_farness(e, whole, words), _place(e.found.kind, often), e.name))
        return [entry.found for entry in held[:most]]


def _place(kind: str, often: tuple[str, ...]) -> int:
    """Where a kind stands among those that share a name, the one meant most often first."""
    return often.index(kind) if kind in often else len(often)


def _farness(entry: _Entry, whole: str, words: list[str]) -> tuple[int, bool]:
    """The less, the likelier it is meant: whole words before parts, its own name before others, kinds
    before cultivars."""
    named, called = set(entry.name.split()), set(entry.own.replace("|", " ").split())
    if entry.name == whole or f"|{whole}|" in entry.own:
        far = 0
    elif named.issuperset(words):
        far = 1
    elif entry.name.startswith(whole):
        far = 2
    elif called.issuperset(words):
        far = 3
    elif f"|{whole}" in entry.own:
        far = 4
    elif all(f"|{word}" in entry.own or f" {word}" in entry.own for word in words):
        far = 5
    elif any(word in entry.own for word in words):
        far = 6
    else:
        far = 7
    return far, bool(entry.found.cultivar)


def _names(kind: Kind, shared: Iterable[str]) -> str:
    return _joined((kind.name, *kind.common, kind.botanical, *kind.synonyms, *kind.serves_for, *shared))


def _joined(names: Iterable[str]) -> str:
    return "".join(f"|{normalised(name)}" for name in names if name) + "|"
