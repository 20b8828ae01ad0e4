"""The one object the pages and commands talk to: a garden on a day, everything else computed when asked.

What makes an answer is imported when it is first asked for, so that the week does not wait for the rest.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec.structs import replace

from leafturn.assembly.looking_ahead import LookingAhead
from leafturn.assembly.sources import read_sources
from leafturn.base import quantities
from leafturn.base.kept import kept
from leafturn.season.foreseen import ForeseenNight
from leafturn.tasks.timing.frost_threat import covering

if TYPE_CHECKING:
    from leafturn.answers.climbers import ClimberView
    from leafturn.answers.cold_night import Tonight
    from leafturn.answers.frost_ahead import FrostAhead
    from leafturn.answers.garden_plan import GardenPlan
    from leafturn.answers.harvest_calendar import Larder
    from leafturn.answers.heaps import HeapView
    from leafturn.answers.heat_course import HeatCourse
    from leafturn.answers.plant_card import PlantCard
    from leafturn.answers.season import Heading, Season
    from leafturn.answers.season_days import SeasonDays
    from leafturn.answers.survival import Survival
    from leafturn.answers.weather import WeatherKnown
    from leafturn.bloom.frost.loss import FrostLoss
    from leafturn.bloom.priors.prior import BloomPrior
    from leafturn.hazards.cold import Tender
    from leafturn.hazards.overview import Hazards
    from leafturn.partners.bloom_overlap.partner_days import PartnerDays
    from leafturn.partners.model import RedundantDonor
    from leafturn.soil.nitrogen import Nitrogen
    from leafturn.soil.water.deficit import GardenWater


def open_almanac(
    path: str | Path, on: dt.date, priors: Mapping[str, BloomPrior | None] | None = None
) -> Almanac:
    """Open a garden as of one day; from then on quantities are told in its units.

    Parameters
    ----------
    path : str or Path
        The garden's folder or its TOML file.
    on : date
        The day of asking; notes and weather after it are not used.
    priors : mapping of kind to BloomPrior or None, optional
        To be used instead of the packaged ones, for measuring skill; None sets a kind's fitted prior aside,
        so that only its class and the book are left.

    Raises
    ------
    leafturn.base.faults.Unreadable
        If no garden can be read there; its fault says why in one sentence.
    """
    sources = read_sources(Path(path))
    quantities.speak(sources.garden.place.units)
    return Almanac(replace(sources, priors=priors), on)


class Almanac(LookingAhead):
    """A garden on a day, as `open_almanac` gives it. Never changes: noting something gives a new almanac."""

    @cached_property
    def _heading(self) -> Heading:
        from leafturn.answers.season import heading

        return heading(self.day, self._seasons.weather)

    def heading(self) -> Heading:
        """The second line of every page."""
        return self._heading

    @cached_property
    def _season(self) -> Season:
        from leafturn.answers.season import season

        return season(self._heading, self._seasons.now, self.notes)

    def frost_losses(self) -> dict[str, FrostLoss]:
        """What frost takes of the flowers this season, by plant old enough to flower.

        Only of kinds whose critical temperatures are known.
        """
        now = self._seasons.now
        return now.flowerers(now.frost_losses)

    def frost_ahead(self) -> tuple[FrostAhead, ...]:
        """Plants of which one of the next seven nights may take buds, flowers or young fruit."""
        from leafturn.answers.frost_ahead import frost_ahead

        return frost_ahead(self._seasons.now)

    def tonight(self, tmin_c: float, *, at_station: bool = False) -> Tonight:
        """What a cold night would do to every plant that cold can hurt now, worst first.

        Parameters
        ----------
        tmin_c : float [degC]
            The night's minimum foreseen: the garden's own, or with `at_station` the weather station's,
            to which the frost pocket is added.
        """
        from leafturn.answers.cold_night import tonight

        now = self._seasons.now
        pocket = self.garden.place.frost_pocket_c if at_station else 0.0
        return tonight(
            self.day,
            now.weather,
            now.flowerers(now.forecasts),
            tmin_c + pocket,
            covering(self._sources.rules.rules, now),
        )

    def foreseen(self) -> tuple[ForeseenNight, ...]:
        """The nights to come whose minimum was typed or stands in the garden's forecast file."""
        return self._seasons.foreseen

    def weather(self) -> WeatherKnown:
        """What is known of the weather: the record and its gaps, the usual year, the warming used."""
        from leafturn.answers.weather import weather_known

        return weather_known(self._seasons.record, self._seasons.normals, self._seasons.warming)

    def season(self) -> Season:
        """Bloom and harvest of the whole season, heat and frost."""
        return self._season

    @cached_property
    def _season_days(self) -> SeasonDays:
        from leafturn.answers.season_days import season_days

        ensemble, pocket = self._seasons.weather.now, self.garden.place.frost_pocket_c
        return season_days(ensemble, pocket, self._seasons.now.expected, self.partners())

    @cached_property
    def _heat_course(self) -> HeatCourse:
        from leafturn.answers.heat_course import heat_course

        return heat_course(self._seasons.weather)

    def heat_course(self) -> HeatCourse:
        """How heat adds up, beside past years."""
        return self._heat_course

    def garden_plan(self, year: int | None = None) -> GardenPlan:
        """The garden from above in a year, this one if none is given."""
        return self._garden_plan(self.axis.year if year is None else year)

    @kept
    def _garden_plan(self, year: int) -> GardenPlan:
        from leafturn.answers.garden_plan import garden_plan

        return garden_plan(self.day, year)

    def season_days(self) -> SeasonDays:
        """The season day by day: bloom, picking and frost as chances, and who is open together."""
        return self._season_days

    def redundant_donors(self) -> tuple[RedundantDonor, ...]:
        """Plants kept for their pollen that could go without any tree's chance falling by much."""
        return self._seasons.now.pollen.redundant_donors

    def partner_days(self, plant_id: str) -> PartnerDays | None:
        """The days on which a tree takes pollen and its partners give it; None where none are foreseen."""
        from leafturn.partners.bloom_overlap.partner_days import partner_days

        review = next((r for r in self.partners() if r.plant == plant_id), None)
        if review is None:
            return None
        return partner_days(review, self.day, self.forecasts, self.axis)

    @cached_property
    def _cards(self) -> dict[str, PlantCard]:
        from leafturn.answers.plant_card import plant_cards

        events = self.season().events
        climate = self._seasons.now.climate
        return plant_cards(self.day, climate, events, self._jobs, self._tender)

    @cached_property
    def _heaps(self) -> tuple[HeapView, ...]:
        from leafturn.answers.heaps import heap_views

        return heap_views(self.day, self._seasons.weather.now, self._jobs)

    def heaps(self) -> tuple[HeapView, ...]:
        """Every heap: mix, course, ripeness, and where its compost goes."""
        return self._heaps

    def water(self) -> GardenWater:
        """How much of their water the woody plants have used, which want it, and which are left."""
        return self._seasons.now.water

    def survival(self) -> Survival:
        """What became of everything planted, by kind: how many stand, how many were lost, and to what."""
        from leafturn.answers.survival import survival_by_kind

        return survival_by_kind(self._sources.garden, self.library, self.entries, self.on)

    @cached_property
    def _larder(self) -> Larder:
        from leafturn.answers.harvest_calendar import larder

        now = self._seasons.now
        return larder(self.day, now.weather, now.expected, now.without_fruit)

    def larder(self) -> Larder:
        """What is picked and what bees find in every week, the gaps, and what would fill them."""
        return self._larder

    @cached_property
    def _tender(self) -> dict[str, Tender]:
        from leafturn.hazards.cold import tender_plants

        return {t.plant: t for t in tender_plants(self.day, self._seasons.weather.usual)}

    @cached_property
    def _heed(self) -> Hazards:
        from leafturn.hazards.overview import hazards

        return hazards(self.day, self._tender.values())

    def heed(self) -> Hazards:
        """Trees over paths, roots that poison, bark, look-alikes, who is too tender, and who to call."""
        return self._heed

    def nitrogen(self) -> Nitrogen:
        """What fixes nitrogen: its share of each guild, when it is cut, and when shade ends it."""
        from leafturn.soil.nitrogen import nitrogen

        ensemble, light_at = self._seasons.weather.now, self._seasons.canopy.light_at
        return nitrogen(self.day, self.forecasts, ensemble, light_at)

    @cached_property
    def _climbers(self) -> tuple[ClimberView, ...]:
        from leafturn.answers.climbers import climber_views

        seasons = self._seasons
        return climber_views(seasons.now, self._jobs, lambda: seasons.weather_before)

    def climbers(self) -> tuple[ClimberView, ...]:
        """Every climber: growth since its cut, load on its host, and who else could bear it."""
        return self._climbers

    def plants(self) -> tuple[PlantCard, ...]:
        """A card for every plant, in the order of the garden file."""
        return tuple(self._cards.values())

    def plant(self, plant_id: str) -> PlantCard | None:
        """One plant's card."""
        return self._cards.get(plant_id)
