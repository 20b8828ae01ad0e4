"""What many gardens tell together, in plain lines."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any

from leafturn_tui.text import phrases

if TYPE_CHECKING:
    from leafturn.fleet.run import Progress
    from leafturn.fleet.summary import Beside, FrostRisk, Lack, Skill, Summary

MOST = 12  # lines of each; the tables have all


def silent_lines(progress: Progress) -> Iterator[str]:
    """The gardens that gave no answers, each with its fault."""
    return (f"{one.garden}: {one.said}" for one in sorted(progress.without_answers, key=lambda a: a.garden))


def lines(progress: Progress, summary: Summary, asked: Sequence[str]) -> Iterator[str]:
    """How many gardens answered, and what they come to."""
    silent = len(progress.without_answers)
    yield (
        f"{phrases.count(progress.done, 'garden')} of {progress.gardens}: {progress.done - silent} answered, "
        f"{silent} gave no answers."
    )
    if "partners" in asked:
        yield from _section("Which kinds lack partners where", summary.lacks, _lack)
    if "frost" in asked:
        yield from _section("What frost may take in the next seven nights", summary.frost, _frost)
    if "forecasts" in asked:
        yield from _section("How forecasts did", summary.skill, _skill)


def _section(heading: str, found: Sequence[Any], said: Any) -> Iterator[str]:
    told = [line for line in map(said, found) if line]
    yield ""
    yield f"{heading}: {'nothing to tell.' if not told else ''}".rstrip()
    yield from (f"  {line}" for line in told[:MOST])
    if (more := len(told) - MOST) > 0:
        yield f"  {more} more in the tables."


def _lack(one: Lack) -> str:
    if not one.lacking:
        return ""
    gardens = phrases.count(one.gardens, "garden")
    thinly = f"; {one.thin} with one thinly" if one.thin else ""
    return f"{one.kind}, {one.area}: {one.lacking} of {one.trees} without a partner, in {gardens}{thinly}."


def _frost(one: FrostRisk) -> str:
    if not one.likely:
        return ""
    loss = f"likely to lose a tenth or more at the {one.part}"
    gardens = phrases.count(one.gardens, "garden")
    return f"{one.kind}, {one.area}: {one.likely} of {one.plants} {loss}, in {gardens}."


def _skill(one: Skill) -> str:
    late = "late" if one.late_days > 0 else "early"
    return (
        f"{one.what}, {one.kind or 'of the place'}: {one.events} noted; "
        f"missed by {one.missed_days:.1f} days, "
        f"{abs(one.late_days):.1f} too {late} on the mean"
        f"{_beside('the published date', one.published)}{_beside('the mean of notes', one.notes)}."
    )


def _beside(what: str, other: Beside | None) -> str:
    if other is None:
        return ""
    return f"; {what} by {other.other_days:.1f} where the forecast missed by {other.forecast_days:.1f}"
