"""The reasons laid over the page."""

from __future__ import annotations

import datetime as dt

from tests.samples.places import DEMO

from leafturn.almanac import open_almanac
from leafturn_tui.pages.reasons import why_sheet


def test_a_hold_is_said_once() -> None:
    almanac = open_almanac(DEMO, dt.date(2027, 4, 19))
    job = next(job for job in almanac.jobs() if job.state == "held")
    said = why_sheet(almanac, job)
    assert sum(line.startswith("Held") for line in said.paragraphs) == 1
