"""What a steward has answered about a tree that lacks a partner, and until when it stands.

An `answered` note holds the plant, the answer and the day on which it is asked again. The words
of a remedy stand in the note's text.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable

from leafturn.base.value import Value
from leafturn.journal.answer_words import AnswerWay, Said, read_said
from leafturn.journal.entries import AnsweredNote, Entry
from leafturn.journal.noted import of_kind
from leafturn.partners.model import Remedy
from leafturn.season.axis import SeasonAxis

ASKED_AGAIN_AFTER_YEARS = 3  # common practice, no source


class Answer(Value):
    """One answer that still stands: the way chosen, since when, and the day on which it is asked again.

    `said` are the words of it, such as "graft a male branch onto kiwi-f1".
    """

    plant: str
    way: AnswerWay
    said: str
    since: dt.date
    until: dt.date
    entry: str = ""


def answers_in_force(entries: Iterable[Entry], on: dt.date, *, southern: bool = False) -> dict[str, Answer]:
    """The answers that stand on a day, by plant; of several about one plant the last given.

    Parameters
    ----------
    entries : iterable of Entry
        Notes not taken back, oldest first.
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
    chosen = read_said(entry.answer)
    if chosen is None:
        return None
    plant, words = entry.plant or "", str(chosen)
    until = entry.until or years_on(entry.on, ASKED_AGAIN_AFTER_YEARS)
    if chosen.year is not None:
        until = entry.until or SeasonAxis(chosen.year, southern).start
    if chosen.is_remedy:
        words = entry.text or f"{chosen.way} a partner for {plant}"
    return Answer(plant=plant, way=chosen.way, said=words, since=entry.on, until=until, entry=entry.id)


def content_entry(plant: str, on: dt.date) -> AnsweredNote:
    """The note that a steward is content without fruit of a plant; asked again after three years."""
    return AnsweredNote(
        on=on, plant=plant, answer=str(Said("content")), until=years_on(on, ASKED_AGAIN_AFTER_YEARS)
    )


def remedy_entry(plant: str, remedy: Remedy, on: dt.date, *, southern: bool = False) -> AnsweredNote:
    """The note of a chosen remedy. Waiting is asked about again when the year begins, others when it ends.

    Parameters
    ----------
    plant : str
    remedy : Remedy
        With its `way`.
    on : date
    southern : bool
        Whether a year's season starts in July.
    """
    axis = SeasonAxis(remedy.year, southern)
    if remedy.way == "wait":
        return AnsweredNote(
            on=on, plant=plant, answer=str(Said("wait", remedy.year)), text=remedy.what,
            until=max(axis.start, on + dt.timedelta(days=1)),
        )  # fmt: skip
    return AnsweredNote(
        on=on, plant=plant, answer=str(Said(remedy.way)), text=remedy.what, until=axis.next.start
    )


def years_on(day: dt.date, years: int) -> dt.date:
    """The same day so many years later; 29 February becomes the 28th, and the calendar's end holds."""
    if day.year + years > dt.MAXYEAR:
        return dt.date.max
    try:
        return day.replace(year=day.year + years)
    except ValueError:
        return day.replace(year=day.year + years, day=28)
