"""Every climber as the Climbers page tells it: growth since the cut, load on its host, other hosts."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator, Sequence

from leafturn.answers.climber_growth import SEEN_M, growth_of, growth_words
from leafturn.base import day_words, prose, quantities
from leafturn.base.date_range import Likely
from leafturn.base.value import Value
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.canopy.decline.trend import YearRange
from leafturn.climbers.growth import (
    seasons_uncut,
)
from leafturn.climbers.host_decline import HostYears, host_years
from leafturn.climbers.hosts import OtherHost, bearer, other_hosts
from leafturn.climbers.load import CUT_IF_BORNE, VERDICTS_SAID, Load, Verdict, load_of
from leafturn.garden.model import FAILING, Place, Plant
from leafturn.garden.regions import proper_name, region_named
from leafturn.journal.entries import CrownNote
from leafturn.journal.noted import of_kind
from leafturn.kinds.model import Kind
from leafturn.kinds.spreading import is_cut_out
from leafturn.tasks.model import DUE, Job
from leafturn.tasks.season_model import SeasonModel

LED_M = 6.0  # guess: further than this a climber is not led, its layer or cutting is


class ClimberView(Value):
    """One climber.

    Parameters
    ----------
    host : str
        The host's id, or the words of the garden file for posts and wires; empty if none is given.
    verdict : str
        Whether the host bears it; "not judged" for posts and nothing, "cut out" for what the region lists.
    grown_m : float [m]
        New shoot since the cut.
    since : str
        When it was last cut, in words; where no note tells, the winter or spring before it grew.
    cut_on : date or None
        The day of that cut; None where no note tells.
    past_top_m : float or None [m]
        How far it stands past its host's top, below 0 while it is lower; None for one that has grown for
        years with no cut noted, of which nobody knows where it stands.
    up_host : float or None
        How far up its host it stands, 1 at the top; None where `past_top_m` is.
    load : str
        What decides that the host does not bear it; empty where it does.
    topped : Likely
        When it is so far past the top that it wants cutting.
    host_bare, train_by : YearRange or None, int or None
        When a failing host will be bare, and by when the climber stands on another.
    next_cut : str
        The next job of cutting and its day, in words.
    cut_due : bool
        Whether that is to be done now.
    job : str
        Id of the next job of cutting, if there is one.
    """

    plant: str
    kind: str
    host: str
    verdict: Verdict
    grown_m: float
    since: str
    cut_on: dt.date | None
    past_top_m: float | None
    up_host: float | None
    load: str
    topped: Likely
    strangles: bool
    host_bare: YearRange | None
    train_by: int | None
    other_hosts: tuple[OtherHost, ...]
    next_cut: str
    cut_due: bool
    job: str
    says: tuple[str, ...]

    @property
    def has_grown(self) -> bool:
        """Whether it has grown by what is seen of it."""
        return self.grown_m >= SEEN_M


def climber_views(
    state: SeasonModel, jobs: Sequence[Job], before: Callable[[], SeasonWeather]
) -> tuple[ClimberView, ...]:
    """Every climber that lives, in the order of the garden file.

    Parameters
    ----------
    before : callable
        Gives the weather of the season before, which tells of a climber until it is in leaf again.
    """
    return tuple(
        _view(plant, state, jobs, before)
        for plant in state.day.garden.plants
        if plant.state != "gone" and state.kind(plant).habit == "climber"
    )


def _view(
    plant: Plant, state: SeasonModel, jobs: Sequence[Job], before: Callable[[], SeasonWeather]
) -> ClimberView:
    kind, year = state.kind(plant), state.axis.year
    grown = growth_of(plant, kind, state, before)
    host = state.day.garden.plant(plant.host) if plant.host else None
    load = (
        load_of(plant, kind, bearer(host, state.day, year), year, seasons_uncut(grown.cut, grown.axis))
        if host else None
    )  # fmt: skip
    failing = host_years(host, state.day) if host else None
    hard_pressed = load is not None and (
        load.verdict == "too much" or failing is not None or (host is not None and host.state in FAILING)
    )
    spreads = _spreads_here(kind, state.day.garden.place, hard_pressed=hard_pressed)
    others = other_hosts(plant, state.day, year, _failing(state)) if hard_pressed and not spreads else ()
    verdict: Verdict = load.verdict if load else "not judged"
    if verdict != "too much" and is_cut_out(kind, state.day.garden.place):
        verdict = "cut out"
    job = _next_cut(plant, jobs)
    return ClimberView(
        plant=plant.id,
        kind=kind.name,
        host=plant.host or "",
        verdict=verdict,
        grown_m=grown.metres,
        since=grown.since,
        cut_on=grown.cut.on if grown.cut.recorded else None,
        past_top_m=grown.past,
        up_host=None if grown.past is None or grown.top <= 0 else max(0.0, 1 + grown.past / grown.top),
        load=load.because if load and load.verdict == "too much" else "",
        topped=grown.topped,
        strangles=load.strangles if load else False,
        host_bare=failing.bare if failing else None,
        train_by=failing.train_by if failing and not spreads else None,
        other_hosts=others,
        next_cut=_job_words(job, state.day.on) if job else "no cut foreseen",
        cut_due=job is not None and job.state in DUE,
        job=job.id if job else "",
        says=(
            *growth_words(plant, grown, state.day.on),
            *_load_words(host, load, verdict, failing, others, spreads),
        ),
    )


def _spreads_here(kind: Kind, place: Place, *, hard_pressed: bool) -> str:
    """Why a climber is led to no other host, where the garden's region lists it; else empty."""
    if is_cut_out(kind, place):
        return (
            f"{kind.name} is listed as spreading into wild land here: it is cut at its foot and led nowhere."
        )
    stated, where = region_named(place.region), kind.invasive_where
    if not hard_pressed or stated is None or where is None or not stated.lists(where.value):
        return ""
    return (
        f"{kind.name} is listed as spreading into wild land for {proper_name(place.region or '')}: it is led "
        "to no other host; ask the nature office before you keep it."
    )


def _failing(state: SeasonModel) -> frozenset[str]:
    """Plants whose crowns will be bare within a few years, though the garden file may call them well."""
    looked_at = {look.plant for look in of_kind(state.day.entries, CrownNote)}
    return frozenset(
        p.id for p in state.day.garden.plants if p.id in looked_at and host_years(p, state.day) is not None
    )


def _next_cut(plant: Plant, jobs: Sequence[Job]) -> Job | None:
    own = [j for j in jobs if j.plant == plant.id and j.counts_as == "cut"]
    rank = {"late": 0, "due": 1, "held": 2, "soon": 3, "not yet": 4}
    able = [j for j in own if j.state in rank]
    return min(able, key=lambda j: (rank[j.state], j.open.likely or dt.date.max), default=None)


def _job_words(job: Job, on: dt.date) -> str:
    if job.state in DUE:
        return f"{job.verb} now"
    if job.state == "held" and job.hold is not None:
        until = job.hold.until
        held = job.hold.reason if until is None else f"until {day_words.near_day(until, on)}"
        return f"{job.verb}, held{':' if until is None else ''} {held}"
    return f"{job.verb} from {day_words.near_day(job.open.likely, on)}"


def _load_words(
    host: Plant | None,
    load: Load | None,
    verdict: Verdict,
    failing: HostYears | None,
    others: Sequence[OtherHost],
    spreads: str,
) -> Iterator[str]:
    if load is not None:
        yield f"{prose.capital(VERDICTS_SAID[verdict])}."
        yield from load.says
    if failing is not None:
        yield f"{failing.says}." if spreads else f"{failing.says}: {failing.advice}."
    elif host is not None and host.state in FAILING:
        yield f"{host.id} is {host.state}: have another host in mind while this one stands."
    if host is not None and host.state in FAILING:
        yield "Nobody stands or climbs under a failing tree."
    for other in others:
        far = other.metres is not None and other.metres > LED_M
        led = " (by a layer or cutting set beside it)" if far else ""
        where = "" if other.metres is None else f"{quantities.metres(other.metres, 0)} off{led}, "
        trunk = quantities.centimetres(other.trunk_cm)
        yield f"{other.plant} could carry it{CUT_IF_BORNE[other.verdict]}: {where}trunk {trunk}."
    if spreads:
        yield spreads
    elif load is not None and not others and (load.verdict == "too much" or failing is not None):
        yield "No other host here is found able: posts and wire, or a smaller climber."
