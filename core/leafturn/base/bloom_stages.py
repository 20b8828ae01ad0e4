"""Stages of bloom and harvest: what each is called, its BBCH figure, and where its days stand.

References
----------
Meier (ed.) 2018, Growth stages of mono- and dicotyledonous plants, BBCH monograph, JKI; what is seen is its
general wording for fruit trees (from memory).
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from leafturn.base.value import Value

StageName = Literal["first open", "full bloom", "petal fall", "none this year", "bud break", "leaf fall"]
"""What a note of bloom or of leaves may tell."""


class Stage(Value, kw_only=False):
    """One stage.

    Parameters
    ----------
    name : str
        As it is noted and shown.
    bbch : int
        Its figure on the trade's scale.
    field : str
        Where a bloom forecast holds its days.
    moment : str
        As the moments of rules name it.
    doing : str
        What the plant then does, as in "when early-plum fades"; empty where nobody says it so.
    event, will, did : str
        For sentences: "Bloom" of a plant "begins" or "began".
    sign : str
        How it is told by looking; empty for harvest.
    """

    name: str
    bbch: int
    field: str
    moment: str
    doing: str
    event: str
    will: str
    did: str
    sign: str = ""

    @property
    def key(self) -> str:
        """Its key in the frost table of a kind: "full_bloom"."""
        return self.name.replace(" ", "_")


FIRST_OPEN = Stage(
    "first open", 61, "first_open", "first open", "opens", "Bloom", "begins", "began",
    sign="about one flower in ten is open",
)  # fmt: skip
FULL_BLOOM = Stage(
    "full bloom", 65, "full", "full bloom", "is in full bloom", "Full bloom", "comes", "came",
    sign="half or more are open, the first petals fall",
)  # fmt: skip
PETAL_FALL = Stage(
    "petal fall", 69, "end", "bloom end", "fades", "Bloom", "ends", "ended",
    sign="all petals have fallen",
)  # fmt: skip
RIPE = Stage("ripe", 87, "ripe", "ripe", "is ripe", "Picking", "begins", "began")
PICKED = Stage("picked over", 89, "picked", "picked", "", "Picking", "ends", "ended")

FLOWERING = (FIRST_OPEN, FULL_BLOOM, PETAL_FALL)
FLOWERING_NAMES = tuple(stage.name for stage in FLOWERING)
HARVEST = (RIPE, PICKED)
COURSE = (*FLOWERING, *HARVEST)  # in the order of the year
BY_NAME: Mapping[str, Stage] = {stage.name: stage for stage in COURSE}
BY_MOMENT: Mapping[str, Stage] = {stage.moment: stage for stage in COURSE}

BBCH: Mapping[str, int] = {
    "bud break": 7, **{stage.name: stage.bbch for stage in FLOWERING}, "leaf fall": 93,
}  # fmt: skip
"""Figures of the stages that can be noted."""
