"""The week's jobs: in plain lines and as JSON."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from leafturn.tasks.week.cautions import cautions_of_all
from leafturn_tui.render.parts.gardens import titles
from leafturn_tui.render.parts.heading import first_plant, season_line
from leafturn_tui.render.parts.question import Question
from leafturn_tui.render.parts.values import Answer, early_late, fields
from leafturn_tui.text import phrases, states
from leafturn_tui.text.waiting import waiting_lines

if TYPE_CHECKING:
    import datetime as dt

    from leafturn.assembly.other_gardens import NamedGarden
    from leafturn.tasks.model import Job, Trigger
    from leafturn.tasks.week.model import Line
    from leafturn_tui.almanac_face import AlmanacFace

QUESTION = Question(
    asked="What needs hands this week?",
    of_one="What needs {}'s hands this week?",
    place=10,
)


def lines(almanac: AlmanacFace, helper: str | None = None, ids: bool = False) -> Iterator[str]:
    """This week's jobs in walking order: state, what, where, who, minutes, and why."""
    week = almanac.round(helper)
    yield from week.notice
    if week.quiet:
        yield week.quiet
    if not week.lines:
        yield from first_plant(almanac)
    beyond = week.beyond_reach
    for line in week.lines:
        if line.state != "can wait":
            yield from _line(line, almanac, "", beyond, ids)
    if week.waiting:
        yield ""
        yield "These can wait:"
    for line in waiting_lines(week.waiting, almanac.on, beyond):
        ends, last = "its time ended" if line.state == "late" else "can wait until", line.dearest.wait_until
        until = f"{ends} {phrases.day(last, almanac.on)}" if last else ""
        yield from _line(line, almanac, until, beyond, ids)
    yield ""
    yield from (
        line for line in (phrases.hours_line(week), phrases.reach_line(week), phrases.walk_line(week)) if line
    )


def lines_of_several(
    found: Sequence[NamedGarden[AlmanacFace]], on: dt.date, helper: str | None = None, ids: bool = False
) -> Iterator[str]:
    """The week of several gardens, walked garden by garden; one that cannot be read costs a sentence.

    Parameters
    ----------
    found : sequence of NamedGarden
    on : date
    helper : str or None
        Show only what falls to this helper.
    ids : bool
        Whether the ids of jobs are told too.
    """
    weeks = [one.garden.round(helper) for one in found if one.garden is not None]
    yield f"{QUESTION.words(helper)}  {phrases.long_day(on)}, {phrases.count(len(weeks), 'garden')}"
    yield (
        f"together {phrases.hours(sum(week.hours_needed for week in weeks))} of work; "
        f"{phrases.hours(sum(week.hours_available for week in weeks))} at hand"
    )
    for one, title in zip(found, titles(found), strict=True):
        yield ""
        if one.garden is None:
            yield f"{title}: not told here."
            yield f"    {one.fault.sentence()}" if one.fault else ""
            continue
        yield f"== {title}: {season_line(one.garden)}"
        yield from lines(one.garden, helper, ids)


def _line(line: Line, almanac: AlmanacFace, more: str, beyond: tuple[str, ...], ids: bool) -> Iterator[str]:
    """One job, or several alike."""
    if len(line.jobs) == 1:
        return _job(line.dearest, almanac, more, beyond, ids)
    return _several(line, almanac, more, beyond, ids)


def _several(
    line: Line, almanac: AlmanacFace, more: str, beyond: tuple[str, ...], ids: bool
) -> Iterator[str]:
    """Jobs alike under one heading, each with its reason; one that several share stands once, above them."""
    state, whose = states.line_words(line, almanac.on), phrases.line_whose(line, almanac.on, beyond)
    yield _head(line, state, whose, more)
    by_reason: dict[str, list[Job]] = {}
    for job in line.jobs:
        by_reason.setdefault(phrases.reason_alike(job), []).append(job)
    for alike, jobs in by_reason.items():
        shared = len(jobs) > 1
        reason = alike if shared else phrases.first_reason(jobs[0])
        if shared:
            yield f"    {reason}"
        indent = " " * (8 if shared else 4)
        for job in jobs:
            who = "" if line.who == job.who else phrases.whose(job, almanac.on, beyond)
            place = ", ".join(part for part in (job.title, job.where, who) if part)
            yield f"{indent}{place}" if shared else f"{indent}{place}. {reason}"
            if ids:
                yield f"{indent}id {job.id}"
    yield from (f"    {caution}" for caution in cautions_of_all(line.jobs))


def _head(said: Job | Line, state: str, whose: str, more: str = "") -> str:
    """What stands first: its state, what to do, where, whose it is and how long it takes."""
    minutes = phrases.minutes(said.minutes) if said.state not in ("held", "passed", "done", "let go") else ""
    return ", ".join(part for part in (state, said.title, said.where, whose, minutes, more) if part)


def _job(job: Job, almanac: AlmanacFace, more: str, beyond: tuple[str, ...], ids: bool) -> Iterator[str]:
    yield _head(job, states.words(job, almanac.on), phrases.whose(job, almanac.on, beyond), more)
    yield f"    {phrases.first_reason(job)}"
    if job.places:
        yield f"    {job.places}"
    yield from (f"    {caution}" for caution in job.cautions)
    if ids:
        yield f"    id {job.id}"


def as_json(almanac: AlmanacFace, helper: str | None = None) -> Answer:
    """The week's jobs, the hours and the walk."""
    week = almanac.round(helper)
    hours = fields(week, needed="hours_needed", available="hours_available")
    loads = [fields(load, "name", "minutes", "jobs", hours="hours_available") for load in week.helpers]
    return fields(week, "beyond_reach", "quiet", "notice") | {
        "walk": fields(week.walk, "stops", "metres"),
        "helper": helper,
        "jobs": [job(j) for j in week.jobs],
        "waiting": [job(j) for j in week.waiting],
        "hours": hours | {"helpers": loads},
    }


def job(said: Job) -> Answer:
    """One job; `ranges` hold the dates that leave out one year in ten at each end."""
    windows = {"open": said.open, "best": said.best, "close": said.close}
    return (
        fields(
            said, "id", "plant", "verb", "title", "state", "days_late", "minutes", "who", "where", "demands"
        )
        | fields(said, "wants", "why", "basis", "source", "cautions")
        | fields(said.reasons, "next_open")
        | fields(said, "wait_until")
        | {name: when.likely for name, when in windows.items()}
        | {
            "hold": said.hold and fields(said.hold, "reason", "until"),
            "trigger": said.trigger and _trigger(said.trigger),
            "ranges": {name: early_late(when) for name, when in windows.items()},
            "members": [fields(member, "plant", "name", "where") for member in said.members],
        }
    )


def _trigger(trigger: Trigger) -> Answer:
    """What opens a window: its moment, and of what is counted how much there is and is wanted."""
    counted = trigger.measure
    measure = {"has": counted.now, "wants": counted.needed, "unit": counted.unit} if counted else {}
    return {"moment": trigger.moment} | measure
