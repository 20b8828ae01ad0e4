"""The away sheet: a plan for a time away as plain text."""

from __future__ import annotations

import datetime as dt

from leafturn.base import day_words, prose
from leafturn.base.date_range import Likely
from leafturn.base.day_words import long_day
from leafturn.papers.away import AwayPlan, Errand, FrostWatch
from leafturn.papers.page_layout import Clean, Paper, Sheaf
from leafturn.papers.short_reasons import one_line
from leafturn.papers.words import names, wanting
from leafturn.tasks.model import Job

NAMED_MOST = 8  # so many plants are named where frost may touch more
NO_HURRY_DAYS = 14  # a guess: what can wait longer than this after the return is only named


def away_sheet(plan: AwayPlan, place: str, written: dt.date, clean: Clean = str) -> Paper:
    """A plan on paper, in lines of at most 72 columns.

    Parameters
    ----------
    plan : AwayPlan
    place : str
        The garden's name; may be empty.
    written : date
        The day it was made; its forecasts are of that day.
    clean : callable
        Every string passes it.
    """
    sheaf = Sheaf(clean)
    time = plan.time
    who = f" Away: {names(time.absent)}." if time.absent else ""
    sheaf.title(f"{place}: a time away" if place.strip() else "A time away", most=2)
    sheaf.say(
        f"From {long_day(time.leave)} until {long_day(time.back)}, {prose.count(time.days, 'night')}.{who}"
    )
    sheaf.say(f"As foreseen on {long_day(written)}; make it anew shortly before you go.")
    _before(sheaf, plan)
    _while_away(sheaf, plan)
    _on_return(sheaf, plan)
    return sheaf.paper


def _before(sheaf: Sheaf, plan: AwayPlan) -> None:
    _heading(sheaf, "1. Before you go")
    leave, back = plan.time.leave, plan.time.back
    late = [errand for errand in plan.closing if _is_late(errand.job, leave)]
    ending = [errand for errand in plan.closing if errand not in late]
    for heading, errands in (
        ("Late already, and there until they are done or let go:", late),
        ("Their time ends, or may end, while you are away:", ending),
    ):
        if errands:
            sheaf.say(heading)
        for errand in errands:
            _errand(sheaf, errand, _ends(errand.job, leave, back), _else(errand))
    if plan.early:
        sheaf.blank()
        sheaf.say("Better done before, if there is time; they are late when you are back:")
        for errand in plan.early:
            job = errand.job
            best_by, ends = (day_words.day(when.likely, leave) for when in (job.best, job.close))
            best = f"Best by {best_by}, ends {ends}"
            _errand(sheaf, errand, best, _else(errand))
    if not plan.closing and not plan.early:
        sheaf.say("Nothing has to be done before.")


def _is_late(job: Job, leave: dt.date) -> bool:
    return job.close.likely is not None and job.close.likely < leave


def _ends(job: Job, leave: dt.date, back: dt.date) -> str:
    if _is_late(job, leave):
        return f"Its time ended {day_words.day(job.close.likely, leave)}"
    if job.close.likely is not None and job.close.likely >= back:
        return f"May end from {day_words.day(job.close.early, leave)}"
    return f"Ends {day_words.day(job.close.likely, leave)}"


def _while_away(sheaf: Sheaf, plan: AwayPlan) -> None:
    _heading(sheaf, "2. While you are away")
    if plan.frost is not None:
        _frost(sheaf, plan.frost)
    for errand in plan.away:
        window = f"{'Needed' if errand.must else 'Good'} {_stretch(errand, plan.time.leave)}"
        early = ""
        if errand.maybe_open is not None:
            first = day_words.day(errand.maybe_open, plan.time.leave)
            early = f"It may be ready before you go, from {first}: look then."
        _errand(sheaf, errand, window, f"{_someone(errand)}{' ' if early else ''}{early}")
    if plan.small:
        sheaf.blank()
        told = [f"{e.job.title} ({_stretch(e, plan.time.leave)})" for e in plan.small]
        sheaf.say(f"Small things, if somebody passes: {'; '.join(told)}.", hang=2)
    if not plan.away and not plan.small and plan.frost is None:
        sheaf.say("Nothing falls due that could not be done before or after.")


def _on_return(sheaf: Sheaf, plan: AwayPlan) -> None:
    _heading(sheaf, "3. When you are back")
    back = plan.time.back
    soon = [e for e in plan.waiting if _days_left(e, back) <= NO_HURRY_DAYS]
    later = [e for e in plan.waiting if e not in soon]
    if soon:
        sheaf.say("Waiting for you, what costs most to leave longer first:")
    for errand in soon:
        job = errand.job
        state = f"late {prose.count(job.days_late, 'day')}" if job.state == "late" else job.state
        ends = "its time ends" if job.state == "late" else "can wait until"
        told = f"{job.titled_with_place}: {state}, {ends} {day_words.day(job.close.likely, back)}."
        sheaf.item(told)
    if later:
        sheaf.blank()
        told = "; ".join(f"{e.job.title} (until {day_words.day(e.job.close.likely, back)})" for e in later)
        sheaf.say(f"Open too, with time left: {told}.", hang=2)
    if plan.passed:
        sheaf.blank()
        sheaf.say("Past, if nobody did it:")
        for errand in plan.passed:
            job = errand.job
            opens = errand.next_open
            again = f"next from {day_words.day(opens, back)}" if opens else "not again for now"
            late = ", do not do it then" if job.harms_late else ""
            sheaf.item(f"{job.title}: ended {day_words.day(job.close.likely, back)}{late}, {again}.")
    if not plan.waiting and not plan.passed:
        sheaf.say("Nothing is waiting and nothing has passed.")


def _days_left(errand: Errand, back: dt.date) -> int:
    closes = errand.job.close.likely
    return NO_HURRY_DAYS + 1 if closes is None else (closes - back).days


def _heading(sheaf: Sheaf, words: str) -> None:
    sheaf.blank()
    sheaf.heading(words, shown=words.upper())
    sheaf.blank()


def _errand(sheaf: Sheaf, errand: Errand, when: str, who: str) -> None:
    job = errand.job
    sheaf.tick(job.titled_with_place, prose.minutes(job.minutes))
    sheaf.under(one_line(when, sheaf.cleaned(job.reasons.cause), sheaf.under_width))
    sheaf.under(job.reasons.amount)
    sheaf.under(_missing(job) or who)
    for caution in job.cautions:
        sheaf.under(caution)


def _missing(job: Job) -> str:
    """That somebody is missing to do a job; empty if nobody is."""
    if not job.wants:
        return ""
    return "Ask for help." if job.hold is not None else f"It {wanting(job)}: ask for help."


def _someone(errand: Errand) -> str:
    if errand.who:
        return f"Can do it: {names(errand.who)}."
    return "Nobody at home can do it: ask for help."


def _else(errand: Errand) -> str:
    return f"Or, while you are away: {names(errand.who)}." if errand.who else "Nobody else here can do it."


def _frost(sheaf: Sheaf, frost: FrostWatch) -> None:
    told: list[str] = []
    if frost.plants and frost.last is not None:
        last = day_words.about(frost.last) if frost.last.likely else f"rare, at latest {_latest(frost.last)}"
        told.append(f"The last frost is {last}.")
        told.append(f"In flower then, and touchy: {prose.first_of(frost.plants, NAMED_MOST)}.")
    if frost.first is not None and frost.first.likely is None:
        rare = prose.in_ten(frost.first_years)
        told.append(f"Frost comes here {rare}, and may come now: tender things under cover.")
    elif frost.first is not None:
        told.append(
            f"The first frost of autumn is {day_words.about(frost.first)}: tender things under cover."
        )
    watcher = names(frost.who) if frost.who else "nobody here: ask someone"
    told.append(f"Somebody should hear the evening forecast and cover what is low enough ({watcher}).")
    sheaf.say(" ".join(told), indent=2)
    sheaf.blank()


def _latest(when: Likely) -> str:
    return day_words.day(when.late)


def _stretch(errand: Errand, on: dt.date) -> str:
    job = errand.job
    return day_words.stretch(job.open.likely, job.close.likely, on)
