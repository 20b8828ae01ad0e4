"""Questions asked of the notes, on a few that are invented."""

from __future__ import annotations

import datetime as dt

import pytest

from leafturn.journal.entries import CrownNote, Done, HarvestNote, LetGo, PlainNote, Withdrawal
from leafturn.journal.noted import of_kind
from leafturn.journal.questions import jobs_done, latest, of_plant, unknown_plants


def day(text: str) -> dt.date:
    return dt.date.fromisoformat(text)


def look(id_: str, on: str, plant: str, percent: float) -> CrownNote:
    return CrownNote(id=id_, on=day(on), plant=plant, live_percent=percent)


LOOKS = [
    look("1", "2026-08-20", "ash", 50),
    look("2", "2026-08-20", "ash", 45),
    look("3", "2025-08-01", "ash", 70),  # of an earlier day, written later
    look("4", "2026-09-01", "lime", 90),
]


def test_notes_of_a_kind_and_of_a_plant_keep_their_order() -> None:
    notes = [PlainNote(on=day("2026-01-01"), plant="ash", text="a crow"), *LOOKS]
    assert list(of_kind(notes, CrownNote)) == LOOKS
    assert of_plant(notes, CrownNote, "ash") == LOOKS[:3]


@pytest.mark.parametrize(
    ("plant", "until", "found"),
    [
        ("ash", None, "2"),
        ("ash", "2026-08-20", "2"),
        ("ash", "2026-08-19", "3"),
        ("ash", "2025-07-31", None),
        ("lime", None, "4"),
        ("elm", None, None),
    ],
)
def test_the_latest_is_of_the_latest_day_and_of_one_day_the_last(
    plant: str, until: str | None, found: str | None
) -> None:
    note = latest(LOOKS, CrownNote, plant, None if until is None else day(until))
    assert (note and note.id) == found


def test_jobs_done_name_what_a_verb_was_done_to_either_way_round() -> None:
    on = day("2027-04-19")
    several = Done(on=on, tasks=("kiwi:winter-cut:2027", "tie-in:kiwi", "summer-cut:rose"))
    other = LetGo(on=on, task="rose:winter-cut:2027")
    found = list(jobs_done([several, other], "winter-cut", "summer-cut"))
    assert found == [("kiwi", several), ("rose", several)]
    assert list(jobs_done([other], "winter-cut")) == []


def test_notes_of_plants_that_the_file_does_not_hold() -> None:
    notes = [
        HarvestNote(id="1", on=day("2027-04-19"), plant="the old pear", kg=4.0),
        HarvestNote(id="2", on=day("2026-10-01"), plant="quince", kg=2.0),
        PlainNote(id="3", on=day("2027-04-19"), text="no plant at all"),
        HarvestNote(id="4", on=day("2027-04-19"), plant="a slip"),
        Withdrawal(id="5", on=day("2027-04-19"), entry="4"),
    ]
    assert unknown_plants(notes, {"quince"}) == {"the old pear": (notes[0],)}
