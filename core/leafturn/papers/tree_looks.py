"""Looks at failing trees: who looked at which, when, what was found, and when it is looked at again.

It tells what was noted and nothing else; where nobody looked, it says so. It is no inspection.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence

from leafturn.base import day_words, prose
from leafturn.base.day_words import long_day
from leafturn.base.value import Value
from leafturn.journal.book import in_words
from leafturn.journal.entries import CrownNote, DamageNote, Done, Entry, LookNote
from leafturn.journal.job_id import OWN_JOB, verb_id
from leafturn.papers.page_layout import LENGTH, Clean, Paper, Sheaf
from leafturn.tasks.model import OVER, Job
from leafturn.tasks.rule_model import verbs_that_count

LOOKS = (LookNote, CrownNote, DamageNote)
GAP_DAYS = 400  # a year and the slack of a season: longer without a look is said
NOTES_MOST = 5
EMPTY_ROWS = 6


class Watched(Value):
    """A tree to be watched: a sentence on what it could reach, what was noted of it, and its next look."""

    plant: str
    says: str
    notes: tuple[Entry, ...]
    next_look: dt.date | None


def watched(
    falls: Iterable[tuple[str, str]], entries: Iterable[Entry], jobs: Sequence[Job]
) -> tuple[Watched, ...]:
    """Failing trees with their notes, newest first.

    Parameters
    ----------
    falls : iterable of (plant, sentence)
        Trees that could fall where people are, and other dead or failing ones.
    entries : iterable of Entry
        Notes not taken back.
    jobs : iterable of Job
        Of the season; one that counts as a look, or is the steward's own, gives the next date while open.
    """
    looks = [j for j in jobs if j.counts_as == "look" or j.verb == OWN_JOB]
    verbs = {"look", *verbs_that_count(())["look"], *(verb_id(j.verb) for j in looks)}
    notes = [
        e
        for e in entries
        if isinstance(e, LOOKS) or (isinstance(e, Done) and any(verbs & job.names for job in e.jobs))
    ]
    open_looks = [j for j in looks if j.best.likely is not None and j.state not in OVER]
    found = []
    for plant, says in falls:
        own = sorted((e for e in notes if _about(e, plant)), key=lambda e: e.on, reverse=True)
        ahead = [j.best.likely for j in open_looks if plant in (j.plant, *j.plants) and j.best.likely]
        found.append(Watched(plant=plant, says=says, notes=tuple(own), next_look=min(ahead, default=None)))
    return tuple(found)


def _about(entry: Entry, plant: str) -> bool:
    return entry.plant == plant or any(job.subject == plant for job in entry.jobs)


def tree_looks(
    place: str, trees: Sequence[Watched], calls: Sequence[str], on: dt.date, clean: Clean = str
) -> Paper:
    """All looks on one page: 60 lines of at most 72 columns.

    Parameters
    ----------
    place : str
        The garden's name; may be empty.
    trees : sequence of Watched
        Of more than fit, the last are named in a line.
    calls : sequence of str
        Who to call; in sentences.
    on : date
    clean : callable
        Every string passes it.
    """
    for shown in range(len(trees), -1, -1):
        for notes in (NOTES_MOST, 2, 1):
            page = _page(place, trees[:shown], trees[shown:], calls, on, clean, notes)
            if len(page.lines) <= LENGTH:
                return page
    return _page(place, (), trees, calls[:1], on, clean, 1)


def _page(
    place: str,
    trees: Sequence[Watched],
    others: Sequence[Watched],
    calls: Sequence[str],
    on: dt.date,
    clean: Clean,
    notes: int,
) -> Paper:
    sheaf = Sheaf(clean)
    sheaf.title(f"{place}: looks at failing trees" if place.strip() else "Looks at failing trees", most=1)
    sheaf.say(
        f"As noted up to {long_day(on)}. A record of looks, not an inspection; no line here is an assurance."
    )
    for tree in trees:
        sheaf.blank()
        sheaf.say(tree.says, most=14)
        _looks(sheaf, tree, on, notes)
    if others:
        sheaf.blank()
        sheaf.say(f"Not shown here: {', '.join(t.plant for t in others)}.", hang=2, most=3)
    if not trees and not others:
        sheaf.blank()
        sheaf.say(
            "No failing or dead tree is known in this garden; that is what was noted, not that there is none."
        )
    if calls:
        sheaf.blank()
        for call in calls:
            sheaf.item(call, most=4)
    sheaf.blank()
    sheaf.say("Looked at since (day, who, which tree or path, what was seen, what was done):")
    sheaf.room(EMPTY_ROWS)
    return sheaf.paper


def _looks(sheaf: Sheaf, tree: Watched, on: dt.date, most: int) -> None:
    if not tree.notes:
        sheaf.say("No look is noted.", indent=2)
    else:
        days = (on - tree.notes[0].on).days
        if days > GAP_DAYS:
            sheaf.say(f"Last looked at {days // 30} months ago: a gap.", indent=2)
    for note in tree.notes[:most]:
        sheaf.say(f"{day_words.full_day(note.on)}: {in_words(note)}", indent=2, hang=2, most=3)
    if len(tree.notes) > most:
        sheaf.say(f"and {prose.count(len(tree.notes) - most, 'earlier note')}", indent=2)
    due = day_words.near_day(tree.next_look, on) if tree.next_look else "not set; ask a competent inspector"
    sheaf.say(f"Next look: {due}.", indent=2)
