"""Where a job is done: the place of what it is done to, and of each of its plants."""

from __future__ import annotations

from leafturn.base.kept import kept
from leafturn.garden.model import Plant
from leafturn.garden.reading.places import from_gate, where
from leafturn.season.garden_day import GardenDay
from leafturn.tasks.model import Member
from leafturn.tasks.subjects import Subject, names_of, several_of


class Whereabouts:
    """The places of a garden's plants in words, each found once."""

    def __init__(self, day: GardenDay) -> None:
        self._day = day

    @kept
    def member(self, plant: Plant) -> Member:
        """A plant that something is done to, with its place."""
        return Member(
            plant=plant.id,
            name=names_of([plant]),
            where=where(plant),
            point=plant.point,
            several=several_of(self._day.kind(plant)),
        )

    def members(self, subject: Subject) -> tuple[Member, ...]:
        """The plants of a subject, each with its own place."""
        return tuple(map(self.member, subject.plants))

    def of(self, subject: Subject) -> str:
        """The place of a subject in words."""
        if subject.words:
            return subject.words
        places = {member.where for member in self.members(subject)}
        return places.pop() if len(places) == 1 else from_gate(subject.point)
