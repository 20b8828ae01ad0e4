"""Plants that will hardly set fruit this season for want of pollen, so that nothing is told of their crop."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping

from leafturn.journal.entries import FruitSetNote, HarvestNote
from leafturn.journal.job_id import subject_id
from leafturn.journal.noted import of_kind
from leafturn.journal.questions import jobs_done
from leafturn.partners.model import PartnerStanding
from leafturn.season.axis import SeasonAxis
from leafturn.season.garden_day import GardenDay

BRING_POLLEN = "bring-pollen"


def without_fruit(
    standings: Mapping[str, PartnerStanding], alone: Mapping[str, float], day: GardenDay
) -> frozenset[str]:
    """Ids of plants that set nothing, as noted this season, or lack pollen with no note that says otherwise.

    A lone walnut lacks pollen and yet has nuts to pick: what sets some of a crop alone is not among them.

    Parameters
    ----------
    standings : mapping of plant id to word
        How each is served; one that "lacks" gets enough pollen too seldom to count on a crop.
    alone : mapping of plant id to share
        What each sets of a full crop with its own pollen.
    day : GardenDay
        Its notes: a harvest or a set other than none in any year, for then it has borne here whatever is
        reckoned, and pollen brought by hand this season.
    """
    bore = {e.plant for e in of_kind(day.entries, HarvestNote)}
    bore |= {e.plant for e in of_kind(day.entries, FruitSetNote) if e.set != "none"}
    brought = {subject for subject, done in jobs_done(day.entries, BRING_POLLEN) if _is_now(done.on, day)}
    seen = {e.plant: e.set for e in of_kind(day.entries, FruitSetNote) if _is_now(e.on, day)}
    lacking = {
        plant.id
        for plant in day.garden.plants
        if standings.get(plant.id) == "lacks"
        and alone.get(plant.id, 0.0) < day.numbers["partner_some_alone"]
        and plant.id not in bore
        and not brought & {plant.id, subject_id(day.kind(plant).name)}
    }
    return frozenset(lacking | {plant for plant, fruits in seen.items() if fruits == "none"})


def _is_now(on: dt.date, day: GardenDay) -> bool:
    return SeasonAxis.holding(on, day.axis.southern) == day.axis
