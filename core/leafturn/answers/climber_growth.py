"""How far each climber has grown since its cut, in which season, and what that comes to on its host."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator

from leafturn.base import day_words, quantities
from leafturn.base.arrays import median
from leafturn.base.date_range import Likely
from leafturn.base.value import Value
from leafturn.bloom.leafing import leaf_out_days
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.climbers.growth import LastCut, Shoots, day_grown, growth_ends, last_cut, metres_grown
from leafturn.climbers.hosts import host_height, metres_to_top
from leafturn.climbers.load import is_soft
from leafturn.garden.model import Plant
from leafturn.kinds.model import Kind
from leafturn.season.axis import SeasonAxis
from leafturn.season.heat_count import BASE_C
from leafturn.tasks.season_model import SeasonModel

UNKNOWN_YEARS = 3  # guess: a climber so old with no cut noted may stand anywhere
SEEN_M = 0.05  # less rounds to no tenth of a metre


class Growth(Value):
    """What a climber has grown since its cut, and what that comes to on its host.

    Parameters
    ----------
    axis : SeasonAxis
        The season whose growth it shows.
    since : str
        When it was last cut, in words; where no note tells, the winter or spring before it grew.
    rate : float [m per 100 degC d]
    metres : float [m]
        New shoot since the cut.
    top : float [m]
        Height of its host.
    past : float or None [m]
        How far it stands past its host's top, below 0 while it is lower; None where nobody knows.
    topped : Likely
        When it is so far past the top that it wants cutting.
    """

    axis: SeasonAxis
    cut: LastCut
    since: str
    rate: float
    metres: float
    top: float
    past: float | None
    topped: Likely


def growth_of(plant: Plant, kind: Kind, state: SeasonModel, before: Callable[[], SeasonWeather]) -> Growth:
    """The growth of one climber.

    Parameters
    ----------
    plant : Plant
    kind : Kind
    state : SeasonModel
    before : callable
        Gives the weather of the season before, which tells of a climber until it is in leaf again.
    """
    shoots, year = Shoots.of(kind, state.day.numbers), state.axis.year
    weather, cut = _grown_in(plant, shoots, state, before)
    heat, axis = weather.now_heat, weather.axis
    metres = median(metres_grown(shoots, cut, heat, axis.day(state.day.on)))
    top = host_height(plant, state.day, year)
    known = cut.recorded or is_soft(kind) or (plant.age(year) or 0.0) < UNKNOWN_YEARS
    wanted = metres_to_top(kind, top, state.day.numbers["climber_past_top_m"])
    since = f"spring {axis.year}" if axis < state.axis else "last winter"
    if cut.recorded:
        since = day_words.near_day(cut.on, state.day.on)
    return Growth(
        axis=axis, cut=cut, since=since, rate=shoots.rate, metres=metres, top=top,
        past=metres - metres_to_top(kind, top, 0.0) if known else None,
        topped=weather.now.likely(day_grown(shoots, cut, heat, wanted)),
    )  # fmt: skip


def _grown_in(
    plant: Plant, shoots: Shoots, state: SeasonModel, before: Callable[[], SeasonWeather]
) -> tuple[SeasonWeather, LastCut]:
    """The season whose growth a climber shows, and its last cut: until it is in leaf, the season before.

    Unless it was cut after that season's growth had ended, or did not stand yet.
    """
    cuts = state.day.done("cut")
    now = state.weather, last_cut(plant, cuts, state.axis)
    in_leaf = state.today >= median(leaf_out_days(state.weather.now, shoots.leaf))
    if in_leaf or (plant.year is not None and plant.year >= state.axis.year):
        return now
    last = before()
    cut = last_cut(plant, cuts, last.axis)
    return now if cut.recorded and cut.on >= growth_ends(last.axis) else (last, cut)


def growth_words(plant: Plant, grown: Growth, on: dt.date) -> Iterator[str]:
    """The growth of a climber, and how it stands to the top of its host, in a sentence each."""
    past, topped = grown.past, grown.topped
    noted = f"it was cut on {grown.since}" if grown.cut.recorded else f"{grown.since}, no cut being noted"
    above = quantities.celsius(BASE_C, 0)
    pace = f"{quantities.heat_growth(grown.rate)} above {above} once in leaf (a guess)"
    if grown.metres < SEEN_M:
        yield f"It has not grown since {noted}; it grows {pace}."
    else:
        yield f"By heat it has grown about {quantities.metres(grown.metres)} since {noted}, at {pace}."
    name = plant.host or "what it grows on"
    if past is None:
        planted = f" since it was planted in {plant.year}" if plant.year else ""
        yield (
            f"No cut is noted{planted}: how high it stands on {name} is not known, and it may have topped "
            "it. A cut noted tells it from then on."
        )
        return
    side = f"{quantities.metres(abs(past))} {'past' if past > 0 else 'below'}"
    cut = "does not pass it by much"
    if topped.likely and topped.likely <= on:
        cut = f"has wanted cutting since {day_words.near_day(topped.likely, on)}"
    elif topped.likely:
        cut = f"wants cutting {day_words.about(topped, on)}"
    yield f"That leaves it {side} the top of {name}; it {cut}."
