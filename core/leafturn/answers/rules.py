"""What each rule of tending matches in a garden, on which days, and what keeps it from the rest."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence

from leafturn.base.closed_words import CountsAs
from leafturn.base.date_range import Likely
from leafturn.base.value import Value
from leafturn.tasks.model import Job, State
from leafturn.tasks.rule_fit import misses, misses_heap
from leafturn.tasks.rule_model import Rule, RuleBook
from leafturn.tasks.season_model import SeasonModel
from leafturn.tasks.subjects import Subject, subjects_of
from leafturn.tasks.timing.frost_threat import under_threat


class RuleJob(Value):
    """A job that a rule makes this season: its id, its word, and its window."""

    id: str
    state: State
    open: Likely
    best: Likely
    close: Likely


class RuleMatch(Value):
    """What a rule is laid on: one plant or heap, or several together.

    `jobs` are those it makes this season; where there are none, `why_none` says why.
    """

    subject: str
    name: str
    plants: tuple[str, ...]
    jobs: tuple[RuleJob, ...]
    why_none: str


class RuleMiss(Value):
    """A plant or heap that a rule is not for, with every condition that does not hold."""

    subject: str
    why: tuple[str, ...]


class RuleView(Value):
    """One rule in force, what it matches and what it does not.

    `own` tells that it stands in the garden file; `cut` names the cut whose dates, basis and source it takes
    from the way each kind is pruned.
    """

    id: str
    verb: str
    own: bool
    counts_as: CountsAs | None
    closed_by: str | None
    cut: str | None
    basis: str
    source: str
    matches: tuple[RuleMatch, ...]
    misses: tuple[RuleMiss, ...]


def rule_views(
    book: RuleBook, own: Collection[str], season: SeasonModel, jobs: Sequence[Job]
) -> tuple[RuleView, ...]:
    """Every rule in force, in the order in which it is laid on the garden.

    Parameters
    ----------
    book : RuleBook
    own : collection of str
        Ids of the rules that stand in the garden file.
    season : SeasonModel
        The season that holds the day.
    jobs : sequence of Job
        Of the season.
    """
    made: dict[tuple[str, str], list[Job]] = {}
    for job in jobs:
        made.setdefault((job.rule, job.plant), []).append(job)
    return tuple(_view(rule, rule.id in own, season, made) for rule in book.rules)


_Made = Mapping[tuple[str, str], Sequence[Job]]  # jobs by their rule and their subject


def _view(rule: Rule, own: bool, season: SeasonModel, made: _Made) -> RuleView:
    return RuleView(
        id=rule.id,
        verb=rule.verb,
        own=own,
        counts_as=rule.counts_as,
        closed_by=rule.closed_by,
        cut=rule.cut,
        basis=rule.basis,
        source=rule.source,
        matches=tuple(_match(rule, subject, season, made) for subject in subjects_of(rule, season)),
        misses=tuple(_misses(rule, season)),
    )


def _match(rule: Rule, subject: Subject, season: SeasonModel, made: _Made) -> RuleMatch:
    own = tuple(
        RuleJob(id=job.id, state=job.state, open=job.open, best=job.best, close=job.close)
        for job in made.get((rule.id, subject.id), ())
    )
    return RuleMatch(
        subject=subject.id,
        name=subject.name,
        plants=tuple(plant.id for plant in subject.plants),
        jobs=own,
        why_none="" if own else _why_none(rule, subject, season),
    )


def _why_none(rule: Rule, subject: Subject, season: SeasonModel) -> str:
    if rule.follows is not None:
        return f'it follows "{rule.follows}", of which no job is noted as done in the months before'
    if not under_threat(rule, subject, season):
        days = rule.applies.frost_within_days
        return f"no night within {days} days is cold enough to call for it"
    return (
        "its window does not open this season; a moment it waits for does not come, or it would close first"
    )


def _misses(rule: Rule, season: SeasonModel) -> Iterator[RuleMiss]:
    garden = season.day.garden
    if rule.applies.subject == "heap":
        missed = ((heap.id, tuple(misses_heap(rule, heap, season))) for heap in garden.heaps)
    else:
        missed = ((plant.id, tuple(misses(rule, plant, season))) for plant in garden.plants)
    return (RuleMiss(subject=subject, why=why) for subject, why in missed if why)
