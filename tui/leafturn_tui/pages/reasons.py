"""Why a job is due, or not yet: the sentences laid over a page."""

from __future__ import annotations

from typing import TYPE_CHECKING

from leafturn.tasks.model import OVER, Job
from leafturn_tui.panels.sentences import Sheet
from leafturn_tui.text import phrases, states

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace


def why_sheet(almanac: AlmanacFace, job: Job) -> Sheet:
    """The reasons for a job, laid over the page."""
    window = f"Open {phrases.likely(job.open, almanac.on)}; closes {phrases.likely(job.close, almanac.on)}."
    title = f"{job.title}: why {'not yet' if job.state in ('not yet', 'soon', 'held') else 'now'}?"
    if job.state in OVER:
        title = f"{job.title}: {states.words(job, almanac.on)}"
    return Sheet(title, [*job.why, window, *job.cautions])


def why_plant(almanac: AlmanacFace, plant: str) -> Sheet:
    """Why a plant has a job on the round, or has none yet."""
    job = next((j for j in almanac.round().jobs if plant == j.plant or plant in j.plants), None)
    if job is not None:
        return why_sheet(almanac, job)
    return Sheet(f"{plant}: why is there no job now?", almanac.why_plant(plant))
