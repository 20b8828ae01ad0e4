"""Several gardens told together: what each is called, and their answers as one JSON object."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from leafturn import __version__
from leafturn_tui.render.parts.values import Answer, fault, shell, unreadable

if TYPE_CHECKING:
    import datetime as dt

    from leafturn.assembly.other_gardens import NamedGarden
    from leafturn_tui.almanac_face import AlmanacFace


def titles(found: Sequence[NamedGarden[AlmanacFace]]) -> list[str]:
    """What each garden is called: its name, and where two have one name the way to it too.

    A garden without a name is called by its folder, one that cannot be read as it was named.
    """
    names = [_name(one) for one in found]
    shared = {name for name, times in Counter(map(str.casefold, names)).items() if times > 1}
    return [
        f"{name} ({one.path})" if name.casefold() in shared and name != one.path else name
        for name, one in zip(names, found, strict=True)
    ]


def _name(one: NamedGarden[AlmanacFace]) -> str:
    if one.garden is None:
        return one.path
    return one.garden.garden.place.name or one.garden.folder.resolve().name or one.path


def each_as_json(
    found: Sequence[NamedGarden[AlmanacFace]], on: dt.date, answer: Callable[[AlmanacFace], Answer]
) -> list[Answer]:
    """A whole answer for each garden, with the way to it and what it is called."""
    return [
        {"path": one.path, "called": title}
        | (
            shell(one.garden) | answer(one.garden)
            if one.garden is not None
            else unreadable(one.fault, on)
            if one.fault is not None
            else {}
        )
        for one, title in zip(found, titles(found), strict=True)
    ]


def several_json(
    found: Sequence[NamedGarden[AlmanacFace]], on: dt.date, answer: Callable[[AlmanacFace], Answer]
) -> Answer:
    """Several gardens as one object; `faults` are those of gardens that cannot be read."""
    return {
        "leafturn": __version__,
        "garden": None,
        "on": on,
        "faults": [fault(one.fault) for one in found if one.fault is not None],
        "notes": [],
        "gardens": each_as_json(found, on, answer),
    }
