"""What deserves a line on top of the round: jobs that nobody here can do, and hours that are short."""

from __future__ import annotations

from collections.abc import Sequence

from leafturn.base import prose
from leafturn.tasks.week.labour import Allotment, Short

NAMED = 3  # jobs longer than a week that are named; of more the rest are counted


def notices(allotment: Allotment) -> tuple[str, ...]:
    """The sentences on top of a round."""
    long = [short for short in allotment.short if not short.fits_a_week]
    wait = [short for short in allotment.short if short.fits_a_week]
    said = (
        f"Beyond anyone here: {prose.joined(allotment.beyond)}." if allotment.beyond else "",
        _waiting(wait, allotment) if wait else "",
        _too_long(long) if long else "",
    )
    return tuple(sentence for sentence in said if sentence)


def _waiting(wait: Sequence[Short], allotment: Allotment) -> str:
    """How many jobs wait, for whose hours, and how much of these is given."""
    names = {name for short in wait for name in short.able}
    loads = [load for load in allotment.loads if load.name in names]
    given = prose.minutes(sum(load.minutes for load in loads)) or "nothing"
    hours = prose.minutes(60 * sum(load.hours_available for load in loads)) or "no time"
    one = len(wait) == 1
    jobs = f"{prose.count(len(wait), 'job')} {'waits' if one else 'wait'} for hands"
    whose = "all are taken"
    if len(loads) < len(allotment.loads):
        whose = f"only {prose.joined([load.name for load in loads])} can do {'it' if one else 'them'}"
    until = "the list says until when" + ("" if one else " each can wait")
    return f"{jobs}: {whose}, {given} of {hours} given; {until}."


def _too_long(long: Sequence[Short]) -> str:
    """Which jobs take longer than any week of whoever can do them."""
    titles = [short.job.title for short in long]
    named = prose.first_of(titles, NAMED)
    if len(long) > 1:
        return f"{named} each take longer than a week of whoever can do them: do them bit by bit."
    job, able = long[0].job, prose.joined(long[0].able)
    return f"{named} takes {prose.minutes(job.minutes)}, longer than a week of {able}: do it bit by bit."
