"""The cautions of several jobs that are told together."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from leafturn.base import prose
from leafturn.tasks.model import Job

NAMED_MOST = 2  # so many names before a caution leave it a sentence that is read aloud


def cautions_of_all(jobs: Sequence[Job]) -> Iterator[str]:
    """Each caution once; that of a few jobs alone says of which plants it is: "lemon: Its thorns are long."

    Parameters
    ----------
    jobs : sequence of Job
        Told together, so that nothing else says whose a caution is.
    """
    whose: dict[str, list[Job]] = {}
    for job in jobs:
        for caution in dict.fromkeys(job.cautions):
            whose.setdefault(caution, []).append(job)
    for caution, of in whose.items():
        names = list(dict.fromkeys(job.name for job in _widest(of) if job.name))
        few = len(of) < len(jobs) and 0 < len(names) <= NAMED_MOST
        yield f"{prose.joined(names)}: {caution}" if few else caution


def _widest(jobs: Sequence[Job]) -> list[Job]:
    """The jobs but for those whose plants are all among the plants of another, which names them too."""
    return [job for job in jobs if not any(set(job.plants) < set(other.plants) for other in jobs)]
