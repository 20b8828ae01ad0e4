"""What a moment comes to in one season."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from leafturn.base.arrays import FloatArray
from leafturn.base.evidence import Basis


@dataclass(frozen=True, eq=False)
class Resolved:
    """Day numbers (draws,), the sentence that explains them, and what they rest on."""

    days: FloatArray
    says: str
    basis: Basis | None = None

    @cached_property
    def middle(self) -> float:
        """The median day."""
        ordered = np.sort(self.days)
        return float(ordered[round(0.5 * (len(ordered) - 1))])
