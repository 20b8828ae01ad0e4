"""The reasons laid over the page."""

from __future__ import annotations

from leafturn.almanac import Almanac
from leafturn_tui.pages.reasons import why_sheet


def test_a_hold_is_said_once(weir_meadow: Almanac) -> None:
    job = next(job for job in weir_meadow.jobs() if job.state == "held")
    said = why_sheet(weir_meadow, job)
    assert sum(line.startswith("Held") for line in said.paragraphs) == 1
