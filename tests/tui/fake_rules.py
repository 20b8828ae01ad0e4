"""The part of the hand-made almanac that tells of rules, and of what was lost."""

from __future__ import annotations

from fake_garden import likely
from fake_tending import SURVIVAL

from leafturn.answers.rules import RuleJob, RuleMatch, RuleMiss, RuleView
from leafturn.answers.survival import Survival

RULES = (
    RuleView(
        id="summer-cut-climber", verb="summer cut", own=False, counts_as="cut", closed_by=None,
        cut="climber in summer", basis="handbook", source="",
        matches=(
            RuleMatch(
                subject="kiwi-f1", name="kiwi-f1", plants=("kiwi-f1",), why_none="",
                jobs=(
                    RuleJob(id="kiwi-f1:summer-cut:2027", state="not yet", open=likely(6, 10),
                            best=likely(7, 1), close=likely(8, 22)),
                ),
            ),
        ),
        misses=(
            RuleMiss(subject="quince", why=('the way it is pruned here has no "climber in summer"',)),
            RuleMiss(subject="comice-1", why=('the way it is pruned here has no "climber in summer"',)),
        ),
    ),
    RuleView(
        id="own-1-soak", verb="soak", own=True, counts_as="water", closed_by="harvest", cut=None,
        basis="rule of thumb", source="the garden file",
        matches=(
            RuleMatch(subject="quince", name="quince", plants=("quince",), jobs=(), why_none="no cold night"),
        ),
        misses=(),
    ),
)  # fmt: skip


class FakeRules:
    """Two rules: one of the program, one of the garden file."""

    def rules(self) -> tuple[RuleView, ...]:
        """One that makes a job, and one that makes none."""
        return RULES

    def survival(self) -> Survival:
        """One kind of which one plant was lost."""
        return SURVIVAL
