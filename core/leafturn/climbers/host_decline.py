"""The year in which a climber's host is bare, and the year by which the climber must be on another."""

from __future__ import annotations

from leafturn.base import prose
from leafturn.base.value import Value
from leafturn.canopy.decline.assessments import crown_assessments
from leafturn.canopy.decline.trend import CrownAssessment, YearRange, bare_range, trend_of
from leafturn.garden.model import DEAD, Plant
from leafturn.season.garden_day import GardenDay

WITHIN_YEARS = 5  # guess: a climber takes some years to cover a new host, so five are not too soon
BLIND_YEARS = 2  # guess: a declining host whose crown nobody has looked at twice
UNKNOWN = YearRange(early=None, likely=None, late=None)


class HostYears(Value):
    """A host that fails beneath its climber.

    `bare` is when its crown gives no more shade, `train_by` the year by which the climber should stand on
    another host, `says` why, and `advice` what to do.
    """

    host: str
    bare: YearRange
    train_by: int
    says: str
    advice: str


def host_years(host: Plant, day: GardenDay) -> HostYears | None:
    """When a host will be bare, by the looks at its crown; None for one that is not about to fail.

    Parameters
    ----------
    host : Plant
    day : GardenDay
        Two crown assessments among its notes make a trend.

    Notes
    -----
    The climber is to be trained by the early end of the range: two losses in one cost more than a year.
    """
    on, numbers = day.on, day.numbers
    if host.state in DEAD:
        return HostYears(
            host=host.id, bare=UNKNOWN, train_by=on.year, says=f"{host.id} is dead",
            advice="train the climber to another host this year",
        )  # fmt: skip
    assessments = crown_assessments(day.entries).get(host.id, [])
    trend = trend_of(assessments, numbers)
    bare = UNKNOWN if trend is None else bare_range(trend, numbers)[1]
    if bare.likely is not None and bare.likely <= on.year + WITHIN_YEARS:
        by = max(bare.early or bare.likely, on.year)
        says = f"{host.id} will be bare about {bare.likely} ({_range(bare)}) by {_in_words(assessments)}"
        return HostYears(host=host.id, bare=bare, train_by=by, says=says, advice=_advice(by))
    if host.state == "declining" and trend is None:
        by = on.year + BLIND_YEARS
        says = (
            f"{host.id} is declining; when it will be bare is not known "
            f"({_in_words(assessments)} is noted, and two make a trend)"
        )
        return HostYears(host=host.id, bare=bare, train_by=by, says=says, advice=f"{_advice(by)} (a guess)")
    return None


def _advice(by: int) -> str:
    return f"train the climber to another host by {by}"


def _range(years: YearRange) -> str:
    late = "later than can be told" if years.late is None else f"{years.late}"
    return f"{years.early or years.likely} to {late}"


def _in_words(assessments: list[CrownAssessment]) -> str:
    return f"{prose.count(len(assessments), 'look')} at its crown" if assessments else "no look at its crown"
