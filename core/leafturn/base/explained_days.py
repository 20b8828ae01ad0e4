"""Days that something comes to in a season, and why: a moment of a rule, a heap's turn, a climber's cut."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from leafturn.base.arrays import FloatArray, at_share
from leafturn.base.evidence import Basis


@dataclass(frozen=True, slots=True)
class Measure:
    """What a moment waits for, counted: how much there is today, how much is wanted, and of what."""

    now: float
    needed: float
    unit: str


@dataclass(frozen=True, eq=False)
class ExplainedDays:
    """Day numbers (draws,), the sentence that explains them, and what they rest on.

    `second` is a second opinion in a sentence, where it differs. `tells_last_done` is whether the sentence
    says when the job was last done, `tells_tonight` whether it is of the night to come. `measure` is what it
    waits for where that is counted; `moment` the one that decides, as its rule writes it.
    """

    days: FloatArray
    says: str
    basis: Basis | None = None
    tells_last_done: bool = False
    tells_tonight: bool = False
    second: str = ""
    measure: Measure | None = None
    moment: str = ""

    @cached_property
    def middle(self) -> float:
        """The median day."""
        return at_share(self.days, 0.5)
