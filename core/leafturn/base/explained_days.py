"""Days that something comes to in a season, and why: a moment of a rule, a heap's turn, a climber's cut."""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property

import numpy as np

from leafturn.base.arrays import FloatArray, in_order
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


class Told(Value):
    """What is said of days.

    `says` is the sentence that explains them, `second` a second opinion in a sentence, where it differs.
    `tells_last_done` is whether the sentence says when the job was last done; `tonight` is the night to come,
    where the sentence is of that. `reckoned` tells in a sentence what is waited for. `event` names what
    comes, with its day ("leaf-out of golden-hop (9 Apr)"); `apart` is how far before or after that the days
    lie ("two weeks after leaf-out of golden-hop (9 Apr)"). `hardly_ever` is whether it only says that what is
    waited for hardly ever comes: no reason to do anything.
    """

    says: str = ""
    second: str = ""
    tells_last_done: bool = False
    tonight: NightAhead | None = None
    reckoned: str = ""
    event: str = ""
    apart: str = ""
    hardly_ever: bool = False


class ExplainedDays(Value, eq=False, kw_only=False):
    """Day numbers (draws,), what is said of them, and what they rest on.

    Of most days nothing is ever read, so what is said of each is made when asked for: `telling` gives it.
    `measure` is what they wait for, where that is counted.
    """

    days: FloatArray
    telling: Callable[[], Told] = Told
    basis: Basis | None = None
    measure: Measure | None = None

    @cached_property
    def told(self) -> Told:
        """What is said of them."""
        return self.telling()

    @cached_property
    def ordered(self) -> FloatArray:
        """The days in order, (draws,)."""
        return np.sort(self.days)

    @cached_property
    def middle(self) -> float:
        """The median day."""
        return in_order(self.ordered, 0.5)
