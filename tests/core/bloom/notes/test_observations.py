"""Of many notes only those that count are set against the warmth of their spring."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn.bloom.notes.observations import MOST_NOTES, Observations
from leafturn.journal.entries import BloomNote

PEAR = garden_text(plant("pear", "pear", year=1990, at=[0, 0]))
SPRINGS = range(1997, 2027)


def note(year: int, day: int) -> BloomNote:
    on = dt.date(year, 4, 14) + dt.timedelta(days=day)
    return BloomNote(on=on, plant="pear", stage="first open")


def test_warmth_is_looked_up_for_the_notes_that_count_alone(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    empty = almanac_of(tmp_path, PEAR, "2027-03-01")
    notes = [note(year, year % 7 + again) for year in SPRINGS for again in range(20)]
    noted, _ = empty.note_many(notes, dt.date(2027, 3, 1))
    looked_up: list[object] = []
    level = Observations._level
    monkeypatch.setattr(
        Observations, "_level", lambda self, *asked: (looked_up.append(asked), level(self, *asked))[1]
    )
    assert noted.forecasts["pear"] is not None
    assert 0 < len(looked_up) <= MOST_NOTES
    counted = noted.learnt().notes
    assert counted == MOST_NOTES
