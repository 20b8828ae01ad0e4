"""Who did a job and in how many minutes, as people type it."""

import pytest

from leafturn_tui.notes import NotUnderstood
from leafturn_tui.notes.job_notes import who_and_minutes


@pytest.mark.parametrize(
    ("typed", "by", "minutes"),
    [("Ann 35", "Ann", 35.0), ("Ann, 35 min", "Ann", 35.0), ("saturday pair 90", "saturday pair", 90.0),
     ("Ann in 20 minutes", "Ann", 20.0), ("Ann", "Ann", None), ("35", None, 35.0), ("", None, None),
     ("Ann 2 hours", "Ann", 120.0), ("Ann, half an hour", "Ann", 30.0), ("1 h 30", None, 90.0),
     ("in 20 min", None, 20.0), ("Ann one and a half hours", "Ann", 90.0), ("class 4b 35", "class 4b", 35.0),
     ("Ann 35 with Tom", "Ann 35 with Tom", None)],
)  # fmt: skip
def test_name_and_minutes(typed: str, by: str | None, minutes: float | None) -> None:
    assert who_and_minutes(typed) == (by, minutes)


def test_more_minutes_than_a_week_has_are_not_taken() -> None:
    with pytest.raises(NotUnderstood, match="more than a week has"):
        who_and_minutes("Ann 99999")
