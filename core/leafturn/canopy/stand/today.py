"""What stands in a garden on a day, and the light in it: all of the canopy that the jobs of a week need."""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property

from leafturn.canopy.decline.assessments import crown_assessments
from leafturn.canopy.stand.growing_season import growing_months
from leafturn.canopy.stand.sky import Sampling, Site, sampling
from leafturn.canopy.stand.stand import Stand
from leafturn.season.garden_day import GardenDay
from leafturn.season.heat import HeatSums
from leafturn.season.winter_cold import coldest_nights


class StandToday:
    """The stand as crowns were last looked at.

    Parameters
    ----------
    usual : callable, optional
        Gives the heat of this garden's usual year, from which months in leaf are told; without it leaves are
        taken to be there from May to September.
    """

    def __init__(self, day: GardenDay, usual: Callable[[], HeatSums] | None = None) -> None:
        self.day, self.usual = day, usual
        place = day.garden.place
        self.assessments = crown_assessments(day.entries)
        live = {plant: seen[-1].live_percent / 100 for plant, seen in self.assessments.items()}
        nights = None if usual is None else lambda: coldest_nights(usual().ensemble, place.frost_pocket_c)
        self.stand = Stand(day, live, nights)
        self.site = Site(
            latitude=place.lat, slope=place.slope_deg, faces=place.faces_deg, horizon=place.horizon_deg
        )
        direct = day.numbers["light_direct_share"]
        self.sampling: Sampling = sampling(self.site, growing_months(place.lat), direct)

    @cached_property
    def light(self) -> dict[str, float]:
        """Light of each placed plant this year, May to September (south: November to March) [% of open]."""
        _, light = next(self.stand.light_ahead(self.sampling, 0, {}))
        return {plant.id: float(percent) for plant, percent in zip(self.stand.plants, light, strict=True)}
