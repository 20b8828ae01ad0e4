"""Every climber: in plain lines and as JSON."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from typing import TYPE_CHECKING

from leafturn.base import quantities
from leafturn.climbers.load import VERDICTS_SAID
from leafturn_tui.render.parts.groups import Groups, group_lines
from leafturn_tui.render.parts.question import Question
from leafturn_tui.render.parts.values import Answer
from leafturn_tui.text import phrases

if TYPE_CHECKING:
    from leafturn.answers.climbers import ClimberView
    from leafturn_tui.almanac_face import AlmanacFace

QUESTION = Question(asked="Which climber is too much for its host?", place=80)


def lines(almanac: AlmanacFace) -> Iterator[str]:
    """Every climber: growth since its cut, load on its host, and who else could bear it."""
    views = almanac.climbers()
    for climber in views:
        told = f"{climber.plant}, no host given"
        if climber.host:
            told = f"{climber.plant} on {climber.host}: {VERDICTS_SAID[climber.verdict]}"
        yield f"{told}, {growth_words(climber, almanac.on)}"
        yield from group_lines(climber_groups(climber, almanac))
    if not views:
        yield "No climber is in the garden file."


def as_json(almanac: AlmanacFace) -> Answer:
    """Every climber."""
    return {"climbers": list(almanac.climbers())}


def growth_words(climber: ClimberView, on: dt.date) -> str:
    """What has grown since the cut: "0.3 m since winter, 0.7 m below the top; too long from 27 Jun"."""
    since = f"since {climber.since}"
    grown = quantities.metres(climber.grown_m) if climber.has_grown else "no growth"
    if climber.past_top_m is None:
        return f"{grown} {since} if it was cut then; no cut is noted, so its height is not known"
    side = "past" if climber.past_top_m > 0 else "below"
    next_up = climber.topped.likely
    since_then = "since" if next_up and next_up <= on else "from"
    when = f"too long {since_then} {phrases.day(next_up, on)}" if next_up else "not too long yet"
    return f"{grown} {since}, {quantities.metres(abs(climber.past_top_m))} {side} the top; {when}"


def training_words(climber: ClimberView) -> str:
    """ "old-plum fails: train to another host by 2029 (mulberry, 36 m off)"."""
    other = [
        h.plant if h.metres is None else f"{h.plant}, {quantities.metres(h.metres, 0)} off"
        for h in climber.other_hosts
    ]
    found = "; or ".join(other) if other else "none here is found able"
    bare = climber.host_bare.likely if climber.host_bare else None
    why = f"{climber.host} bare about {bare}" if bare else f"{climber.host} fails"
    return f"{why}: train to another host by {climber.train_by} ({found})"


def climber_groups(climber: ClimberView, almanac: AlmanacFace) -> Groups:
    """All that is told of a climber, in groups."""
    growth, rest = climber.says[:2], climber.says[2:]
    return (
        ("", [f"{climber.kind}: {climber.next_cut}"]),
        ("growth since the cut", list(growth)),
        ("load and other hosts", list(rest)),
    )
