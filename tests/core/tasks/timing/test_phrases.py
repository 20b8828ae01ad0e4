"""Moments in a steward's words."""

import contextlib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from leafturn.tasks.timing.phrases import ANCHORS, Moment, NoMoment, read_moment


@pytest.mark.parametrize(
    ("phrase", "moment"),
    [
        ("12-01", Moment("date", month_day="12-01")),
        ("first open", Moment("first open")),
        ("3 w after bloom end", Moment("bloom end", shift=21)),
        ("10 days before Last Frost", Moment("last frost", shift=-10)),
        ("after last frost", Moment("last frost")),
        ("after frost", Moment("last frost")),
        ("After the last frost", Moment("last frost")),
        ("after bloom of early-plum", Moment("bloom end", plant="early-plum")),
        ("once early-plum fades", Moment("bloom end", plant="early-plum")),
        ("2 d after 3 d after done", Moment("done", shift=5)),
        ("heat 150 above 5", Moment("heat", need=150.0, base=5.0)),
        ("heat 90", Moment("heat", need=90.0, base=5.0)),
        ("2027-05-02", Moment("day", month_day="2027-05-02")),
        ("first open of early-plum", Moment("first open", plant="early-plum")),
        ("Petal Fall of Early-Plum", Moment("bloom end", plant="Early-Plum")),
        ("when early-plum fades", Moment("bloom end", plant="early-plum")),
        ("2 w after when pear-1 is in full bloom", Moment("full bloom", shift=14, plant="pear-1")),
        ("1 w before ripe of pear-1", Moment("ripe", shift=-7, plant="pear-1")),
        ("petal fall", Moment("bloom end")),
        ("  4  weeks   after leaf out ", Moment("leaf out", shift=28)),
    ],
)
def test_phrases_are_understood(phrase: str, moment: Moment) -> None:
    assert read_moment(phrase) == moment


@pytest.mark.parametrize("phrase", ["", "soon", "13-01", "02-30", "2027-02-30", "3 w bloom end", "heat warm"])
def test_what_is_no_moment_is_said_in_words(phrase: str) -> None:
    with pytest.raises(NoMoment, match="is no moment"):
        read_moment(phrase)


def test_a_slip_is_answered_with_the_nearest_anchor() -> None:
    with pytest.raises(NoMoment, match="Did you mean last frost"):
        read_moment("last frots")


@given(st.sampled_from(ANCHORS), st.integers(0, 400), st.sampled_from(["before", "after"]))
@settings(max_examples=50)
def test_a_shift_before_undoes_the_same_shift_after(anchor: str, days: int, way: str) -> None:
    other = {"before": "after", "after": "before"}[way]
    assert read_moment(f"{days} d {way} {days} d {other} {anchor}").shift == 0


@pytest.mark.long
@given(st.text(max_size=40))
@settings(max_examples=60)
def test_any_text_is_a_moment_or_said_not_to_be(text: str) -> None:
    with contextlib.suppress(NoMoment):
        assert isinstance(read_moment(text), Moment)
