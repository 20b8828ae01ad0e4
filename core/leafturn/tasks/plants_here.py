"""The plants of one season of a garden, as the rules ask for them: each thing is found once."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property

from leafturn.base.kept import kept
from leafturn.canopy.stand.growth import height_in
from leafturn.climbers.hosts import frame_height
from leafturn.garden.model import FAILING, Plant
from leafturn.garden.reading.planted import is_planted
from leafturn.kinds.model import Kind
from leafturn.season.axis import SeasonAxis
from leafturn.season.garden_day import GardenDay

BRUSH_REACH_M = 10.0  # guess; the rule that brings pollen leaves what is as high alone, too


class PlantsHere:
    """What grows in a garden in one season.

    Parameters
    ----------
    day : GardenDay
    axis : SeasonAxis
        Of the season, which need not hold the day.
    """

    def __init__(self, day: GardenDay, axis: SeasonAxis) -> None:
        self._day, self._axis = day, axis

    @cached_property
    def kinds(self) -> Mapping[str, Kind]:
        """What the library knows of the kinds that grow here, by the words the garden file has for them."""
        return {plant.kind: self._day.kind(plant) for plant in self._day.garden.plants}

    def is_planted(self, plant: Plant) -> bool:
        """Whether it is planted yet: a file may tell of plants to come, or be asked of an earlier day."""
        return is_planted(plant, self._axis.year, southern=self._axis.southern)

    @cached_property
    def _standing(self) -> tuple[Plant, ...]:
        return tuple(p for p in self._day.garden.plants if p.state != "gone" and self.is_planted(p))

    @kept
    def of_kinds(self, kinds: frozenset[str]) -> tuple[Plant, ...]:
        """Plants of some kinds, by the words of the garden file and in its order, but for those gone or to
        come."""
        return tuple(plant for plant in self._standing if plant.kind in kinds)

    @cached_property
    def climbed(self) -> frozenset[str]:
        """Ids of what bears a climber that is planted."""
        plants = self._day.garden.plants
        return frozenset(p.host for p in plants if p.host is not None and self.is_planted(p))

    @kept
    def height(self, plant: Plant) -> float | None:
        """How high a plant stands this season [m]; None where nothing tells it."""
        return height_in(self._day.specimen(plant), self._day.numbers, self._axis.year)

    @kept
    def reach(self, plant: Plant) -> float | None:
        """How high hands must reach [m], to a climber no higher than its host or frame; None if not known."""
        host = self._host(plant)
        known = [self.height(one) for one in (plant, host) if one is not None]
        if host is None and self._day.kind(plant).habit == "climber":
            known.append(frame_height(plant, self._day.kind(plant)))
        return min((height for height in known if height is not None), default=None)

    @cached_property
    def too_tall_for_a_brush(self) -> frozenset[str]:
        """Plants to whose flowers nobody brings pollen."""
        return frozenset(p.id for p in self._day.garden.plants if (self.reach(p) or 0.0) >= BRUSH_REACH_M)

    def is_failing(self, plant: Plant) -> bool:
        """Whether it is a failing tree, or hangs on one."""
        host = self._host(plant)
        if host is not None:
            return host.state in FAILING
        return plant.state in FAILING and self._day.kind(plant).habit == "tree"

    def _host(self, plant: Plant) -> Plant | None:
        return self._day.garden.plant(plant.host) if plant.host else None
