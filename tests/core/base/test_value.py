"""What every value is: frozen, told by name, compared by what it holds."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from leafturn.base.value import Value


class Stake(Value):
    """A stake beside a tree."""

    height_m: float
    tied: bool = True


class Tall(Stake):
    """A stake that wants a ladder."""

    ladder: str


class Alone(Value, eq=False):
    """Equal only to itself."""

    height_m: float


def test_a_value_is_frozen_and_told_by_name() -> None:
    stake = Stake(height_m=1.2)
    with pytest.raises(AttributeError, match="immutable"):
        stake.height_m = 2.0  # type: ignore[misc]
    with pytest.raises(TypeError):
        Stake(1.2)  # type: ignore[misc]
    assert replace(stake, tied=False) == Stake(height_m=1.2, tied=False)


def test_values_are_equal_by_what_they_hold_unless_told_otherwise() -> None:
    assert Stake(height_m=1.2) == Stake(height_m=1.2)
    assert len({Stake(height_m=1.2), Stake(height_m=1.2)}) == 1
    assert Alone(height_m=1.2) != Alone(height_m=1.2)


def test_a_value_takes_over_the_fields_of_the_one_it_stands_on() -> None:
    assert Tall(height_m=3.0, ladder="orchard").tied
