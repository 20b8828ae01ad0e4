"""Whether the names of kinds belong to one kind each."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from leafturn.kinds.checks.agreement import Clash
from leafturn.kinds.model import Kind
from leafturn.kinds.names import without_spaces
from leafturn.kinds.packaged import Names, Tables
from leafturn.toml.positions import Steps

_SAID = {"common": "name", "botanical": "botanical name", "synonyms": "synonym", "serves_for": "relative"}


def owners_of(others: Tables) -> dict[str, str]:
    """Squashed name to the kind it belongs to."""
    return {name: kind for kind in others for name in names_claimed(others.names(kind))}


def names_claimed(names: Names) -> set[str]:
    """All names of a kind, normalised without spaces."""
    return {without_spaces(name) for _, name in _named(names)}


def claims(kind: Kind, owners: Mapping[str, str], shared: Mapping[str, tuple[str, ...]]) -> Iterator[Clash]:
    """Names of a kind that belong to another, or to several.

    Parameters
    ----------
    kind : Kind
    owners : mapping of str to str
        As `owners_of` gives them; names of `kind` itself do no harm.
    shared : mapping of str to tuple of str
        Names that several kinds share.
    """
    several = {without_spaces(name): kinds for name, kinds in shared.items()}
    for path, name in _named(Names.of(kind)):
        owner = owners.get(without_spaces(name), kind.name)
        said = f"the {_SAID[str(path[0])]} " if path else "the name "
        if owner != kind.name:
            yield Clash(path, f'{kind.name}: {said}"{name}" belongs to {owner}.')
        elif without_spaces(name) in several and (not path or path[0] == "common"):
            among = ", ".join(several[without_spaces(name)])
            yield Clash(path, f'{kind.name}: {said}"{name}" is shared by {among} (shared_names.toml).')


def _named(names: Names) -> Iterator[tuple[Steps, str]]:
    """Every name of a kind with its place in the kind's table; its own stands at the head."""
    yield (), names.name
    if names.botanical:
        yield ("botanical",), names.botanical
    for field in ("common", "synonyms", "serves_for"):
        for number, name in enumerate(getattr(names, field)):
            yield (field, number), name
