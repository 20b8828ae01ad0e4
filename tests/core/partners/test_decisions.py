"""Answers about trees without a partner, and how long they stand."""

from __future__ import annotations

import datetime as dt

import pytest

from leafturn.journal.entries import AnsweredNote
from leafturn.partners.decisions import (
    answers_in_force,
    content_entry,
    read_answer,
    remedy_entry,
    years_on,
)
from leafturn.partners.model import Remedy

ON = dt.date(2027, 4, 19)


def remedy(way, year):
    return Remedy(what=f"{way} something", year=year, adequacy=0.5, way=way)


def test_content_without_is_asked_again_after_three_years():
    entry = content_entry("p", ON)
    assert entry.until == dt.date(2030, 4, 19)
    assert answers_in_force([entry], dt.date(2030, 4, 18))["p"].way == "content"
    assert answers_in_force([entry], dt.date(2030, 4, 19)) == {}


def test_waiting_is_asked_again_in_its_year_and_other_fixes_after_theirs():
    assert remedy_entry("p", remedy("wait", 2030), ON).until == dt.date(2030, 1, 1)
    assert remedy_entry("p", remedy("wait", 2030), ON, southern=True).until == dt.date(2030, 7, 1)
    graft = remedy_entry("p", remedy("graft", 2029), ON)
    assert (graft.answer, graft.text, graft.until) == ("fix: graft", "graft something", dt.date(2030, 1, 1))
    assert answers_in_force([graft], dt.date(2029, 12, 31))["p"].said == "graft something"
    assert answers_in_force([graft], dt.date(2030, 1, 1)) == {}


def test_the_last_answer_stands_and_later_ones_are_not_seen_yet():
    answers = [content_entry("p", ON), remedy_entry("p", remedy("move", 2030), ON + dt.timedelta(days=9))]
    assert answers_in_force(answers, ON)["p"].way == "content"
    assert answers_in_force(answers, ON + dt.timedelta(days=9))["p"].way == "move"


@pytest.mark.parametrize(
    ("said", "way"),
    [
        ("content without", "content"),
        ("Content without fruit", "content"),
        ("fix:  graft", "graft"),
        ("fix: plant a pear", "plant"),
        ("waiting until 2031", "wait"),
    ],
)
def test_written_by_hand(said, way):
    answer = read_answer(AnsweredNote(on=ON, plant="p", answer=said))
    assert answer is not None
    assert answer.way == way
    assert answer.until == (dt.date(2031, 1, 1) if way == "wait" else dt.date(2030, 4, 19))


@pytest.mark.parametrize("said", [None, "", "yes", "fix: hope", "waiting until spring"])
def test_other_answers_are_not_about_partners(said):
    assert read_answer(AnsweredNote(on=ON, plant="p", answer=said)) is None


def test_the_calendar_holds():
    assert years_on(dt.date(2028, 2, 29), 3) == dt.date(2031, 2, 28)
    assert years_on(dt.date(9998, 1, 1), 3) == dt.date.max
