"""Notes sorted once answer as if each question looked at every note; and each note is looked at once."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.samples.journal import TODAY, any_entry

from leafturn.journal.entries import KINDS, Done, Entry, OfJobs, PutOff
from leafturn.journal.job_id import JobId
from leafturn.journal.noted import Notes, noted

NAMES = ["kiwi", "rose", "bay-2", "winter-cut", "turn", "empty"]
job_ids = st.lists(st.sampled_from(NAMES), min_size=1, max_size=2).map(":".join)
of_jobs = st.builds(
    Done,
    on=st.just(TODAY),
    tasks=st.lists(job_ids, max_size=3).map(tuple),
    heap=st.none() | st.sampled_from(NAMES),
)
notes = st.lists(any_entry() | of_jobs, max_size=12)


def done_one_by_one(entries: list[Entry], verbs: list[str]) -> Iterator[tuple[str, Entry]]:
    for entry in entries:
        for job in entry.jobs if isinstance(entry, Done) else ():
            subject = next((given for verb in verbs if (given := job.done_to(verb)) is not None), None)
            if subject is not None:
                yield subject, entry


@pytest.mark.long
@settings(max_examples=60, deadline=None)
@given(notes, st.lists(st.sampled_from(NAMES), max_size=3, unique=True))
def test_they_answer_as_a_look_at_every_note_would(entries: list[Entry], verbs: list[str]) -> None:
    sorted_once = Notes(entries)
    for kind in (*KINDS.values(), OfJobs, Entry):
        of_kind = [entry for entry in entries if isinstance(entry, kind)]
        assert list(sorted_once.of(kind)) == of_kind
        for plant in {entry.plant for entry in entries if entry.plant}:
            assert sorted_once.of_plant(kind, plant) == [e for e in of_kind if e.plant == plant]
    assert list(sorted_once.jobs_done(verbs)) == list(done_one_by_one(entries, verbs))
    for heap in NAMES:
        expected = [e for e in entries if e.heap == heap or any(heap in job.names for job in e.jobs)]
        assert sorted_once.about(heap) == expected
    pairs = [(job, e) for e in entries if isinstance(e, Done | PutOff) for job in e.jobs]
    assert list(sorted_once.jobs_of(Done, PutOff)) == pairs


def test_each_job_is_taken_apart_once_however_often_it_is_asked(monkeypatch: pytest.MonkeyPatch) -> None:
    taken_apart: list[str] = []
    read = JobId.read

    def counting(text: str) -> JobId:
        taken_apart.append(text)
        return read(text)

    monkeypatch.setattr(JobId, "read", counting)
    entries = Notes(Done(on=TODAY, task=f"tree-{n}:winter-cut:2027") for n in range(50))
    for verb in ("winter-cut", "turn", "summer-cut"):
        assert len(list(noted(entries).jobs_done([verb]))) == (50 if verb == "winter-cut" else 0)
    assert entries.about("tree-7") == [entries[7]]
    assert len(taken_apart) == 50
