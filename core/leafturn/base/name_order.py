"""The order in which names are listed."""

from __future__ import annotations

from leafturn.base.patterns import pattern

_NUMBER = pattern(r"(\d+)")


def name_order(name: str) -> tuple[str | int, ...]:
    """What names are sorted by: letters as letters, numbers by their size; pear-2 before pear-10.

    Parameters
    ----------
    name : str
        The id of a plant or of a job, or any other name.
    """
    parts: list[str | int] = list(_NUMBER.split(name))
    parts[1::2] = map(int, parts[1::2])
    return tuple(parts)
