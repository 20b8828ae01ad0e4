"""When a climber has grown so far that it wants cutting: the moments "grown 2 m" and "host topped"."""

from __future__ import annotations

import numpy as np

from leafturn.base import day_words, quantities
from leafturn.base.arrays import FloatArray
from leafturn.base.explained_days import NEVER, ExplainedDays, Measure, Told
from leafturn.climbers.growth import LastCut, Shoots, growth_ends, last_cut
from leafturn.climbers.hosts import host_height, metres_to_top
from leafturn.garden.model import Plant
from leafturn.kinds.model import Kind
from leafturn.tasks.season_model import SeasonModel
from leafturn.tasks.subjects import Subject
from leafturn.tasks.timing.phrases import Moment


def shoots_reach(moment: Moment, subject: Subject, season: SeasonModel) -> ExplainedDays:
    """The day on which new shoot since the last cut is long enough.

    Parameters
    ----------
    moment : Moment
        "grown" with its metres, or "host topped": past the host's top by `climber_past_top_m`.
    """
    if not subject.plants or subject.kind is None:
        return ExplainedDays(
            np.full(season.weather.now.draws, NEVER), lambda: Told(tells_last_done=True), basis="guess"
        )
    plant = subject.plants[0]
    shoots = Shoots.of(subject.kind, season.day.numbers)
    cut = _last_cut(plant, season)
    metres = _wanted(moment, plant, subject.kind, season)
    days, now = season.lead_times.grown(shoots, cut, metres)

    def telling() -> Told:
        aim = ""
        if moment.anchor == "host topped":
            past = season.day.numbers["climber_past_top_m"]
            aim = f", {quantities.metres(past, None)} past the top of {plant.host or 'what it grows on'}"
        cut_on = day_words.day(cut.on, season.day.on)
        since = f"since its cut on {cut_on}" if cut.recorded else "since winter (no cut is noted)"
        says = (
            f"{plant.id} has grown about {quantities.metres(now)} {since}; {quantities.metres(metres)} are "
            f"wanted{aim}, at {quantities.heat_growth(shoots.rate)}."
        )
        return Told(says=says, tells_last_done=True)

    return ExplainedDays(days, telling, basis="guess", measure=Measure(now, metres, "metres grown"))


def shoots_reach_before(
    moment: Moment, subject: Subject, season: SeasonModel, days: float
) -> FloatArray | None:
    """So many days before the shoots are that long, (draws,); None where the calendar serves."""
    if not subject.plants or subject.kind is None:
        return None
    plant = subject.plants[0]
    cut = _last_cut(plant, season)
    metres = _wanted(moment, plant, subject.kind, season)
    return season.lead_times.before_grown(Shoots.of(subject.kind, season.day.numbers), cut, metres, days)


def _last_cut(plant: Plant, season: SeasonModel) -> LastCut:
    """The cut from which this season's shoots count: one made once they have stopped is of the next."""
    stopped = growth_ends(season.axis)
    cuts = ((subject, done) for subject, done in season.day.done("cut") if done.on <= stopped)
    return last_cut(plant, cuts, season.axis)


def _wanted(moment: Moment, plant: Plant, kind: Kind, season: SeasonModel) -> float:
    """Metres of new shoot that a moment asks for."""
    if moment.anchor == "grown":
        return moment.need
    top = host_height(plant, season.day, season.axis.year)
    return metres_to_top(kind, top, season.day.numbers["climber_past_top_m"])
