"""Hosts of a climber: their size this year, and which other plants could bear it."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from leafturn.base.value import Value
from leafturn.canopy.stand.growth import growth_of
from leafturn.climbers.load import ORDER, TRUNK_CM_PER_M, Bearer, Load, Verdict, is_soft, load_of
from leafturn.garden.model import UNSETTLED, Plant
from leafturn.kinds.fact import value_of
from leafturn.kinds.model import Kind
from leafturn.season.garden_day import GardenDay

FRAME_M = 2.5  # guess: height of posts, walls and arbours
# Fruiting wires, at 5 feet: Georgia muscadine guide, section 14; University of Georgia on trellises (read).
WIRE_M = 1.6
ON_WIRE = ("wire", "trellis", "fence", "espalier", "row")
LEFT_BELOW_M = 1.0  # guess: a cut climber is left so far below its host's top
HOST_LEAST_M = 3.0  # guess: lower plants are no hosts for lasting climbers
HOST_WITHIN_M = 60.0  # guess: nobody trains a climber further than to a new plant beside its new host


class OtherHost(Value):
    """A plant that could bear a climber: what it would come to, and how far it stands [m]."""

    plant: str
    verdict: Verdict
    metres: float | None
    trunk_cm: float


def bearer(host: Plant, day: GardenDay, year: int) -> Bearer:
    """A plant as a host, grown to this year; its trunk by its height where not measured."""
    growth = growth_of(day.specimen(host), day.numbers, year)
    height, crown = float(growth.heights(year)), float(growth.radii(year))
    return Bearer(
        name=host.id,
        crown_m=crown,
        trunk_cm=host.trunk_cm or height * TRUNK_CM_PER_M,
        height_m=height,
        state=host.state,
        trunk_measured=host.trunk_cm is not None,
    )


def metres_to_top(kind: Kind, host_m: float, past_m: float) -> float:
    """New shoot [m] that brings a climber so far past its host's top.

    A cut climber is taken to end a metre below the top, or a metre below its own full height.
    """
    own = value_of(kind.size.height_m, host_m)
    left = max(min(host_m, own) - LEFT_BELOW_M, 0.0)
    return host_m + past_m - left


def host_height(climber: Plant, day: GardenDay, year: int) -> float:
    """Height [m] of what a climber grows on; of posts and wires a guess."""
    host = day.garden.plant(climber.host) if climber.host else None
    return frame_height(climber, day.kind(climber)) if host is None else bearer(host, day, year).height_m


def frame_height(climber: Plant, kind: Kind) -> float:
    """Height [m] of what is no plant: wires, also for fruit of which nothing is said, or posts."""
    words = (climber.host or "").casefold()
    on_wire = any(word in words for word in ON_WIRE) if words else kind.harvest.part is not None
    return WIRE_M if on_wire else FRAME_M


def other_hosts(
    climber: Plant, day: GardenDay, year: int, without: Collection[str] = ()
) -> tuple[OtherHost, ...]:
    """Plants that could bear a climber, the fittest and nearest first, three at most.

    Parameters
    ----------
    climber : Plant
    year : int
        The season, for sizes.
    without : collection of str
        Ids of plants that will not stand long.
    """
    kind = day.kind(climber)
    now = day.garden.plant(climber.host) if climber.host else None
    point = (now.point if now else None) or climber.point
    found = []
    for host in _able(climber, kind, day):
        if host.id in without:
            continue
        body = bearer(host, day, year)
        if body.height_m < HOST_LEAST_M and not is_soft(kind):
            continue
        load: Load = load_of(climber, kind, body, year)
        metres = point.metres_to(host.point) if point and host.point else None
        if load.verdict != "too much" and (metres is None or metres <= HOST_WITHIN_M):
            found.append(
                OtherHost(plant=host.id, verdict=load.verdict, metres=metres, trunk_cm=body.trunk_cm)
            )
    ranks = {verdict: rank for rank, verdict in enumerate(ORDER)}
    found.sort(key=lambda h: (ranks[h.verdict], 999.0 if h.metres is None else h.metres))
    return tuple(found[:3])


def _able(climber: Plant, kind: Kind, day: GardenDay) -> Iterator[Plant]:
    taken = {p.host for p in day.garden.plants if p.host}
    for plant in day.garden.plants:
        other = day.kind(plant)
        wanted = ("tree", "shrub") if is_soft(kind) else ("tree",)
        if (
            plant.id not in taken
            and plant.id != climber.id
            and plant.state == "well"
            and plant.plan not in UNSETTLED
            and other.habit in wanted
        ):
            yield plant
