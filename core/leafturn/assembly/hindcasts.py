"""Forecasts of past seasons, made again as they stood on a day, knowing nothing later."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping

from msgspec import structs

from leafturn.answers.forecast_score import Hindcast
from leafturn.answers.learnt import hindcasts_of
from leafturn.assembly.seasons import Seasons
from leafturn.assembly.sources import Sources
from leafturn.journal.entries import BloomNote, of_kind
from leafturn.season.axis import SeasonAxis
from leafturn.season.garden_day import GardenDay


def hindcasts(sources: Sources, day: GardenDay) -> Callable[[dt.date, SeasonAxis], Mapping[str, Hindcast]]:
    """Hindcasts: what was foretold, on a day, of the season that holds it or of the next.

    Only of plants with notes of their bloom or a stated usual date. The others tell nothing of these, so the
    forecasts are the same as with all plants, and sooner made.

    Parameters
    ----------
    sources : Sources
    day : GardenDay
        Of its notes those after an earlier day are left out for that day.
    """
    noted = {bloom.plant for bloom in of_kind(day.entries, BloomNote)}
    plants = tuple(p for p in sources.garden.plants if p.id in noted or p.opens is not None)
    garden = structs.replace(sources.garden, plants=plants)

    def hindcasts_on(on: dt.date, axis: SeasonAxis) -> Mapping[str, Hindcast]:
        then = GardenDay(garden, day.library, tuple(e for e in day.entries if e.on <= on), on, day.verbs)
        seasons = Seasons(sources, then)
        season = seasons.now if seasons.axis == axis else seasons.after
        return hindcasts_of(season.weather, season.forecasts)

    return hindcasts_on
