"""The garden as the notes of its plants leave it: lost, planted again, judged, moved.

The garden file has no days; a note has one. What was noted up to a day is laid over the file, so that every
answer about that day sees the same plants.
"""

from __future__ import annotations

from collections.abc import Iterable

from msgspec import structs

from leafturn.garden.model import Garden, Plant
from leafturn.journal.entries import Entry, JudgedNote, LossNote, MovedNote, PlantedNote

Acts = (LossNote, PlantedNote, MovedNote, JudgedNote)


def garden_with_notes(garden: Garden, entries: Iterable[Entry]) -> Garden:
    """The garden with its plants as the notes leave them.

    Parameters
    ----------
    garden : Garden
        What the file says.
    entries : iterable of Entry
        Notes not taken back up to the day of asking, oldest first.

    Notes
    -----
    A loss makes a plant "gone"; one noted before the year in which the file says it was planted was its
    forerunner's. Planted after a loss it stands again, as a new plant of that year; planted earlier than
    the file foresees, or where the file names no year, it is of the year of the note. What it was judged is
    its plan, until it is moved.
    """
    acts: dict[str, list[Entry]] = {}
    for entry in entries:
        if isinstance(entry, Acts) and entry.plant:
            acts.setdefault(entry.plant, []).append(entry)
    if not acts:
        return garden
    plants = tuple(_plant(p, acts[p.id]) if p.id in acts else p for p in garden.plants)
    return structs.replace(garden, plants=plants)


def _plant(plant: Plant, acts: list[Entry]) -> Plant:
    """One plant after what was noted of it, in the order of the days."""
    now = plant
    for act in sorted(acts, key=lambda entry: entry.on):
        match act:
            case LossNote() if plant.year is None or plant.year <= act.on.year:
                now = structs.replace(now, state="gone")
            case PlantedNote() if now.state == "gone" and plant.state != "gone":
                now = replanted(plant, act.on.year)
            case PlantedNote() if now.year is None or act.on.year < now.year:
                now = structs.replace(now, year=act.on.year)
            case JudgedNote() if act.judgement is not None:
                now = structs.replace(now, plan=act.judgement)
            case MovedNote() if now.plan == "move" and plant.plan != "move":
                now = structs.replace(now, plan="keep")
    return now


def replanted(plant: Plant, year: int) -> Plant:
    """A new plant of a year in the place of a lost one: nothing measured of the old holds for it."""
    return structs.replace(
        plant, year=year, age_when_planted=0.0, height_m=None, crown_m=None, trunk_cm=None, lean=None,
        guard=None, state="well", plan=None,
    )  # fmt: skip
