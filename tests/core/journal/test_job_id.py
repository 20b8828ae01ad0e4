"""Ids of jobs: written, read back, and left short by a person."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from leafturn.journal.job_id import JobId, subject_id, verb_id

NAMES = st.from_regex(r"[a-z][a-z0-9-]{0,11}", fullmatch=True)


@given(NAMES, NAMES, st.none() | st.integers(1900, 2200), st.integers(1, 12))
def test_what_is_written_is_read_back(subject: str, verb: str, year: int | None, number: int) -> None:
    job = JobId(subject, verb, year, number if year is not None else 1)
    assert JobId.read(str(job)) == job


def test_a_short_id_and_one_the_other_way_round_mean_the_same_job() -> None:
    for text in ("bay-2:turn", "turn:bay-2", " turn : bay-2 : 2027 "):
        job = JobId.read(text)
        assert job.is_of("bay-2", "turn")
        assert (job.done_to("turn"), job.done_to("water")) == ("bay-2", None)
    assert JobId.read("bay-2:turn").year is None
    assert (JobId.read("a:b:2027:3").year, JobId.read("a:b:2027:3").number) == (2027, 3)


def test_words_of_several_letters_stand_in_an_id_with_hyphens() -> None:
    assert JobId("comice-1", verb_id("winter cut")).words() == "winter cut comice-1"
    assert subject_id("old  pear guild") == "old-pear-guild"


def test_a_job_of_the_whole_garden_is_told_by_its_verb_alone() -> None:
    assert JobId.read("garden:look-for-blight:2027").words(frozenset({"pear"})) == "look for blight"
    assert JobId.read("garden:mulch").words(frozenset({"garden"})) == "mulch garden"
