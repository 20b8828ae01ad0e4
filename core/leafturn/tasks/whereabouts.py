"""Where a job is done: the place of what it is done to, and of each of its plants."""

from __future__ import annotations

from leafturn.garden.reading.places import from_gate, where
from leafturn.tasks.model import Member
from leafturn.tasks.season_model import SeasonModel
from leafturn.tasks.subjects import Subject, names_of, several_of


def members_of(subject: Subject, season: SeasonModel) -> tuple[Member, ...]:
    """The plants of a subject, each with its own place."""
    return tuple(
        Member(
            plant=p.id,
            name=names_of([p]),
            where=where(p),
            point=p.point,
            several=several_of(season.kind(p)),
        )
        for p in subject.plants
    )


def where_of(subject: Subject) -> str:
    """The place of a subject in words."""
    if subject.words:
        return subject.words
    places = {where(plant) for plant in subject.plants}
    if len(places) == 1:
        return places.pop()
    return from_gate(subject.point)
