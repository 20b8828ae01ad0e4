"""Calendar files as two libraries find them: icalendar, which wrote them, and vobject, which did not."""

from __future__ import annotations

import datetime as dt

import icalendar
import pytest
import vobject
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from tests.samples.papers import HELPERS, ON, job, likely

from leafturn.bloom.model import SeasonEvent
from leafturn.garden.model import Helper
from leafturn.papers.calendar import Event, as_bytes, following, read_events
from leafturn.papers.feeds import bloom_feed, job_feeds
from leafturn_tui.safe_text import safe_text

EVENT = Event(
    uid="a", on=ON, title="turn bay-2", description="Why: it is time.\nToads first.", place="by the bench"
)

# RFC 5545, 3.3.11 allows any character but controls in TEXT; what else is typed must become such.
TEXTS = st.one_of(
    st.text(max_size=120),
    st.sampled_from(
        ["a\rb", "a\r\nb", "semi;colon, comma\\n", "\x00\x1b[31m", "梨" * 60, "BEGIN:VEVENT", "\udcff"]
    ),
)


def read(data: bytes) -> list[icalendar.cal.Event]:
    return list(icalendar.Calendar.from_ical(data.decode("utf-8")).walk("VEVENT"))


def read_by_another(data: bytes) -> list[vobject.base.Component]:
    """The same by a library that had no part in the writing."""
    return list(vobject.readOne(data.decode("utf-8")).vevent_list)


def whole(*events: Event) -> bytes:
    return as_bytes("Weir Meadow: steward", events, ON)


def test_an_independent_reader_finds_an_all_day_event_with_an_exclusive_end() -> None:
    (found,) = read(whole(EVENT))
    assert found["UID"] == "a"
    assert found.decoded("DTSTART") == ON
    assert found["DTSTART"].params["VALUE"] == "DATE"
    # RFC 5545, 3.6.1: DTEND is the non-inclusive end.
    assert found.decoded("DTEND") == ON + dt.timedelta(days=1)
    assert found["SEQUENCE"] == 0
    assert str(found["SUMMARY"]) == "turn bay-2"
    assert str(found["DESCRIPTION"]) == "Why: it is time.\nToads first."
    assert str(found["LOCATION"]) == "by the bench"
    assert not list(found.walk("VALARM"))
    (again,) = read_by_another(whole(EVENT))
    assert again.uid.value == "a"
    assert (again.dtstart.value, again.dtend.value) == (ON, ON + dt.timedelta(days=1))
    assert (again.sequence.value, again.status.value, again.transp.value) == ("0", "CONFIRMED", "TRANSPARENT")
    assert again.summary.value == "turn bay-2"
    assert again.description.value == "Why: it is time.\nToads first."
    assert again.location.value == "by the bench"
    assert "valarm" not in again.contents


def test_the_same_events_on_the_same_day_are_the_same_bytes() -> None:
    events = [EVENT, replace(EVENT, uid="b", sequence=2, cancelled=True)]
    assert whole(*events) == whole(*events)
    assert whole(*following([EVENT], read_events(whole(EVENT)), ON)) == whole(EVENT)


@settings(max_examples=60, deadline=None)
@given(title=TEXTS, description=TEXTS, place=TEXTS, name=TEXTS)
def test_any_text_is_carried_and_breaks_nothing(title: str, description: str, place: str, name: str) -> None:
    data = as_bytes(
        name, [replace(EVENT, title=title, description=description, place=place), replace(EVENT, uid="b")], ON
    )
    lines = data.split(b"\r\n")
    assert data.endswith(b"END:VCALENDAR\r\n")
    assert b"\r" not in data.replace(b"\r\n", b"")
    assert b"\n" not in data.replace(b"\r\n", b"")
    assert all(len(line) <= 75 for line in lines)  # RFC 5545, 3.1
    assert all(line.decode("utf-8") is not None for line in lines)  # no letter is parted
    first, second = read(data)
    assert (first["UID"], second["UID"]) == ("a", "b")
    assert [e.uid.value for e in read_by_another(data)] == ["a", "b"]
    clean = safe_text(title).replace("\\N", "\\n")  # to the library, a backslash and an N are a line end
    safe = as_bytes("x", [replace(EVENT, title=clean)], ON)
    assert str(read(safe)[0]["SUMMARY"]) == clean
    assert read_by_another(safe)[0].summary.value == clean
    assert read_events(safe)["a"].title == clean


@pytest.mark.parametrize("length", [64, 65, 66, 139, 140, 300])
def test_folding_is_undone_by_taking_out_the_break_and_the_blank(length: int) -> None:
    title = "x" * length
    data = whole(replace(EVENT, title=title))
    assert f"\r\nSUMMARY:{title}\r\n".encode() in data.replace(b"\r\n ", b"")
    assert all(len(piece) <= 75 for piece in data.split(b"\r\n"))


def test_what_is_read_back_is_what_was_written() -> None:
    events = [EVENT, replace(EVENT, uid="b,;\\", on=dt.date(2028, 2, 29), sequence=7, cancelled=True)]
    found = read_events(whole(*events))
    assert [replace(e, description="", place="") for e in events] == list(found.values())


@settings(max_examples=60, deadline=None)
@given(data=st.binary(max_size=200))
def test_a_file_that_is_not_ours_is_read_as_far_as_it_goes(data: bytes) -> None:
    broken = whole(EVENT)[: len(data)] + data
    assert set(read_events(broken)) <= {"a"} or b"UID" in data


def test_an_event_that_cannot_be_read_is_left_out_and_the_others_are_not() -> None:
    data = whole(EVENT, replace(EVENT, uid="b"), replace(EVENT, uid="c"))
    assert set(read_events(data.replace(b"UID:b\r\n", b""))) == {"a", "c"}
    assert set(read_events(data.replace(b"UID:b\r\n", b"UID:b\r\nUID:d\r\nDTSTART:20270101\r\n"))) == {
        "a",
        "c",
    }
    day = b"DTSTART;VALUE=DATE:20270419"
    first, _, rest = data.partition(day)
    assert set(read_events(first + b"DTSTART;VALUE=DATE:20271399" + rest)) == {"b", "c"}
    assert set(read_events(first + b"DTSTART:20270419T070000Z" + rest)) == {"b", "c"}
    assert set(read_events(data[: data.rindex(b"END:VEVENT")])) == {"a", "b"}


# ---- following an earlier file -------------------------------------------------------------------


def test_a_moved_event_counts_on_and_the_others_do_not() -> None:
    other = replace(EVENT, uid="b")
    first = read_events(whole(EVENT, other))
    second = following([replace(EVENT, on=ON + dt.timedelta(days=3)), other], first, ON)
    assert {e.uid: e.sequence for e in second} == {"a": 1, "b": 0}
    third = following([replace(EVENT, on=ON + dt.timedelta(days=3)), other], read_events(whole(*second)), ON)
    assert third == second
    again = following([EVENT, other], read_events(whole(*third)), ON)
    assert {e.uid: e.sequence for e in again} == {"a": 2, "b": 0}


def test_what_is_no_more_is_called_off_for_a_while() -> None:
    first = read_events(whole(EVENT))
    (gone,) = following([], first, ON)
    assert (gone.cancelled, gone.sequence, gone.title) == (True, 1, "turn bay-2")
    assert read(whole(gone))[0]["STATUS"] == "CANCELLED"
    assert following([], read_events(whole(gone)), ON) == [gone]
    assert following([], read_events(whole(gone)), ON + dt.timedelta(days=61)) == []
    (back,) = following([EVENT], read_events(whole(gone)), ON)
    assert (back.cancelled, back.sequence) == (False, 2)


def test_an_event_that_goes_to_another_file_counts_beyond_its_calling_off() -> None:
    theirs = read_events(whole(replace(EVENT, sequence=4)))
    (off,) = following([], theirs, ON)
    (ours,) = following([EVENT], {}, ON, [theirs])
    assert off.sequence == 5
    assert ours.sequence > off.sequence


# ---- what stands in the feeds --------------------------------------------------------------------


def test_each_helper_has_a_file_with_their_open_jobs_on_the_best_day() -> None:
    jobs = [
        job("a", helpers=("steward",)),
        job("b", "not yet", helpers=("bench helper",), best=30),
        job("c", "soon", helpers=("steward", "bench helper")),
        job("d", "done", helpers=("steward",)),
        job("e", "passed", helpers=("steward",)),
        job("f", "soon", helpers=(), demands=("licensed",)),
    ]
    steward, bench, other = job_feeds(jobs, HELPERS, "Weir Meadow", ON)
    assert (steward.file, bench.file) == ("jobs-steward", "jobs-bench-helper")
    assert sorted(e.title for e in steward.events) == ["mulch a", "mulch c"]
    assert sorted(e.title for e in bench.events) == ["mulch b", "mulch c"]
    by_title = {e.title: e for e in (*steward.events, *bench.events, *other.events)}
    assert [e.title for e in other.events] == ["mulch f"]
    assert by_title["mulch b"].on == ON + dt.timedelta(days=30)
    assert "best by 19 May" in by_title["mulch b"].description
    assert "ends about 28 Apr, between 25 Apr and 1 May in 8 of 10 years" in by_title["mulch a"].description
    assert "Nobody here can do it: ask for help." in by_title["mulch f"].description


def test_a_job_has_the_same_id_from_day_to_day_and_differs_between_gardens() -> None:
    def uids(garden: str, on: dt.date) -> list[str]:
        return [
            e.uid for f in job_feeds([job("a", helpers=("steward",))], HELPERS, garden, on) for e in f.events
        ]

    assert uids("Weir Meadow", ON) == uids("Weir Meadow", ON + dt.timedelta(days=9))
    assert uids("Weir Meadow", ON) != uids("Mill Bank", ON)


@settings(max_examples=40, deadline=None)
@given(called=st.lists(TEXTS, min_size=1, max_size=6, unique=True))
def test_any_helpers_have_files_of_their_own(called: list[str]) -> None:
    found = job_feeds([], [Helper(name=name) for name in called], "x", ON, safe_text)
    names = [f.file for f in found]
    assert len(set(names)) == len(called)
    assert all(n.isascii() and set(n) <= set("abcdefghijklmnopqrstuvwxyz0123456789-") for n in names)
    assert all(len(n) < 60 for n in names)


def test_bloom_stands_on_the_day_seen_or_else_expected() -> None:
    def event(plant: str, what: str, bbch: int, days: int, observed: dt.date | None = None) -> SeasonEvent:
        return SeasonEvent(
            plant=plant, event=what, bbch=bbch, when=likely(days), observed=observed, basis="handbook",
            days_from_normal=None,
        )  # fmt: skip

    seen = ON - dt.timedelta(days=2)
    feed = bloom_feed(
        [event("pear", "first open", 61, 4), event("pear", "full bloom", 65, 9),
         event("pear", "ripe", 87, 150), event("plum", "first open", 61, -3, seen)],
        "Weir Meadow", ON,
    )  # fmt: skip
    assert [(e.title, e.on) for e in feed.events] == [
        ("plum opened", seen), ("pear may open", ON + dt.timedelta(days=4)),
    ]  # fmt: skip
    assert "Full bloom about 28 Apr, between 25 Apr and 1 May in 8 of 10 years." in feed.events[1].description
