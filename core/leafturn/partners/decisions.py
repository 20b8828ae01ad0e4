"""What a steward has answered about a tree that lacks a partner, and until when it stands.

An `answered` note holds the plant, the answer and the day on which it is asked again. Answers are
"content without", "fix: " with the way chosen ("fix: graft"), and "waiting until " with a year. The words
of a fix stand in the note's text.
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from leafturn.journal.entries import AnsweredNote, Entry, of_kind
from leafturn.partners.model import Fix
from leafturn.season.axis import SeasonAxis

AnswerWay = Literal["content", "wait", "borrow", "graft", "move", "plant"]

CONTENT = "content without"
ASKED_AGAIN_AFTER_YEARS = 3  # common practice, no source
_FIX = re.compile(r"fix:\s*(?P<way>borrow|graft|move|plant)\b")
_WAIT = re.compile(r"waiting until\s+(?P<year>\d{4})\b")
WAITING = "waiting until"


@dataclass(frozen=True, kw_only=True)
class Answer:
    """One answer that still stands: the way chosen, since when, and the day on which it is asked again.

    `said` are the words of it, such as "graft a male branch onto kiwi-f1".
    """

    plant: str
    way: AnswerWay
    said: str
    since: dt.date
    until: dt.date
    entry: str = ""


def standing_answers(entries: Iterable[Entry], on: dt.date, *, southern: bool = False) -> dict[str, Answer]:
    """The answers that stand on a day, by plant; of several about one plant the last given.

    Parameters
    ----------
    entries : iterable of Entry
        Standing notes, oldest first.
    on : date
    southern : bool
        Whether a year's season starts in July.
    """
    found: dict[str, Answer] = {}
    for entry in of_kind(entries, AnsweredNote):
        if entry.plant is None or entry.on > on:
            continue
        answer = read_answer(entry, southern=southern)
        if answer is not None:
            found[entry.plant] = answer
    return {plant: answer for plant, answer in found.items() if on < answer.until}


def read_answer(entry: AnsweredNote, *, southern: bool = False) -> Answer | None:
    """What an `answered` note says of partners; None if it is about something else."""
    said = " ".join((entry.answer or "").lower().split())
    plant = entry.plant or ""
    until = entry.until or years_on(entry.on, ASKED_AGAIN_AFTER_YEARS)
    if said.startswith(CONTENT):
        return Answer(
            plant=plant, way="content", said=CONTENT, since=entry.on, until=until, entry=entry.id
        )  # fmt: skip
    if wait := _WAIT.match(said):
        begins = entry.until or SeasonAxis(int(wait["year"]), southern).start
        return Answer(
            plant=plant, way="wait", said=f"{WAITING} {wait['year']}", since=entry.on, until=begins,
            entry=entry.id,
        )  # fmt: skip
    if fix := _FIX.match(said):
        way: AnswerWay = fix["way"]  # type: ignore[assignment]
        return Answer(
            plant=plant, way=way, said=entry.text or f"{way} a partner for {plant}", since=entry.on,
            until=until, entry=entry.id,
        )  # fmt: skip
    return None


def content_entry(plant: str, on: dt.date) -> AnsweredNote:
    """The note that a steward is content without fruit of a plant; asked again after three years."""
    return AnsweredNote(on=on, plant=plant, answer=CONTENT, until=years_on(on, ASKED_AGAIN_AFTER_YEARS))


def fix_entry(plant: str, fix: Fix, on: dt.date, *, southern: bool = False) -> AnsweredNote:
    """The note of a chosen fix. Waiting is asked about again when the year begins, others when it ends.

    Parameters
    ----------
    plant : str
    fix : Fix
        With its `way`.
    on : date
    southern : bool
        Whether a year's season starts in July.
    """
    axis = SeasonAxis(fix.year, southern)
    if fix.way == "wait":
        return AnsweredNote(
            on=on, plant=plant, answer=f"{WAITING} {fix.year}", text=fix.what,
            until=max(axis.start, on + dt.timedelta(days=1)),
        )  # fmt: skip
    return AnsweredNote(on=on, plant=plant, answer=f"fix: {fix.way}", text=fix.what, until=axis.next.start)


def years_on(day: dt.date, years: int) -> dt.date:
    """The same day so many years later; 29 February becomes the 28th, and the calendar's end holds."""
    if day.year + years > dt.MAXYEAR:
        return dt.date.max
    try:
        return day.replace(year=day.year + years)
    except ValueError:
        return day.replace(year=day.year + years, day=28)
