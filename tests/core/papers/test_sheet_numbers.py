"""A sheet's number is found again from the journal alone, and typed lines are all ticked or none."""

from __future__ import annotations

import datetime as dt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from leafturn.journal.entries import BloomNote, Entry, SheetNote
from leafturn.journal.withdrawals import takeable
from leafturn.papers.sheet_numbers import KeptSheet, NotOnSheet, kept_sheets, number_for, sheet_note, ticked

ON = dt.date(2027, 4, 19)  # week 16 of 2027 by ISO 8601, reckoned by Python's isocalendar
SHEET = KeptSheet(number="16-B", on=ON, jobs=tuple(f"j{n}" for n in range(1, 10)))


def written(*sheets: tuple[dt.date, tuple[str, ...]]) -> tuple[KeptSheet, ...]:
    """Sheets as the journal would hold them after they were made one after the other."""
    kept: list[Entry] = []
    for on, jobs in sheets:
        kept.append(sheet_note(number_for(kept_sheets(kept), jobs, on), jobs, on))
    return kept_sheets(kept)


def test_a_changed_sheet_of_a_week_gets_the_next_letter() -> None:
    found = written((ON, ("a", "b")), (ON, ("a", "b")), (ON, ("b",)), (ON, ("a", "b")))
    assert [s.number for s in found] == ["16-A", "16-A", "16-B", "16-C"]


def test_each_week_and_each_year_begins_anew() -> None:
    later, next_year = ON + dt.timedelta(weeks=1), dt.date(2028, 4, 17)
    assert [s.number for s in written((ON, ("a",)), (later, ("a",)), (next_year, ("a",)))] == [
        "16-A", "17-A", "16-A",
    ]  # fmt: skip


def test_the_days_round_new_year_belong_to_their_week() -> None:
    # 1 January 2027 is a Friday, so it belongs to week 53 of 2026 (ISO 8601).
    assert number_for((), ("a",), dt.date(2027, 1, 1)) == "53-A"
    assert [s.number for s in written((dt.date(2026, 12, 30), ("a",)), (dt.date(2027, 1, 1), ("b",)))] == [
        "53-A", "53-B",
    ]  # fmt: skip


def test_letters_go_on_after_z() -> None:
    many = written(*((ON, (f"job {n}",)) for n in range(28)))
    assert [s.number for s in many[-3:]] == ["16-Z", "16-AA", "16-AB"]


@pytest.mark.parametrize("typed", ["3 5 8", "3, 5 and 8", " 3  5 8 3 ", "16-B 3 5 8", "16b 3 5 8"])
def test_lines_as_people_type_them(typed: str) -> None:
    assert ticked(typed, [SHEET], ON) == (SHEET, (3, 5, 8))


def test_a_line_that_is_not_there_ticks_nothing() -> None:
    with pytest.raises(NotOnSheet, match=r"^no line 99 on sheet 16-B; lines are 1 to 9$"):
        ticked("3 99", [SHEET], ON)


@pytest.mark.parametrize(
    ("typed", "said"),
    [("", "type the ticked lines"), ("16-B", "type the ticked lines"), ("3 x", "'x' is no line number"),
     ("0", "no line 0"), ("-3", "'-3' is no line number"), ("17-A 3", "there is no sheet 17-A"),
     ("3.5", "is no line number"), ("9" * 5000, "no line 999999"), ("٣", "is no line number")],
)  # fmt: skip
def test_what_cannot_be_ticked_is_said(typed: str, said: str) -> None:
    with pytest.raises(NotOnSheet, match=said):
        ticked(typed, [SHEET], ON)


def test_a_sheet_is_entered_up_to_ten_days_later() -> None:
    (sheet,) = written((ON, ("a", "b")))
    assert ticked("2", [sheet], ON + dt.timedelta(days=10)) == (sheet, (2,))
    with pytest.raises(NotOnSheet, match=r"16-A is of 19 Apr, 11 days ago.*go to its day 2027-04-19"):
        ticked("2", [sheet], ON + dt.timedelta(days=11))


def test_a_sheet_of_the_week_before_is_entered_by_its_number() -> None:
    older, newer = written((ON, ("a", "b")), (ON + dt.timedelta(weeks=1), ("c", "d")))
    assert ticked("16-A 1", [older, newer], newer.on) == (older, (1,))
    assert ticked("1", [older, newer], newer.on) == (newer, (1,))


def test_a_number_that_comes_again_each_year_is_that_of_the_last_year() -> None:
    first, second = written((ON, ("a",)), (dt.date(2028, 4, 17), ("b",)))
    assert first.number == second.number
    assert ticked("16-A 1", [first, second], second.on)[0] == second
    with pytest.raises(NotOnSheet, match="364 days ago"):
        ticked("16-A 1", [first], second.on)


def test_an_older_sheet_of_the_same_week_can_be_entered_by_its_number() -> None:
    first, second = written((ON, ("a", "b")), (ON, ("b",)))
    assert ticked("16-A 2", [first, second], ON) == (first, (2,))
    assert ticked("1", [first, second], ON) == (second, (1,))


@settings(max_examples=60, deadline=None)
@given(typed=st.text(max_size=30))
def test_anything_typed_is_understood_or_refused_in_one_sentence(typed: str) -> None:
    said, lines = "", ()
    try:
        _, lines = ticked(typed, [SHEET], ON)
    except NotOnSheet as why:
        said = str(why)
    assert bool(said) != bool(lines)
    assert all(1 <= line <= 9 for line in lines)


def test_that_a_sheet_was_written_is_not_what_u_takes_back() -> None:
    bloom = BloomNote(id="2027-04-19.1", on=ON, plant="pear", stage="first open")
    note = SheetNote(id="2027-04-19.2", on=ON, sheet="16-A", tasks=("a",))
    assert takeable([bloom, note]) == (bloom,)
