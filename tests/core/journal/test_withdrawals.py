"""Taking back, and what the Book says of it."""

from __future__ import annotations

import datetime as dt

from hypothesis import given, settings
from hypothesis import strategies as st

from leafturn.journal.book import book_lines
from leafturn.journal.entries import KINDS, BloomNote, Entry, Withdrawal
from leafturn.journal.withdrawals import (
    not_withdrawn,
    takeable,
    withdrawals,
)

DAY = dt.date(2027, 4, 19)


def day(text: str) -> dt.date:
    return dt.date.fromisoformat(text)


def note(number: int, what: str = "note", **fields: object) -> Entry:
    return KINDS[what](**{"id": f"2027-04-19.{number}", "on": DAY, **fields})  # type: ignore[arg-type]


def back(number: int, of: int) -> Entry:
    return note(number, "withdraw", entry=f"2027-04-19.{of}")


def numbers(entries: tuple[Entry, ...]) -> list[int]:
    return [int(entry.id.rpartition(".")[2]) for entry in entries]


# ---- taking back: an algebra -------------------------------------------------------------------------------


def stands_by_definition(entry: Entry, entries: list[Entry], path: tuple[str, ...] = ()) -> bool | None:
    """The rule said straight out: it stands unless something that stands takes it back. None in a ring."""
    if entry.id in path:
        return None
    answers = [
        stands_by_definition(other, entries, (*path, entry.id))
        for other in entries
        if other.what == "withdraw" and other.entry == entry.id
    ]
    if None in answers and entry.what == "withdraw" and _in_ring(entry, entries):
        return None
    return True not in answers


def _in_ring(entry: Entry, entries: list[Entry]) -> bool:
    by_id = {other.id: other for other in entries}
    seen, at = set(), by_id.get(entry.entry or "")
    while at is not None and at.what == "withdraw" and at.id not in seen:
        if at.id == entry.id:
            return True
        seen.add(at.id)
        at = by_id.get(at.entry or "")
    return False


@st.composite
def histories(draw: st.DrawFn, forward: bool) -> list[Entry]:
    """Notes and withdrawals; with `forward` these may also name what comes later, or themselves."""
    count = draw(st.integers(1, 12))
    entries = []
    for number in range(1, count + 1):
        targets = range(1, count + 1) if forward else range(1, number)
        if targets and draw(st.booleans()):
            entries.append(back(number, draw(st.sampled_from(targets))))
        else:
            entries.append(note(number))
    return entries


@settings(max_examples=60, deadline=None)
@given(histories(forward=True))
def test_what_stands_is_what_the_rule_says_even_with_rings(entries: list[Entry]) -> None:
    expected = [e for e in entries if e.what != "withdraw" and stands_by_definition(e, entries) is not False]
    assert list(not_withdrawn(entries)) == expected
    assert not_withdrawn(not_withdrawn(entries)) == not_withdrawn(entries)


@settings(max_examples=60, deadline=None)
@given(histories(forward=False), st.data())
def test_taking_back_twice_restores(entries: list[Entry], data: st.DataObject) -> None:
    before = not_withdrawn(entries)
    target = data.draw(st.integers(1, len(entries)))
    once = [*entries, back(len(entries) + 1, target)]
    twice = [*once, back(len(entries) + 2, len(entries) + 1)]
    assert not_withdrawn(twice) == before
    if entries[target - 1] in before:
        assert not_withdrawn(once) == tuple(entry for entry in before if entry != entries[target - 1])


@settings(max_examples=60, deadline=None)
@given(histories(forward=False))
def test_pressing_take_back_offers_every_standing_note_once_newest_first(entries: list[Entry]) -> None:
    expected = list(not_withdrawn(entries))[::-1]
    offered = []
    while offers := takeable(entries):
        offer = offers[0]
        offered.append(offer)
        entries = [*entries, back(len(entries) + 1, numbers((offer,))[0])]
    assert offered == expected


def test_a_deep_tower_of_withdrawals() -> None:
    tower = [note(1), *(back(number, number - 1) for number in range(2, 5_002))]
    assert len(not_withdrawn(tower)) == 1  # 5,000 withdrawals: the even ones cancel
    assert len(not_withdrawn(tower[:-1])) == 0


def test_a_ring_and_what_leans_on_it() -> None:
    """1 takes back 2 and 2 takes back 1; neither counts, nor disturbs 3, which takes back 4."""
    entries = [back(1, 2), back(2, 1), back(3, 4), note(4), note(5), back(6, 6)]
    assert numbers(not_withdrawn(entries)) == [5]
    assert withdrawals(entries) == {"2027-04-19.4": entries[2]}


def test_a_withdrawal_may_stand_before_the_note_in_the_files() -> None:
    assert not_withdrawn([back(2, 1), note(1)]) == ()


def test_story_the_note_before_is_offered_next() -> None:
    entries = [note(1, "look"), note(2, "bloom", plant="comice-2", stage="first open")]
    assert numbers(takeable(entries)) == [2, 1]
    entries.append(back(3, 2))
    assert takeable(entries)[0].id == "2027-04-19.1"
    assert takeable([]) == ()


# ---- the Book ----------------------------------------------------------------------------------------------


def test_the_book_says_what_was_taken_back_and_marks_it() -> None:
    day = dt.date(2027, 4, 11)
    bloom = BloomNote(id="2027-04-11.1", on=day, plant="comice-2", stage="first open")
    back = Withdrawal(id="2027-04-11.2", on=day, entry="2027-04-11.1", text="wrong tree")
    lines = book_lines((bloom, back), day)
    assert [line.words for line in lines] == [
        "taken back: comice-2: first open of 11 Apr, wrong tree",
        "comice-2: first open",
    ]
    assert [line.taken_back for line in lines] == [False, True]
    assert book_lines((bloom, back), dt.date(2027, 4, 10)) == ()
