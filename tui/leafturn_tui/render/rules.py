"""Which rule of tending matches what: in plain lines and as JSON."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from leafturn_tui.render.parts.question import Question
from leafturn_tui.render.parts.values import Answer
from leafturn_tui.text import phrases

if TYPE_CHECKING:
    from leafturn.answers.rules import RuleJob, RuleView
    from leafturn_tui.almanac_face import AlmanacFace

QUESTION = Question(asked="Which rule is for what, and on which days?", place=145)
NAMED = 4  # plants named of those that a condition leaves out


def lines(almanac: AlmanacFace, rule: str | None = None) -> Iterator[str]:
    """Every rule of tending with what it matches, and when; of one rule also what it misses, and why."""
    for view in almanac.rules():
        if rule is None:
            yield _in_short(view, almanac)
        elif view.id == rule:
            yield from _in_full(view, almanac)


def as_json(almanac: AlmanacFace, rule: str | None = None) -> Answer:
    """Every rule, or the one asked for."""
    return {"rules": [view for view in almanac.rules() if rule in (None, view.id)]}


def _in_short(view: RuleView, almanac: AlmanacFace) -> str:
    matched = "; ".join(_matched(view, almanac))
    return f"{view.id}: {matched or 'nothing here'}"


def _in_full(view: RuleView, almanac: AlmanacFace) -> Iterator[str]:
    where = "of the garden file" if view.own else "of the program"
    yield f"{view.id}, {view.verb}, {where}"
    if view.counts_as:
        yield f"Done, it counts as: {view.counts_as}."
    if view.closed_by:
        yield f"A note of {view.closed_by} does it too."
    if view.cut:
        yield f'Its dates are those of "{view.cut}" in the way each kind is pruned, with their source.'
    else:
        yield f"Basis: {view.basis}; {view.source}."
    yield "It is for:" if view.matches else "It is for nothing here."
    yield from (f"  {line}" for line in _matched(view, almanac, named=True))
    if view.misses:
        yield "It is not for:"
    by_reason: dict[str, list[str]] = {}
    for miss in view.misses:
        by_reason.setdefault(", and ".join(miss.why[:2]), []).append(miss.subject)
    for why, subjects in sorted(by_reason.items(), key=lambda pair: (-len(pair[1]), pair[0])):
        yield f"  {_some_of(subjects)}: {why}"


def _matched(view: RuleView, almanac: AlmanacFace, *, named: bool = False) -> Iterator[str]:
    """Each match with its jobs, then those without any, by what keeps the job from coming."""
    without: dict[str, list[str]] = {}
    for match in view.matches:
        if match.jobs:
            is_group = bool(match.plants) and match.plants != (match.subject,)
            names = f" ({', '.join(match.plants)})" if named and is_group else ""
            yield f"{match.subject}, {', '.join(_job(job, almanac) for job in match.jobs)}{names}"
        else:
            without.setdefault(match.why_none, []).append(match.subject)
    for why, subjects in without.items():
        yield f"no job for {_some_of(subjects)}: {why}"


def _some_of(subjects: Sequence[str]) -> str:
    more = f" and {len(subjects) - NAMED} more" if len(subjects) > NAMED else ""
    return f"{', '.join(subjects[:NAMED])}{more}"


def _job(job: RuleJob, almanac: AlmanacFace) -> str:
    on = almanac.on
    if job.open.likely is None or job.close.likely is None:
        return job.state
    return f"{job.state}, {phrases.day(job.open.likely, on)} to {phrases.day(job.close.likely, on)}"
