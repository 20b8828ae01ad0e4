"""Days that something comes to in a season, and why: a moment of a rule, a heap's turn, a climber's cut."""

from __future__ import annotations

from functools import cached_property

from leafturn.base.arrays import FloatArray, at_share
from leafturn.base.evidence import Basis
from leafturn.base.value import Value

NEVER = 10_000.0  # a day number past every season


class Measure(Value, kw_only=False):
    """What a moment waits for, counted: how much there is today, how much is wanted, and of what."""

    now: float
    needed: float
    unit: str


class NightAhead(Value, kw_only=False):
    """The night to come, and what it meets: its likely minimum in the garden, the minimum that kills one in
    ten of a part [degC], and which part: "bud", "flower" or "young fruit"."""

    likely_c: float
    tenth_c: float
    part: str


class ExplainedDays(Value, eq=False, kw_only=False):
    """Day numbers (draws,), the sentence that explains them, and what they rest on.

    `second` is a second opinion in a sentence, where it differs. `tells_last_done` is whether the sentence
    says when the job was last done; `tonight` is the night to come, where the sentence is of that. `measure`
    is what it waits for where that is counted, `reckoned` that in a sentence; `moment` the one that decides,
    as its rule writes it. `event` names what comes, with its day ("leaf-out of golden-hop (9 Apr)"); `apart`
    is how far before or after that the days lie ("two weeks after leaf-out of golden-hop (9 Apr)").
    """

    days: FloatArray
    says: str
    basis: Basis | None = None
    tells_last_done: bool = False
    tonight: NightAhead | None = None
    second: str = ""
    measure: Measure | None = None
    moment: str = ""
    event: str = ""
    apart: str = ""
    reckoned: str = ""

    @cached_property
    def middle(self) -> float:
        """The median day."""
        return at_share(self.days, 0.5)
