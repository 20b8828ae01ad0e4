"""One job's own page, and the reasons for it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from leafturn.tasks.demands import worth_saying
from leafturn.tasks.model import Job
from leafturn_tui.charts.night_scale import night_rows
from leafturn_tui.host import Key
from leafturn_tui.pages.base import WHOLE, Page
from leafturn_tui.pages.job_keys import job_keys
from leafturn_tui.pages.reasons import why_sheet
from leafturn_tui.panels.sentences import Sheet
from leafturn_tui.text import phrases, states
from leafturn_tui.text.layout import BLANK, Row, heading, paragraph

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace


class OneJob(Page):
    """A job: its window, its reasons, who and where, cautions."""

    def __init__(self, job_id: str) -> None:
        self.job_id = job_id

    @property
    def list_width(self) -> int:
        """No story stands beside it: what `w` tells is told here."""
        return WHOLE

    def keys(self) -> tuple[Key, ...]:
        """Done, let go, put off, to whom."""
        return job_keys(lambda desk: [job] if (job := desk.almanac.job(self.job_id)) else [])

    def gone(self, almanac: AlmanacFace) -> bool:
        """Whether the job is no longer in the season."""
        return almanac.job(self.job_id) is None

    def heading(self, almanac: AlmanacFace) -> str:
        """The job and its state."""
        job = almanac.job(self.job_id)
        return f"{job.title}: {states.words(job, almanac.on)}" if job else ""

    def rows(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """Everything known of it, line by line."""
        job = almanac.job(self.job_id)
        if job is None:
            return []
        night = job.reasons.tonight
        rows = night_rows(night, width) if night and states.is_tonight(job, almanac.on) else []
        for title, lines in job_sections(almanac, job):
            if not lines:
                continue
            rows += [BLANK] if rows else []
            rows.append(heading(title))
            for n, line in enumerate(lines):
                rows += [
                    Row(r.pieces, f"{title} {n} {r.key}", plant=job.plant)
                    for r in paragraph(line, width, key="line")
                ]
        return rows

    def why(self, almanac: AlmanacFace, row: Row) -> Sheet | None:
        """The chain of reasons."""
        job = almanac.job(self.job_id)
        return why_sheet(almanac, job) if job else None


def job_sections(almanac: AlmanacFace, job: Job) -> list[tuple[str, list[str]]]:
    """A job in groups of sentences: title and lines."""
    on = almanac.on
    window = [
        f"opens {phrases.likely(job.open, on)}",
        f"best {phrases.likely(job.best, on)}",
        f"closes {phrases.likely(job.close, on)}",
    ]
    if job.reasons.next_open:
        window.append(f"next opens {phrases.day(job.reasons.next_open, on)}")
    if job.hold:
        until = f"until {phrases.day(job.hold.until, on)}" if job.hold.until else "with no end known"
        window.append(f"held {until}: {job.hold.reason}")
    hands = [part for part in (job.where, phrases.minutes(job.minutes), _whose(almanac, job)) if part]
    demands = worth_saying(job.demands)
    wants = [f"wants: {', '.join(demands)}"] if demands else []
    places = [", ".join(filter(None, (m.name, m.where))) for m in job.members] if len(job.members) > 1 else []
    return [
        ("why", list(job.why)),
        ("when", window),
        ("where and who", [", ".join(hands), *places, *wants]),
        ("take care", list(job.cautions)),
    ]


def _whose(almanac: AlmanacFace, job: Job) -> str:
    """Who does it; only the round gives out the jobs, so that of one not on it nothing is said."""
    week = almanac.round()
    given = next((j for j in (*week.jobs, *week.waiting) if j.id == job.id), None)
    return phrases.whose(given, almanac.on, week.beyond_reach) if given else ""
