"""Notes sorted once, by kind, plant and job, however often and by whomever they are asked."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from functools import cached_property
from typing import TypeVar, cast

from leafturn.base.kept import kept
from leafturn.journal.entries import Done, Entry
from leafturn.journal.job_id import WHOLE_GARDEN, JobId

K = TypeVar("K", bound=Entry)


class Notes(tuple[Entry, ...]):
    """Notes in the order they were written, oldest first; what they are asked for is sorted out once."""

    def of(self, kind: type[K]) -> tuple[K, ...]:
        """The notes of one kind, or of several that have `kind` in common."""
        held = [notes for one, notes in self._by_kind.items() if issubclass(one, kind)]
        if len(held) < 2:
            return cast(tuple[K, ...], tuple(held[0])) if held else ()
        return tuple(entry for entry in self if isinstance(entry, kind))

    @cached_property
    def _by_kind(self) -> dict[type[Entry], list[Entry]]:
        found: dict[type[Entry], list[Entry]] = {}
        for entry in self:
            found.setdefault(type(entry), []).append(entry)
        return found

    def of_plant(self, kind: type[K], plant: str) -> list[K]:
        """The notes of one kind about one plant."""
        return cast(list[K], self._by_plant(kind).get(plant, []))

    @kept
    def _by_plant(self, kind: type[Entry]) -> dict[str | None, list[Entry]]:
        found: dict[str | None, list[Entry]] = {}
        for entry in self.of(kind):
            found.setdefault(entry.plant, []).append(entry)
        return found

    def about(self, heap: str) -> list[Entry]:
        """The notes of a heap, and of jobs that name it."""
        places = {*self._of_heaps.get(heap, ()), *(place for place, _ in self._by_name.get(heap, ()))}
        return [self[place] for place in sorted(places)]

    @cached_property
    def _of_heaps(self) -> dict[str, list[int]]:
        found: dict[str, list[int]] = {}
        for place, entry in enumerate(self):
            if entry.heap:
                found.setdefault(entry.heap, []).append(place)
        return found

    def jobs_done(self, verbs: Iterable[str]) -> Iterator[tuple[str, Done]]:
        """What the notes of jobs done say some verbs were done to, each with its note."""
        told = {(place, job) for verb in verbs for place, job in self._by_name.get(verb, ())}
        for place, number in sorted(told):
            entry = self[place]
            if isinstance(entry, Done):
                job = self._jobs[place][number]
                yield next(given for verb in verbs if (given := job.done_to(verb)) is not None), entry

    @cached_property
    def _by_name(self) -> dict[str, list[tuple[int, int]]]:
        """Jobs that name a thing or a verb: the place of the note, and which of its jobs it is."""
        found: dict[str, list[tuple[int, int]]] = {}
        for place, jobs in self._jobs.items():
            for number, job in enumerate(jobs):
                for name in job.names:
                    found.setdefault(name, []).append((place, number))
        return found

    @cached_property
    def _jobs(self) -> dict[int, tuple[JobId, ...]]:
        """The jobs of each note that is about any, by its place."""
        return {place: entry.jobs for place, entry in enumerate(self) if entry.closes}

    def jobs_of(self, *kinds: type[K]) -> Iterator[tuple[JobId, K]]:
        """Every job of the notes of some kinds, each with its note."""
        for place, jobs in self._jobs.items():
            entry = self[place]
            if isinstance(entry, kinds):
                yield from ((job, entry) for job in jobs)

    def by_job(self, whole: Collection[str], *kinds: type[K]) -> dict[tuple[str, str], list[tuple[JobId, K]]]:
        """The same by subject and verb, written either way round.

        Parameters
        ----------
        whole : collection of str
            What their jobs call the whole garden.
        """
        found: dict[tuple[str, str], list[tuple[JobId, K]]] = {}
        for job, entry in self.jobs_of(*kinds):
            for subject, verb in job.either_way:
                key = (WHOLE_GARDEN if subject in whole else subject, verb)
                found.setdefault(key, []).append((job, entry))
        return found


def noted(entries: Iterable[Entry]) -> Notes:
    """Notes ready to be asked: themselves, if they are so already."""
    return entries if isinstance(entries, Notes) else Notes(entries)


def of_kind(entries: Iterable[Entry], kind: type[K]) -> tuple[K, ...]:
    """The notes of one kind, in the order given."""
    return noted(entries).of(kind)
