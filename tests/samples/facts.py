"""Facts of the library that a test takes to be there."""

from __future__ import annotations

from typing import TypeVar

from leafturn.kinds.model import Fact

Value = TypeVar("Value")


def known(fact: Fact[Value] | None) -> Fact[Value]:
    """A fact that the library states; a test that leans on one it does not state fails here."""
    assert fact is not None
    return fact
