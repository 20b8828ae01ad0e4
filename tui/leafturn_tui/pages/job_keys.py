"""What can be done to a job: done and not done, let go, put off, given to someone, its hold lifted."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence
from functools import partial
from typing import TYPE_CHECKING, Protocol

from leafturn.journal.entries import Done, Given, HoldLifted, LetGo, PutOff
from leafturn.tasks.assignments import NOBODY
from leafturn.tasks.demands import LICENSED, NEVER_ALONE, worth_saying
from leafturn.tasks.model import Job
from leafturn.tasks.week.labour import able
from leafturn_tui.host import Key
from leafturn_tui.notes import NotUnderstood, dates
from leafturn_tui.notes.job_notes import CLOSED, about, closing_note, who_and_minutes
from leafturn_tui.panels.choice import Choice, Option
from leafturn_tui.panels.line import Typing
from leafturn_tui.text import phrases

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace
    from leafturn_tui.host import Host

OPEN_AGAIN = ("not yet", "soon", "due")


def job_keys(which: Callable[[Host], Sequence[Job]]) -> tuple[Key, ...]:
    """The keys that act on the jobs that `which` names: one, or several alike told in one line."""

    def asked(act: Callable[[Host, Sequence[Job]], None]) -> Callable[[Host], None]:
        def on_jobs(desk: Host) -> None:
            jobs = which(desk)
            if not jobs:
                desk.say("There is no job under the bar.")
            elif _are_alike(jobs):
                act(desk, jobs)
            else:
                desk.say("These are several kinds of job: Enter lists them, each with its own line.")

        return on_jobs

    def asked_of_open(act: Callable[[Host, Sequence[Job]], None]) -> Callable[[Host], None]:
        def on_open(desk: Host, jobs: Sequence[Job]) -> None:
            if still_open := [job for job in jobs if job.state not in CLOSED]:
                act(desk, still_open)
            else:
                desk.say("It is noted already; Space takes that back.")

        return asked(on_open)

    done_by = "a job done: who did it, and in how many minutes"
    return (
        Key("space", "done", "a job done, or not done after all", asked(turn_done), of_line=True),
        Key("S", "done by", done_by, asked_of_open(_done_by), of_line=True),
        Key("l", "let go", "let the job go this year", asked_of_open(_let_go), of_line=True),
        Key("d", "put off", "put the job off until a day", asked_of_open(_put_off), of_line=True),
        Key(
            "a", "to whom", "whom the job falls to, or who lifts its hold", asked_of_open(_give), of_line=True
        ),
    )


class WithJob(Protocol):
    """What may have a job of its own."""

    @property
    def job(self) -> str:
        """The id of that job; empty where it has none now."""


def job_under_bar(found: Callable[[AlmanacFace, str], WithJob | None], desk: Host) -> tuple[Job, ...]:
    """The job of what is found by the id of the line under the bar, if it has one now."""
    one = found(desk.almanac, desk.current.plant) if desk.current else None
    job = desk.almanac.job(one.job) if one and one.job else None
    return (job,) if job else ()


def _are_alike(jobs: Sequence[Job]) -> bool:
    return all(j.look for j in jobs) or len({(j.work, j.state in CLOSED) for j in jobs}) == 1


def title_of(jobs: Sequence[Job]) -> str:
    """Several jobs in words."""
    return (
        jobs[0].title if len(jobs) == 1 else f"{jobs[0].title} and {phrases.count(len(jobs) - 1, 'more job')}"
    )


def turn_done(desk: Host, jobs: Sequence[Job]) -> None:
    """Note jobs as done; a job already done or let go has that note taken back."""
    job = jobs[0]
    if job.state not in CLOSED:
        more = (lambda almanac: next_time(almanac, job)) if len(jobs) == 1 else (lambda almanac: "")
        desk.keep(about(desk.almanac, jobs, Done), more)
        return
    entry = closing_note(desk.almanac, job)
    if entry is None:
        desk.say("It is done by another note than its own; the Book (9) has it, and u there takes it back.")
    else:
        desk.take_back(entry)


def _done_by(desk: Host, jobs: Sequence[Job]) -> None:
    """Ask who did jobs and how long they took together, and note them as done."""

    on = desk.almanac.on
    names = list(dict.fromkeys(name for job in jobs for name in job.helpers))
    usual = names[0] if len(names) == 1 else None

    def understood(text: str) -> tuple[str | None, float | None, dt.date]:
        """Minutes alone are those of whom the job falls to."""
        said, day = dates.day_at_end(text, on)
        by, minutes = who_and_minutes(said)
        return by or (usual if text.strip() else None), minutes, day

    def take(text: str) -> None:
        by, minutes, day = understood(text)
        desk.keep(about(desk.almanac, jobs, Done, on=day, by=by, minutes=minutes))

    def preview(text: str) -> str:
        by, minutes, day = understood(text)
        took = f"in {phrases.minutes(minutes)}" if minutes is not None else "minutes not said"
        return f"done by {by or 'nobody named'}, {took}" + ("" if day == on else f", {phrases.day(day, on)}")

    desk.ask(
        Typing(
            f"Done: {title_of(jobs)}. Who, and in how many minutes?",
            take, preview=preview, enter="note it done", text=f"{usual} " if usual else "", is_offer=True,
        )
    )  # fmt: skip


def next_time(almanac: AlmanacFace, job: Job) -> str:
    """When the same job is due again this season, as the end of a sentence; empty if it is not."""
    again = [
        j
        for j in almanac.jobs()
        if (j.plant, j.verb) == (job.plant, job.verb) and j.id != job.id and j.state in OPEN_AGAIN
    ]
    return f"; next time {phrases.likely(again[0].best, almanac.on)}" if again else ""


def _let_go(desk: Host, jobs: Sequence[Job]) -> None:
    def take(text: str) -> None:
        if not text.strip():
            raise NotUnderstood("one word of reason, please; Esc leaves the job as it is")
        desk.keep(about(desk.almanac, jobs, LetGo, text=text.strip()))

    desk.ask(Typing(f"Let go this year: {title_of(jobs)}. Why, in a word?", take, enter="let it go"))


def _put_off(desk: Host, jobs: Sequence[Job]) -> None:
    on = desk.almanac.on
    closes = min((job.close.likely for job in jobs if job.close.likely is not None), default=None)

    def until(text: str) -> dt.date:
        day = dates.date(text or "+7", on)
        if day <= on:
            raise NotUnderstood(f"{phrases.long_day(day)} is not after {phrases.long_day(on)}")
        return day

    def take(text: str) -> None:
        desk.keep(about(desk.almanac, jobs, PutOff, until=until(text)))

    def preview(text: str) -> str:
        day = until(text)
        late = closes is not None and day > closes
        return f"until {phrases.long_day(day)}" + (
            f"; its window closes {phrases.day(closes, on)}" if late else ""
        )

    desk.ask(
        Typing(
            f"Put off: {title_of(jobs)}. Until when?",
            take, preview=preview, enter="put it off", text="+7", is_offer=True,
        )
    )  # fmt: skip


def _give(desk: Host, jobs: Sequence[Job]) -> None:
    """Ask to whom the jobs are to fall; of held ones, who takes it on them to do them all the same."""
    if any(job.state == "held" for job in jobs):
        _lift_hold(desk, [job for job in jobs if job.state == "held"])
        return
    almanac = desk.almanac
    helpers = almanac.garden.all_helpers
    if len(helpers) == 1 and helpers[0].people == 1:
        desk.say(f"The garden file names nobody beside {helpers[0].name}; s on the Round (1) adds someone.")
        return
    unable = {h.name: [j for j in jobs if not able(h, j, almanac.on)] for h in helpers}

    def to(name: str) -> None:
        if any(NEVER_ALONE in job.demands or LICENSED in job.demands for job in unable[name]):
            wants = ", ".join(worth_saying(unable[name][0].demands))
            desk.say(f"{name} cannot be given it alone: it wants {wants}.")
            return
        desk.keep(about(almanac, jobs, Given, to=name))

    def told(name: str) -> str:
        wants = sorted({d for job in unable[name] for d in worth_saying(job.demands)})
        if not unable[name]:
            return name
        return (
            f"{name}, though it wants {', '.join(wants)}" if wants else f"{name}, though it is out of reach"
        )

    options = [
        Option(str(n) if n < 10 else " ", told(h.name), partial(to, h.name)) for n, h in enumerate(helpers, 1)
    ]
    options.append(Option("0", "whoever has time", partial(to, NOBODY)))
    unable[NOBODY] = []
    desk.ask(Choice(f"To whom: {title_of(jobs)}?", options))


def _lift_hold(desk: Host, held: Sequence[Job]) -> None:
    """Ask for the name of who lifts the hold; it binds again if there is a new reason later."""
    holds = [job.hold for job in held if job.hold is not None]
    if missing := next((hold for hold in holds if hold.wants), None):
        desk.say(f"It {missing.reason}; nobody can lift that. {missing.asks}")
        return

    def take(text: str) -> None:
        if not text.strip():
            raise NotUnderstood("a name, please; Esc leaves the job held")
        ends = [hold.until for hold in holds if hold.until is not None]
        until = max(ends) if len(ends) == len(held) else None
        desk.keep(about(desk.almanac, held, HoldLifted, by=text.strip(), until=until))

    reason = holds[0].reason if holds else "for a reason not noted"
    desk.ask(Typing(f"Held: {reason}. Who says {title_of(held)} all the same?", take, enter="lift the hold"))
