"""A cultivar written under the wrong kind, found among kinds of the same genus."""

from __future__ import annotations

from leafturn.kinds.library import Library
from leafturn.kinds.model import Kind
from leafturn.kinds.names import genus_of, normalised


def kind_of_cultivar(library: Library, kind: Kind, name: str | None) -> str | None:
    """The kind of the same genus that has a cultivar of this name; None where `kind` has it or none does.

    Parameters
    ----------
    library : Library
    kind : Kind
        As the garden file names it.
    name : str or None
        The cultivar as written; slips of the pen are not forgiven here.
    """
    genus = genus_of(kind.botanical)
    if not name or kind.guessed or not genus or library.cultivar(kind, name) is not None:
        return None
    for other in library.match(genus).choices:
        found = None if other == kind.name else library.cultivar(library.kinds[other], name)
        if found is not None and normalised(name) in {
            normalised(said) for said in (found[0], *found[1].also_called)
        }:
            return other
    return None
