"""Forecasts of past seasons, made again as they stood on a day, knowing nothing later."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from msgspec import structs

from leafturn.answers.forecast_score import Foretold
from leafturn.answers.learnt import foretold
from leafturn.assembly.seasons import Seasons
from leafturn.assembly.sources import Sources
from leafturn.journal.entries import Entry
from leafturn.season.axis import SeasonAxis


def past_forecasts(
    sources: Sources, entries: Sequence[Entry]
) -> Callable[[dt.date, SeasonAxis], Mapping[str, Foretold]]:
    """What was foretold, on a day, of the season that holds it or of the next.

    Only of plants with notes of their bloom or a stated usual date. The others tell nothing of these, so the
    forecasts are the same as with all plants, and sooner made.

    Parameters
    ----------
    sources : Sources
    entries : sequence of Entry
        Standing notes; those after a day are left out for it.
    """
    noted = {entry.plant for entry in entries if entry.what == "bloom"}
    plants = tuple(p for p in sources.garden.plants if p.id in noted or p.opens is not None)
    sources = replace(sources, garden=structs.replace(sources.garden, plants=plants))

    def told(day: dt.date, axis: SeasonAxis) -> Mapping[str, Foretold]:
        seasons = Seasons(sources, tuple(e for e in entries if e.on <= day), day)
        season = seasons.now if seasons.axis == axis else seasons.after
        return foretold(season.weather, season.forecasts)

    return told
