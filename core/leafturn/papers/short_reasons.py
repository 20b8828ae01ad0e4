"""A job's reasons, short enough for paper."""

from __future__ import annotations

from leafturn.papers.page_layout import cells
from leafturn.tasks.model import Job

_NOT_BEFORE, _PLAIN_DATES = "Not before ", "Its time runs from "  # as leafturn.tasks.reasons begins them
_TONIGHT, _ABOUT_TODAY = "Tonight ", ("Today", "Best today")
_CLAUSE_ENDS = (". ", "; ", ": ", ", ", " (")


def reason(job: Job) -> str:
    """The cause of a job: its first reason without the dates that stand beside it on paper.

    Where the first reason is nothing but dates, the sentence that tells why the job is done at all.
    """
    first = job.why[0] if job.why else ""
    if first.startswith(_NOT_BEFORE) and ". " in first:
        first = first.partition(". ")[2]
    if first.startswith(_PLAIN_DATES):
        others = [said for said in job.why[2:] if said != amount(job)]
        return others[0] if others else ""
    return first


def amount(job: Job) -> str:
    """What the job spreads or pours, in litres and barrows; empty if nothing."""
    return next((said for said in job.why[1:] if " litres" in said or " barrow" in said), "")


def one_line(when: str, why: str, width: int) -> str:
    """When and why as one line if a whole clause of the reason fits; else both in full."""
    if why.startswith(_TONIGHT) and when in _ABOUT_TODAY:
        when = ""  # "Today: Tonight may reach -3 C" says the day twice
    said = f"{when}: {why}" if when and why else when or why
    if cells(said) <= width:
        return said
    ends = sorted({at for end in _CLAUSE_ENDS for at in _places(why, end)}, reverse=True)
    for at in ends:
        shorter = f"{when}: {why[:at]}." if when else f"{why[:at]}."
        if cells(shorter) <= width:
            return shorter
    return said


def _places(text: str, sought: str) -> list[int]:
    """Where something stands in a text, but for the first few letters, which tell too little."""
    found = []
    at = text.find(sought, 12)
    while at >= 0:
        found.append(at)
        at = text.find(sought, at + 1)
    return found
