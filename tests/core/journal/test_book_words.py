"""Notes in words; the wording is our own."""

from __future__ import annotations

import datetime as dt

from leafturn.journal.book import in_words
from leafturn.journal.entries import AnsweredNote

ON = dt.date(2027, 4, 19)


def test_a_chosen_fix_is_named_once() -> None:
    chosen = AnsweredNote(on=ON, plant="pawpaw", answer="fix: graft", text="graft a branch of Mango")
    assert in_words(chosen) == "pawpaw: fix chosen, graft a branch of Mango"
    assert in_words(AnsweredNote(on=ON, plant="pawpaw", answer="fix: graft")) == "pawpaw: fix: graft"
