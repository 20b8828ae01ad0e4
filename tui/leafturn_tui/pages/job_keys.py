"""What can be done to a job: done and not done, let go, put off."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from typing import TYPE_CHECKING

from leafturn.journal.entries import Entry
from leafturn.tasks.model import Job
from leafturn_tui import notes, words
from leafturn_tui.pages.base import Key
from leafturn_tui.panels.typing import Typing

if TYPE_CHECKING:
    from leafturn.almanac import Almanac
    from leafturn_tui.desk import Desk

OPEN_AGAIN = ("not yet", "soon", "due")
CLOSED = {"done": ("done",), "let go": ("let-go",)}


def job_keys(which: Callable[[Desk], Job | None]) -> tuple[Key, ...]:
    """The keys that act on the job that `which` names."""

    def asked(act: Callable[[Desk, Job], None]) -> Callable[[Desk], None]:
        def on_job(desk: Desk) -> None:
            job = which(desk)
            if job is None:
                desk.say("There is no job under the bar.")
            else:
                act(desk, job)

        return on_job

    return (
        Key("space", "done", "a job done, or not done after all", asked(turn_done)),
        Key("l", "let go", "let the job go this year", asked(_let_go)),
        Key("d", "put off", "put the job off until a day", asked(_put_off)),
    )


def closing_note(almanac: Almanac, job: Job) -> Entry | None:
    """The latest standing note that made a job done or let go."""
    for line in almanac.book():
        entry = line.entry
        if line.taken_back or entry.what not in CLOSED.get(job.state, ()):
            continue
        if any(closed == job.id or _in_short(closed, job, entry.on) for closed in entry.closes):
            return entry
    return None


def _in_short(closed: str, job: Job, on: dt.date) -> bool:
    """Whether an id written without its year ("turn:bay-2") means this job."""
    verb = job.verb.replace(" ", "-")
    return closed in (f"{job.plant}:{verb}", f"{verb}:{job.plant}") and on == job.closed_on


def turn_done(desk: Desk, job: Job) -> None:
    """Note a job as done; a job already done or let go has that note taken back."""
    if job.state not in CLOSED:
        desk.keep(done(desk.almanac, job), lambda almanac: next_time(almanac, job))
        return
    entry = closing_note(desk.almanac, job)
    if entry is None:
        desk.say("It is done by another note than its own; the Book (9) has it, and u there takes it back.")
    else:
        desk.take_back(entry)


def next_time(almanac: Almanac, job: Job) -> str:
    """When the same job is due again this season, as the end of a sentence; empty if it is not."""
    again = [
        j
        for j in almanac.jobs()
        if (j.plant, j.verb) == (job.plant, job.verb) and j.id != job.id and j.state in OPEN_AGAIN
    ]
    return f"; next time {words.likely(again[0].best, almanac.on)}" if again else ""


def done(almanac: Almanac, job: Job, by: str | None = None, minutes: float | None = None) -> Entry:
    """The note that a job is done."""
    return Entry(on=almanac.on, what="done", task=job.id, plant=_plant(almanac, job), by=by, minutes=minutes)


def _plant(almanac: Almanac, job: Job) -> str | None:
    return job.plant if almanac.garden.plant(job.plant) else None


def _let_go(desk: Desk, job: Job) -> None:
    def take(text: str) -> None:
        if not text.strip():
            raise notes.NotUnderstood("one word of reason, please; Esc leaves the job as it is")
        plant = _plant(desk.almanac, job)
        desk.keep(Entry(on=desk.almanac.on, what="let-go", task=job.id, plant=plant, text=text.strip()))

    desk.ask(Typing(f"Let go this year: {job.title}. Why, in a word?", take, enter="let it go"))


def _put_off(desk: Desk, job: Job) -> None:
    on = desk.almanac.on

    def until(text: str) -> dt.date:
        day = notes.date(text or "+7", on)
        if day <= on:
            raise notes.NotUnderstood(f"{words.long_day(day)} is not after {words.long_day(on)}")
        return day

    def take(text: str) -> None:
        plant = _plant(desk.almanac, job)
        desk.keep(Entry(on=on, what="put-off", task=job.id, plant=plant, until=until(text)))

    def preview(text: str) -> str:
        day = until(text)
        late = job.close.likely is not None and day > job.close.likely
        closes = f"; its window closes {words.day(job.close.likely, on)}" if late else ""
        return f"until {words.long_day(day)}{closes}"

    desk.ask(
        Typing(f"Put off: {job.title}. Until when?", take, preview=preview, enter="put it off", text="+7")
    )
