"""The built-in numbers a steward may change under `[rule]`; `tunables.toml` gives their sources."""

import math
from collections.abc import Iterator, Mapping
from pathlib import Path

import msgspec

from leafturn.base.value import Value

Rules = Mapping[str, float | str | bool]


class Number(Value, kw_only=False, array_like=True):
    """A built-in value, the bounds of sense, its unit, and its source."""

    value: float
    least: float
    most: float
    unit: str
    source: str


NUMBERS: Mapping[str, Number] = msgspec.toml.decode(
    Path(__file__).with_suffix(".toml").read_bytes(), type=dict[str, Number]
)

HALF_METRES = "partner_half_metres_"  # a kind's name may follow, spaces written "_"
IN_ORDER = (("partner_lacks_below", "partner_thin_below"),)  # the first of each pair is not above the second


class Numbers(Mapping[str, float]):
    """The numbers in force: the steward's own laid over the built-in ones.

    Parameters
    ----------
    rules : mapping
        The garden's `[rule]` table; what `complaints` finds wrong is left out.
    """

    def __init__(self, rules: Rules) -> None:
        self._own = _usable(rules)
        self._values = {name: self._own.get(name, number.value) for name, number in NUMBERS.items()}

    def __getitem__(self, name: str) -> float:
        return self._values[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._values)

    def __len__(self) -> int:
        return len(self._values)

    def own(self, name: str) -> float | None:
        """The steward's own value, also of a name that goes on with a kind's; None without one."""
        return self._own.get(name)


def number_named(name: str) -> Number | None:
    """The number of a name, or of the family whose names go on with a kind's; None if there is none."""
    family = NUMBERS[f"{HALF_METRES}insect"] if name.startswith(HALF_METRES) else None
    return NUMBERS.get(name, family)


def complaints(rules: Rules) -> tuple[tuple[str, str], ...]:
    """Each of the steward's own values that cannot be used: its name, and a sentence that tells why."""
    said = [(name, wrong) for name, value in rules.items() if (wrong := complaint(name, value)) is not None]
    return (*said, *((a, f"{a} is above {b}; the usual of both are used.") for a, b in _crossed(rules)))


def complaint(name: str, value: float | str | bool) -> str | None:
    """What is wrong with a steward's own value for a built-in number; None if it can be used."""
    number = number_named(name)
    if number is None:
        return None
    usual = f"The usual {number.value:g} is used."
    if isinstance(value, bool | str) or not math.isfinite(value):
        return f"{name} = {value} is not a number. {usual}"
    if not number.least <= value <= number.most:
        return f"{name} = {value:g} is outside {number.least:g} to {number.most:g} {number.unit}. {usual}"
    return None


def _usable(rules: Rules) -> dict[str, float]:
    own = _in_bounds(rules)
    for name in {name for pair in _crossed(rules) for name in pair}:
        own.pop(name, None)
    return own


def _crossed(rules: Rules) -> list[tuple[str, str]]:
    """Pairs of which the first would be above the second."""
    used = {name: number.value for name, number in NUMBERS.items()} | _in_bounds(rules)
    return [(low, high) for low, high in IN_ORDER if used[low] > used[high]]


def _in_bounds(rules: Rules) -> dict[str, float]:
    return {
        name: float(value)
        for name, value in rules.items()
        if number_named(name) is not None and complaint(name, value) is None
    }


USUAL = Numbers({})
"""The built-in numbers, as they are where a steward has changed none."""
