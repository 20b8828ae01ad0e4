"""The story of a line of the round, beside the list: what presses, what comes of leaving it, who, where."""

from __future__ import annotations

from typing import TYPE_CHECKING

from leafturn.tasks.demands import worth_saying
from leafturn.tasks.model import OVER, Job
from leafturn.tasks.week.cautions import cautions_of_all
from leafturn.tasks.week.model import Line
from leafturn_tui.charts.night_scale import night_rows
from leafturn_tui.text import phrases, states
from leafturn_tui.text.layout import BLANK, Row, labelled, paragraph

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

LEFT = "If left"


def line_story(almanac: AlmanacFace, line: Line, width: int) -> list[Row]:
    """A line of the round in full; of several jobs the one that costs most to leave speaks for all.

    Parameters
    ----------
    almanac : AlmanacFace
    line : Line
    width : int [cells]
    """
    job, on = line.dearest, almanac.on
    rows = paragraph(line.title, width, "name", hang=0)
    about = [line.where, "" if line.state in OVER else phrases.minutes(line.minutes)]
    rows += paragraph(" · ".join(part for part in about if part), width, "dim", hang=0)
    if job.reasons.tonight is not None and states.is_tonight(job, on):
        rows += [BLANK, *night_rows(job.reasons.tonight, width)]
    first = phrases.first_reason(job)
    named = f"{job.title}: {first}" if len(line.jobs) > 1 else first
    for said in (named, *job.reasons.more):
        rows += [BLANK, *paragraph(said, width, hang=0)]
    rows.append(BLANK)
    for label, text in _labelled(almanac, line):
        rows += labelled(label, text, width, "dim" if label == "Known by" else "")
    return rows


def _labelled(almanac: AlmanacFace, line: Line) -> list[tuple[str, str]]:
    """What is told beside a label; what there is none of is left out."""
    job = line.dearest
    left = job.reasons.if_left.removeprefix(LEFT).lstrip(" ,")
    week = almanac.round()
    who = phrases.line_whose(line, almanac.on, week.beyond_reach)
    told = [
        (LEFT, left),
        ("How", _how(line)),
        ("Who", who if line.state != "can wait" else ""),
        ("Where", _where(line)),
        ("Known by", job.reasons.known_by),
    ]
    return [(label, text) for label, text in told if text]


def _how(line: Line) -> str:
    """What the work wants, and its cautions."""
    demands = worth_saying(line.dearest.demands)
    wants = [f"Wants: {', '.join(demands)}."] if demands else []
    return " ".join((*wants, *cautions_of_all(line.jobs)))


def _where(line: Line) -> str:
    """The place of each plant, where there are several."""
    jobs = line.jobs
    if len(jobs) > 1:
        alike = len({job.verb for job in jobs}) == 1
        return "; ".join(_placed(job, job.name if alike and job.name else job.title) for job in jobs)
    return line.jobs[0].places


def _placed(job: Job, name: str) -> str:
    return f"{name}, {job.where}" if job.where else name
