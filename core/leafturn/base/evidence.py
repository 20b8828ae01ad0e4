"""What a date or a number rests on, in four words from sure to unsure."""

from __future__ import annotations

from typing import Literal, get_args

Basis = Literal["own record", "handbook", "rule of thumb", "guess"]

FROM_SURE_TO_UNSURE: tuple[Basis, ...] = get_args(Basis)


def weakest(*bases: Basis | None) -> Basis:
    """Of several bases the least sure; None says nothing, and with nothing said it is a guess."""
    known = [FROM_SURE_TO_UNSURE.index(basis) for basis in bases if basis is not None]
    return FROM_SURE_TO_UNSURE[max(known, default=-1)]
