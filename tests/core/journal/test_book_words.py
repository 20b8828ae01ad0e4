"""Notes in words; the wording is our own."""

from __future__ import annotations

import datetime as dt

import pytest

from leafturn.base import quantities
from leafturn.journal import entries
from leafturn.journal.book import in_words
from leafturn.journal.entries import AnsweredNote, Entry

ON = dt.date(2027, 4, 19)
JOB = ("bay-2:turn:2027",)


def test_a_chosen_fix_is_named_once() -> None:
    chosen = AnsweredNote(on=ON, plant="pawpaw", answer="fix: graft", text="graft a branch of Mango")
    assert in_words(chosen) == "pawpaw: fix chosen, graft a branch of Mango"
    assert in_words(AnsweredNote(on=ON, plant="pawpaw", answer="fix: graft")) == "pawpaw: fix: graft"


@pytest.mark.parametrize(
    ("note", "said"),
    [
        (entries.Done(on=ON, tasks=JOB, minutes=35, by="Ann"), "done: turn bay-2, 35 min, by Ann"),
        (entries.LetGo(on=ON, tasks=JOB, text="too wet"), "let go: turn bay-2, too wet"),
        (entries.PutOff(on=ON, tasks=JOB, until=dt.date(2027, 5, 1)), "put off until 1 May: turn bay-2"),
        (entries.Given(on=ON, tasks=JOB, to="pair"), "given to pair: turn bay-2"),
        (entries.HoldLifted(on=ON, tasks=JOB, by="Ann"), "hold lifted: turn bay-2, by Ann"),
        (entries.SheetNote(on=ON, sheet="16-B", tasks=JOB), "week sheet 16-B written, 1 line"),
        (entries.WeatherNote(on=ON, rain_mm=12.0, wind=True), "weather: rain 12 mm, wind"),
        (entries.ColdNightNote(on=ON, tmin_c=-3.0), "cold night given: -3 C"),
        (entries.BloomNote(on=ON, plant="pear"), "pear: in bloom"),
        (entries.HarvestNote(on=ON, plant="pear", kg=12.0), "pear: picked 12 kg"),
        (entries.FruitSetNote(on=ON, plant="pear", set="good"), "pear: set good"),
        (entries.HeapReading(on=ON, heap="bay-2", temp_c=58.0), "bay-2: 58 C inside"),
        (entries.CrownNote(on=ON, plant="ash", live_percent=33.0), "ash: 33 % of the crown alive"),
        (entries.LossNote(on=ON, plant="pear", cause="voles"), "pear: loss by voles"),
        (entries.DamageNote(on=ON, plant="pear"), "pear: damage"),
        (entries.JudgedNote(on=ON, plant="oak", plan="keep"), "oak: judged keep"),
        (entries.PlainNote(on=ON, text="the gate stuck"), "the gate stuck"),
        (entries.MovedNote(on=ON, plant="pear"), "pear: moved"),
    ],
)  # fmt: skip
def test_a_note_is_told_in_one_line(note: Entry, said: str) -> None:
    assert in_words(note) == said


def test_what_was_taken_back_is_told_with_its_day() -> None:
    back = entries.Withdrawal(on=ON, entry="2027-04-02.1.k7fq")
    assert in_words(back) == "taken back: note 2027-04-02.1.k7fq"
    bloom = entries.BloomNote(on=dt.date(2027, 4, 2), plant="pear", stage="first open")
    assert in_words(back, bloom) == "taken back: pear: first open of 2 Apr"


def test_a_job_of_a_group_is_told_as_one_and_quantities_in_the_units_spoken() -> None:
    mulch = entries.Done(on=ON, tasks=("pear-guild:mulch:2027",))
    assert in_words(mulch, things={"pear"}) == "done: mulch (pear guild)"
    with quantities.speaking("us"):
        assert in_words(entries.HeapReading(on=ON, heap="bay", temp_c=58.0)) == "bay: 136 F inside"
