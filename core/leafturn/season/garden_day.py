"""A garden as of one day: what its files hold, what was noted up to the day, and the day itself.

It stands in this room because it is the lowest that may know all four parts: the garden, the plant library
and the journal lie below it, and the season's axis, which gives the day its number, lies here.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from functools import cached_property

from msgspec import field

from leafturn.base.closed_words import CountsAs
from leafturn.base.kept import kept
from leafturn.base.tunables import Numbers
from leafturn.base.value import Value
from leafturn.garden.model import Garden, Plant
from leafturn.garden.things import things_of
from leafturn.journal.entries import Done, Entry
from leafturn.journal.job_id import WHOLE_GARDEN, subject_id
from leafturn.journal.questions import jobs_done
from leafturn.kinds.library import Library
from leafturn.kinds.model import Kind
from leafturn.kinds.specimen import Specimen, specimen_of
from leafturn.season.axis import SeasonAxis


class GardenDay(Value, eq=False, kw_only=False):
    """One garden on one day of asking.

    Parameters
    ----------
    library : Library
        The plant library, with the steward's own kinds.
    entries : tuple of Entry
        Notes not taken back up to the day, oldest first.
    on : date
        The day of asking; nothing later is known.
    verbs : mapping of str to frozenset of str, optional
        Verbs of jobs by what their rules count as. Without them a job counts only by the word itself.
    """

    garden: Garden
    library: Library
    entries: tuple[Entry, ...]
    on: dt.date
    verbs: Mapping[CountsAs, frozenset[str]] = field(default_factory=dict)

    @kept
    def done(self, counts_as: CountsAs) -> tuple[tuple[str, Done], ...]:
        """What notes of jobs done say was cut, watered and so on, each with its note, oldest first.

        A job counts by its rule, or where its verb is the very word: "bay-3:empty".
        """
        return tuple(jobs_done(self.entries, counts_as, *self.verbs.get(counts_as, ())))

    @cached_property
    def axis(self) -> SeasonAxis:
        """The season that holds the day."""
        return SeasonAxis.holding(self.on, self.garden.place.southern)

    @cached_property
    def numbers(self) -> Numbers:
        """The built-in numbers, with the steward's own from `[rule]`."""
        return Numbers(self.garden.rules)

    @cached_property
    def whole(self) -> frozenset[str]:
        """What ids of jobs call the whole garden: older journals write its name, if no plant is called so."""
        name = {subject_id(self.garden.place.name)} - {""} - things_of(self.garden)
        return frozenset({WHOLE_GARDEN, *name})

    @kept
    def specimen(self, plant: Plant) -> Specimen:
        """What the library knows of one plant."""
        return specimen_of(plant, self.library)

    def kind(self, plant: Plant) -> Kind:
        """What the library knows of a plant's kind."""
        return self.specimen(plant).kind
