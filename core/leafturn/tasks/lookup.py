"""Asking after jobs: one by its name, and why there is or is not anything to do at a plant."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from leafturn.journal.job_id import JobId, verb_id
from leafturn.partners.decisions import Answer
from leafturn.tasks.model import Job

_WEEK = {"late": 0, "due": 0, "held": 0, "soon": 0, "not yet": 1}
_SMALL_WORDS = ("the", "of", "to", "for", "on", "and")
LEAST_LETTERS = 3  # of a word cut short
_SOONEST = {"late": 0, "due": 0, "held": 1, "soon": 2, "not yet": 3, "passed": 4, "done": 5, "let go": 5}


def job_named(jobs: Sequence[Job], job_id: str) -> Job | None:
    """A job by its id; without year or number the one that is open now, else the next.

    Plant and verb may stand either way round: "bay-2:turn", "turn:bay-2".
    """
    exact = next((job for job in jobs if job.id == job_id), None)
    if exact is not None:
        return exact
    asked = JobId.read(job_id)
    found = [job for job in jobs if asked.is_of(job.plant, verb_id(job.verb))]
    return min(found, key=lambda job: _SOONEST[job.state], default=None)


def jobs_meant(jobs: Sequence[Job], typed: str) -> tuple[Job, ...]:
    """The jobs that words mean: by an id, or by words of the title in any order, of small or capital letters.

    A word may be cut short. Of jobs with all the words those of this week come first, then those to come;
    words that fit whole come before words cut short.

    Returns
    -------
    tuple of Job
        One where it is plain which is meant, several where it is not, none where there is no such job.
    """
    if (named := job_named(jobs, typed)) is not None:
        return (named,)
    asked = [word for word in _words(typed) if word not in _SMALL_WORDS]
    fits = [(fit, job) for job in jobs if asked and (fit := _fit(asked, job)) is not None]
    best = min((key for key, _ in fits), default=None)
    meant: dict[tuple[str, str], Job] = {}  # of one done again and again in a season, the one next to do
    for job in sorted((job for key, job in fits if key == best), key=lambda job: _SOONEST[job.state]):
        meant.setdefault((job.plant, job.verb), job)
    return tuple(job for job in jobs if job in meant.values())


def _fit(asked: Sequence[str], job: Job) -> tuple[int, int] | None:
    """How soon a job is and how well the words fit, less is better; None where one of them does not."""
    has = {*_words(job.title), *_words(job.id), *_words(job.verb), *(p.lower() for p in job.plants)}
    if all(word in has for word in asked):
        return (_WEEK.get(job.state, 2), 0)
    if all(len(word) >= LEAST_LETTERS and any(own.startswith(word) for own in has) for word in asked):
        return (_WEEK.get(job.state, 2), 1)
    return None


def _words(text: str) -> list[str]:
    return [word for part in text.lower().split() for word in part.strip(",;").split(":") if word]


def why_of_plant(jobs: Iterable[Job], plant_id: str, answer: Answer | None) -> tuple[str, ...]:
    """Why there is, or is not yet, anything to do at a plant.

    Parameters
    ----------
    jobs : iterable of Job
    plant_id : str
    answer : Answer or None
        What was answered about its want of a partner.
    """
    own = [job for job in jobs if plant_id == job.plant or plant_id in job.plants]
    open_now = [job for job in own if job.state in ("due", "late", "held")]
    if open_now:
        return min(open_now, key=lambda job: (len(job.plants), -job.cost_of_delay)).why
    ahead = [(job.open.likely, job) for job in own if job.state in ("soon", "not yet") and job.open.likely]
    said = (f"About its partner: {answer.said}, until it is asked again.",) if answer else ()
    if not own:
        return (f"Nothing to do: no work falls to {plant_id} this season.", *said)
    if not ahead:
        return (f"Nothing more is foreseen for {plant_id} this season.", *said)
    job = min(ahead, key=lambda pair: (pair[0], pair[1].order))[1]
    return (f"Nothing to do at {plant_id} yet: next is to {job.title}.", *said, *job.why)
