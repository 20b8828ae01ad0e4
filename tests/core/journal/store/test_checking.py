"""What is wrong in a hand-written note is said in plain words, and the rest is kept."""

from __future__ import annotations

import datetime as dt
import tomllib
from typing import Any
from unittest import mock

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.samples.journal import any_entry

from leafturn.base.faults import Fault
from leafturn.journal.entries import (
    KINDS,
    WORDS,
    BloomNote,
    Done,
    Entry,
    HarvestNote,
    OfJobs,
    PlainNote,
    WeatherNote,
)
from leafturn.journal.store import checking
from leafturn.journal.store.checking import entry_from
from leafturn.journal.store.sealing import fields_of, mark_of

DATE = dt.date(2027, 4, 19)
DAY = "on = 2027-04-19\n"
BASE = DAY + 'what = "note"\n'
BLOOM = DAY + 'what = "bloom"\n'


def checked(text: str) -> tuple[Entry | None, list[Fault]]:
    table: dict[str, Any] = tomllib.loads(text)
    return entry_from(table, "journal/2027.toml", 7)


@pytest.mark.parametrize(
    ("text", "message", "hint"),
    [
        # what happened, and on which day
        (DAY + 'what = "harvst"', 'what = "harvst"', 'Did you mean "harvest"?'),
        (DAY + 'what = "qqq"', 'what = "qqq"', "Write one of: done, let-go, put-off"),
        (DAY + "what = [3]", "what = [3]", "Write one of"),
        (DAY, "does not say what happened", 'what = "note"'),
        ('what = "note"', "does not say which day", "on = 2027-04-19"),
        ('on = "last week"\nwhat = "note"', 'on = "last week"', "on = 2027-04-19"),
        ('on = 20270419\nwhat = "note"', "on = 20270419", "on = 2027-04-19"),
        # values
        (BASE + 'kg = "four"', 'kg = "four"', "kg = 4.5"), (BASE + "kg = -4", "kg = -4", "not below 0"),
        (BASE + "minutes = true", "minutes = true", "minutes = 35"),
        (BASE + "live_percent = 140", "live_percent = 140", "from 0 to 100"),
        (BASE + "tmin_c = -300", "tmin_c = -300", "between -90 and 60"),
        (BASE + "tmin_f = -300", "tmin_f = -300", "tmin_f"), (BASE + "bbch = 610", "bbch = 610", "0 to 99"),
        (BASE + 'temp_f = "warm"', 'temp_f = "warm"', "temp_f"),
        (BASE + "plant = 4", "plant = 4", "comice-1"), (BASE + "text = 4", "text = 4", "quote marks"),
        (BASE + 'set = "lots"', 'set = "lots"', "none, poor, fair, good"),
        (BASE + 'wind = "yes"', 'wind = "yes"', "wind = true"),
        (BLOOM + 'plant = "q"\nstage = "opn"', 'stage = "opn"', "first open"),
        # what a kind of note cannot be without
        (BLOOM + 'plant = "quince"', 'This "bloom" note lacks its stage', "first open"),
        (BLOOM + 'stage = "full bloom"', "lacks its plant", "comice-1"),
        (DAY + 'what = "put-off"\ntask = "a:b:2027"', "lacks its until", "until = 2027-05-01"),
        (DAY + 'what = "withdraw"', "lacks its entry", "entry = "),
        (DAY + 'what = "reading"\nheap = "bay-2"', "lacks its temp_c", "temp_c = 58"),
        (DAY + 'what = "crown"\nplant = "ash"', "lacks its live_percent", "live_percent"),
        (BASE + "begin = true", "cut short", "end = true"),
        # notes in the words that are typed
        (DAY + 'what = "watering"', 'This "watering" note lacks its plant', "comice-1"),
        (DAY + 'what = "rain"', 'This "rain" note lacks its rain_mm', "rain_mm"),
        (DAY + 'what = "frost"', 'This "frost" note lacks its tmin_c', "tmin_c"),
        # days nobody means
        ('on = 0027-04-19\nwhat = "note"', "on = 0027-04-19 lies outside the years", "Look at the year"),
        (DAY + 'what = "put-off"\ntask = "a:b:2027"\nuntil = 9027-05-01', "until = 9027-05-01 lies outside",
         "Look at the year"),
    ],
)  # fmt: skip
def test_a_note_that_is_left_out(text: str, message: str, hint: str) -> None:
    entry, faults = checked(text)
    assert entry is None
    assert len(faults) == 1
    assert message in faults[0].message
    assert "left out" in faults[0].message
    assert hint in faults[0].hint
    assert (faults[0].file, faults[0].line) == ("journal/2027.toml", 7)


@pytest.mark.parametrize(
    ("text", "message", "hint"),
    [
        (BASE + 'plnt = "quince"', "plnt is no name known", "Did you mean plant?"),
        (BASE + 'file = "x"', "file is no name known", ""),
        (BASE + "kg = 4\nlb = 9", "Both kg and lb are given; kg is used", "Keep one of them."),
        ('on = 2027-04-19\nwhat = "done"\nplant = "quince"', "names no job", "task ="),
    ],
)
def test_a_note_that_is_kept_with_a_word_said(text: str, message: str, hint: str) -> None:
    entry, faults = checked(text)
    assert entry is not None
    assert [message in fault.message and hint in fault.hint for fault in faults] == [True]


def test_every_wrong_field_of_a_note_is_named_at_once() -> None:
    entry, faults = checked(BASE + 'kg = "four"\nminutes = "long"\nplnt = "x"')
    assert entry is None
    assert len(faults) == 3


@pytest.mark.parametrize(
    ("written", "name", "metric"),
    [
        # Thompson and Taylor 2008, NIST Special Publication 811, appendix B.8: t/degC = (t/degF - 32)/1.8,
        # 1 in = 25.4 mm, 1 lb = 0.453 592 37 kg, all exact. -40 is the same in both scales.
        ('what = "reading"\nheap = "bay-2"\ntemp_f = 131', "temp_c", 55.0),
        ('what = "weather"\ntmin_f = -40', "tmin_c", -40.0),
        ('what = "weather"\ntmax_f = 86.0', "tmax_c", 30.0),
        ('what = "weather"\nrain_in = 2', "rain_mm", 50.8),
        ('what = "harvest"\nlb = 10', "kg", 4.5359237),
    ],
)
def test_other_units(written: str, name: str, metric: float) -> None:
    entry, faults = checked(f"on = 2027-04-19\n{written}")
    assert faults == []
    assert getattr(entry, name) == pytest.approx(metric, abs=1e-9)


def test_twenty_eight_fahrenheit() -> None:
    """28 degF, the critical temperature of many tables, is -2.2 degC to the figures they give."""
    entry, _ = checked('on = 2027-04-19\nwhat = "weather"\ntmin_f = 28')
    assert isinstance(entry, WeatherNote)
    assert entry.tmin_c is not None
    assert round(entry.tmin_c, 1) == -2.2


def test_days_as_dates_moments_or_text() -> None:
    for written in ("2027-04-19", '"2027-04-19"', "2027-04-19T22:30:00", "2027-04-19T22:30:00+02:00"):
        entry, faults = checked(f'on = {written}\nwhat = "note"')
        assert faults == []
        assert entry is not None
        assert entry.on == dt.date(2027, 4, 19)
        assert type(entry.on) is dt.date


@pytest.mark.parametrize(
    ("written", "stage", "bbch"),
    [
        # BBCH codes: Meier (ed.) 2018, Growth stages of mono- and dicotyledonous plants, JKI.
        ('stage = "first open"', "first open", 61), ('stage = "petal_fall"', "petal fall", 69),
        ('stage = "Full Bloom"', "full bloom", 65), ('stage = "full"', "full bloom", 65),
        ("bbch = 61", "first open", 61), ("bbch = 63", None, 63),
        ('stage = "none this year"', "none this year", None),
        ('stage = "full bloom"\nbbch = 66', "full bloom", 66),
    ],
)  # fmt: skip
def test_stage_and_number_fill_each_other(written: str, stage: str | None, bbch: int | None) -> None:
    entry, faults = checked(f'on = 2027-04-19\nwhat = "bloom"\nplant = "quince"\n{written}')
    assert faults == []
    assert isinstance(entry, BloomNote)
    assert (entry.stage, entry.bbch) == (stage, bbch)


def test_words_in_other_dress() -> None:
    for word in ("let-go", "let go", "Let_Go", "LET GO"):
        entry, faults = checked(f'on = 2027-04-19\nwhat = "{word}"\ntask = "a:b:2027"')
        assert faults == []
        assert entry is not None
        assert entry.what == "let-go"
    entry, _ = checked('on = 2027-04-19\nwhat = "done"\ntasks = "a:b:2027"')
    assert entry is not None
    assert entry.closes == ("a:b:2027",)


def test_a_word_of_another_kind_of_note_is_kept_beside_in_metric_and_in_order() -> None:
    entry, faults = checked(BASE + 'tmin_f = -40\nlb = 0\nstage = "full"')
    assert faults == []
    assert isinstance(entry, PlainNote)
    assert entry.besides == (("stage", "full bloom"), ("bbch", 65), ("kg", 0.0), ("tmin_c", -40.0))


def test_the_words_in_order_are_those_of_all_kinds() -> None:
    own = {name for kind in KINDS.values() for name in kind.__struct_fields__}
    assert own - {"besides", "file", "line", "sum"} == {*WORDS} - {"what"}
    assert len(WORDS) == len({*WORDS})


def test_every_class_of_note_is_a_kind_that_can_be_read() -> None:
    classes = {*Entry.__subclasses__(), *OfJobs.__subclasses__()} - {OfJobs}
    assert classes == {*KINDS.values()}
    assert all(KINDS[kind.__struct_config__.tag] is kind for kind in classes)


@pytest.mark.parametrize(
    ("text", "kind", "told"),
    [
        ('what = "wind"', "weather", {"wind": True}),
        ('what = "rain"\nrain_mm = 12', "weather", {"rain_mm": 12.0}),
        ('what = "watering"\nplant = "quince"', "done", {"task": "quince:water"}),
    ],
)
def test_notes_in_the_words_that_are_typed(text: str, kind: str, told: dict[str, object]) -> None:
    entry, faults = checked(DAY + text)
    assert faults == []
    assert entry is not None
    assert entry.what == kind
    assert {name: _plain(getattr(entry, name)) for name in told} == told


def _plain(value: object) -> object:
    return value if isinstance(value, bool | float) else str(value)


ODD = st.sampled_from(
    (None, "", "full", "first-open", "First Open", "harvest", "bloom", "rain", "wind", 4, -1.5, 61, True, [],
     ["a"], "2027-04-19", dt.date(2027, 4, 19), dt.date(27, 4, 19), dt.datetime(2027, 4, 19, 8), {"a": 1})
)  # fmt: skip


@pytest.mark.long
@settings(max_examples=400, deadline=None)
@given(
    any_entry(),
    st.dictionaries(
        st.sampled_from([*WORDS, "lb", "rain_in", "sum", "end", "begin", "kgs"]), ODD, max_size=3
    ),
)
def test_a_note_that_needs_no_care_is_what_all_the_care_comes_to(entry: Entry, odd: dict[str, Any]) -> None:
    table = {**fields_of(entry), "sum": mark_of(entry), **odd}
    table = {name: value for name, value in table.items() if value is not None}
    quickly = entry_from(dict(table), "journal/2027.toml", 7)
    with mock.patch.object(checking, "_as_it_stands", return_value=None):
        assert entry_from(dict(table), "journal/2027.toml", 7) == quickly


@pytest.mark.parametrize(
    "entry",
    [
        Done(on=DATE, task="a:b:2027"),
        HarvestNote(on=DATE, plant="quince", kg=2.5),
        BloomNote(on=DATE, plant="quince", stage="first open", bbch=60),
        PlainNote(on=DATE),
    ],
    ids=lambda entry: entry.what,
)
def test_a_note_as_the_program_writes_it_needs_no_care(entry: Entry, monkeypatch: pytest.MonkeyPatch) -> None:
    """Else every note of a long journal would be looked at twice."""
    monkeypatch.setattr(checking, "_tidy_words", None)
    assert entry_from({**fields_of(entry), "sum": "1c9e02ab"}, "journal/2027.toml", 7)[1] == []
