"""Stories of a calendar on a phone, read by vobject, which did not write it."""

from __future__ import annotations

import datetime as dt
import shutil
from pathlib import Path

import pytest
import vobject
from tests.in_process import run
from tests.samples.places import DEMO

from leafturn.almanac import open_almanac

MONDAY = dt.date(2027, 4, 19)
SATURDAY = 5


@pytest.fixture
def written(tmp_path: Path) -> Path:
    """A copy of the demo to note in."""
    return Path(shutil.copytree(DEMO, tmp_path / "meadow", ignore=shutil.ignore_patterns("*.py")))


def feed(garden: Path, on: dt.date = MONDAY) -> dict[str, bytes]:
    assert run("feed", str(garden), "--on", on.isoformat()).returncode == 0
    return {path.name: path.read_bytes() for path in sorted((garden / "papers").glob("*.ics"))}


def events(data: bytes) -> dict[str, vobject.base.Component]:
    """The events by their ids."""
    return {event.uid.value: event for event in vobject.readOne(data.decode("utf-8")).vevent_list}


def titled(data: bytes, title: str) -> vobject.base.Component:
    """The first event whose title begins so."""
    return next(event for event in events(data).values() if event.summary.value.startswith(title))


def status(event: vobject.base.Component) -> str:
    return str(event.status.value) if hasattr(event, "status") else ""


def test_every_file_is_read_and_says_for_each_job_what_when_why_and_for_whom(asked: Path) -> None:
    for name, data in feed(asked).items():
        found = events(data)
        assert found, name
        for event in found.values():
            assert event.summary.value
            assert event.dtend.value == event.dtstart.value + dt.timedelta(days=1)
            assert "Basis: " in event.description.value


def test_helpers_who_come_on_saturdays_have_their_jobs_on_saturdays(asked: Path) -> None:
    for event in events(feed(asked)["jobs-saturday-pair.ics"]).values():
        assert event.dtstart.value.weekday() == SATURDAY, event.summary.value


def test_nothing_changed_is_the_same_bytes(asked: Path) -> None:
    first = feed(asked)
    assert feed(asked) == first
    (asked / "papers" / "bloom.ics").unlink()
    assert feed(asked)["bloom.ics"] == first["bloom.ics"]


@pytest.mark.long
def test_what_is_done_is_called_off_and_what_is_taken_back_stands_again(written: Path) -> None:
    pair = "jobs-saturday-pair.ics"
    before = titled(feed(written)[pair], "turn bay-2")
    assert run("done", str(written), "bay-2:turn", "--on", MONDAY.isoformat()).returncode == 0
    off = events(feed(written)[pair])[before.uid.value]
    assert status(off) == "CANCELLED"
    assert int(off.sequence.value) > int(before.sequence.value)
    almanac = open_almanac(str(written), MONDAY)
    almanac.take_back(almanac.book()[0].entry.id, MONDAY)
    again = events(feed(written)[pair])[before.uid.value]
    assert status(again) == status(before) == "CONFIRMED"
    assert int(again.sequence.value) > int(off.sequence.value)


@pytest.mark.long
def test_what_moved_keeps_its_id_and_counts_on(written: Path) -> None:
    expected = titled(feed(written)["bloom.ics"], "old-plum may")
    noted = run("note", str(written), "bloom", "old-plum", "--stage", "first open", "--on", "2027-04-20")
    assert noted.returncode == 0
    seen = events(feed(written, dt.date(2027, 4, 21))["bloom.ics"])[expected.uid.value]
    assert seen.summary.value == "old-plum opened"
    assert seen.dtstart.value == dt.date(2027, 4, 20)
    assert int(seen.sequence.value) > int(expected.sequence.value)
