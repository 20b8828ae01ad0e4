"""Where a job is done: the place of what it is done to, and of each of its plants."""

from __future__ import annotations

from leafturn.base import prose
from leafturn.base.kept import kept
from leafturn.garden.model import Plant
from leafturn.garden.reading.places import from_gate, where_if_known
from leafturn.season.garden_day import GardenDay
from leafturn.tasks.model import Member
from leafturn.tasks.subjects import Subject, names_of, several_of

IN_SIGHT_M = 10.0  # of plants no further than so from their middle, that is told; a guess


class Whereabouts:
    """The places of a garden's plants in words, each found once."""

    def __init__(self, day: GardenDay) -> None:
        self._day = day

    @kept
    def member(self, plant: Plant) -> Member:
        """A plant that something is done to, with its place; empty where none is given."""
        return Member(
            plant=plant.id,
            name=names_of([plant]),
            where=where_if_known(plant),
            point=plant.point,
            several=several_of(self._day.kind(plant)),
        )

    def members(self, subject: Subject) -> tuple[Member, ...]:
        """The plants of a subject, each with its own place."""
        return tuple(map(self.member, subject.plants))

    def of(self, subject: Subject) -> str:
        """The place of a subject in words; empty where none is given."""
        if subject.words:
            return subject.words
        places = {member.where for member in self.members(subject)}
        if len(places) == 1:
            return places.pop()
        middle, points = subject.point, [plant.point for plant in subject.plants if plant.point]
        if middle is None:
            return ""
        near = all(middle.metres_to(point) <= IN_SIGHT_M for point in points)
        return from_gate(middle) if near else prose.count(len(places), "place")
