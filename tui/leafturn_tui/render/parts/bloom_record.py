"""The record of bloom as open archives of phenology take it: a line a stage seen, in terms of Darwin Core.

References
----------
Darwin Core, dwc.tdwg.org/terms (TDWG standard): the names of most columns. BBCH: Meier 2018, Growth stages
of mono- and dicotyledonous plants, Julius Kuehn-Institut: the numbers of stages. Days are ISO 8601, places
WGS 84.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from leafturn.base.bloom_stages import BBCH
from leafturn.garden.points.degrees_to_metres import to_degrees
from leafturn.journal.entries import BloomNote
from leafturn_tui.render.parts.tables import csv_text

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

COLUMNS = (
    "occurrenceID", "basisOfRecord", "eventDate", "year", "startDayOfYear", "organismID", "scientificName",
    "vernacularName", "cultivarEpithet", "stage", "bbch", "occurrenceStatus", "decimalLatitude",
    "decimalLongitude", "geodeticDatum", "locationRemarks", "recordedBy", "occurrenceRemarks",
)  # fmt: skip
DIGITS = 6  # of a degree: 0.1 m, as near as the foot of a tree is known
NONE = "none this year"


def bloom_csv(almanac: AlmanacFace) -> str:
    """The table, the oldest note first; notes taken back and stages without a BBCH number are left out."""
    return csv_text(COLUMNS, _records(almanac))


def _records(almanac: AlmanacFace) -> Iterator[dict[str, Any]]:
    garden, cards = almanac.garden, {card.id: card for card in almanac.plants()}
    for line in reversed(almanac.book()):
        note = line.entry
        if line.taken_back or not isinstance(note, BloomNote):
            continue
        absent = note.stage == NONE
        bbch = note.bbch if note.bbch is not None else BBCH.get(note.stage or "")
        if bbch is None and not absent:
            continue
        plant, card = garden.plant(note.plant), cards.get(note.plant)
        point = plant.point if plant is not None else None
        place = to_degrees(point, garden.place) if point is not None else (garden.place.lat, garden.place.lon)
        yield {
            "occurrenceID": note.id,
            "basisOfRecord": "HumanObservation",
            "eventDate": note.on.isoformat(),
            "year": note.on.year,
            "startDayOfYear": note.on.timetuple().tm_yday,
            "organismID": note.plant,
            "scientificName": card.botanical if card is not None else None,
            "vernacularName": card.kind if card is not None else None,
            "cultivarEpithet": plant.cultivar if plant is not None else None,
            "stage": note.stage,
            "bbch": bbch,
            "occurrenceStatus": "absent" if absent else "present",
            "decimalLatitude": f"{place[0]:.{DIGITS}f}",
            "decimalLongitude": f"{place[1]:.{DIGITS}f}",
            "geodeticDatum": "WGS84",
            "locationRemarks": "of the plant" if point is not None else "of the garden",
            "recordedBy": note.by,
            "occurrenceRemarks": note.text,
        }
