"""Inputs of a review beside the plants themselves: weather, and notes of past years."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import field

from leafturn.base.tunables import Numbers
from leafturn.base.value import Value
from leafturn.garden.model import Garden, Point
from leafturn.partners.bloom_overlap.pollination_days import Clock, clocks
from leafturn.partners.chance.fruit_set_evidence import SetNotes
from leafturn.partners.distance.pollen_distance import downwind
from leafturn.partners.flowering_season import FloweringSeason


class Circumstances(Value, eq=False):
    """What a review knows of the season and of past years.

    Parameters
    ----------
    clocks : mapping of carrier to a function
        How it counts the days, see `pollination_days.clocks`.
    wind : Point or None
        The way the prevailing wind goes.
    sets : mapping of plant id to the set noted by year
    """

    clocks: Mapping[str, Clock]
    weather_known: bool = False
    wind: Point | None = None
    sets: Mapping[str, SetNotes] = field(default_factory=dict)

    @classmethod
    def of(cls, garden: Garden, season: FloweringSeason, numbers: Numbers) -> Circumstances:
        """What is known of one garden's season; its `weather` None where there is none to count days by."""
        return cls(
            clocks=clocks(season.weather, numbers), weather_known=season.weather is not None,
            wind=downwind(garden.place.wind_from), sets=season.observed.sets,
        )  # fmt: skip
