"""Why a job is due, why not yet, why no more: built from the values, the first sentence answering alone."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from leafturn.base import day_words
from leafturn.base.explained_days import Told
from leafturn.base.value import Value
from leafturn.journal.entries import Entry, PutOff
from leafturn.tasks.amounts import amount_of
from leafturn.tasks.model import OPEN, Reasons
from leafturn.tasks.occurrences import Occurrence
from leafturn.tasks.rule_model import Rule
from leafturn.tasks.season_model import SeasonModel
from leafturn.tasks.subjects import Subject
from leafturn.tasks.timing.windows import JobStatus, Sequel, Window


class _First(Value, kw_only=False):
    """The sentence that answers alone, the cause in it, the moment told in it, if any, and what is over."""

    sentence: str
    cause: str
    moment: Told | None = None
    over: str = ""


def reasons_for(one: Occurrence, season: SeasonModel, sequel: Sequel | None) -> Reasons:
    """The reasons as of the season's day of asking.

    Parameters
    ----------
    one : Occurrence
        The job.
    season : SeasonModel
    sequel : Sequel or None
        What follows, if it is over.
    """
    rule, subject, window, status = one.rule, one.subject, one.window, one.status
    on, still_open = season.day.on, status.state in OPEN
    first = _first(one, on) if sequel is None else _over(one, sequel, on)
    amount = amount_of(rule, subject, season) if still_open else ""
    if_left, known_by = rule.if_skipped if still_open else "", _basis(rule, window, season)
    before = [*_chosen(rule, subject, season)]
    if status.state == "held" and status.hold is not None:
        before.append(status.hold.asks)
    if still_open:
        before += [_lifted(status), _window(window, on), amount]
    elif status.state == "passed":
        before.append(f"It was best done by {day_words.near_day(window.best.likely, on)}.")
    before.append(rule.because)
    after = [window.opens.told.reckoned, window.opens.told.second] if still_open else []
    tells_last_done = first.moment is not None and first.moment.tells_last_done
    if not amount and one.last_done is not None and status.state != "done" and not tells_last_done:
        after.append(f"Last done on {day_words.near_day(one.last_done, on)}.")
    return Reasons(
        why=_once(first.sentence, *before, if_left, *after, f"Basis: {known_by}"),
        more=_once(*(said for said in (*before, *after) if said != first.sentence)),
        cause=first.cause,
        amount="" if rule.counts_as == "water" else amount,  # of water the cause tells the litres
        tonight=None if first.moment is None else first.moment.tonight,
        if_left=if_left,
        known_by=known_by,
        over=first.over,
        next_open=None if sequel is None else sequel.next_open,
    )


def _once(*sentences: str) -> tuple[str, ...]:
    """Sentences that say something, each where it comes first."""
    return tuple(dict.fromkeys(sentence for sentence in sentences if sentence))


def _chosen(rule: Rule, subject: Subject, season: SeasonModel) -> Iterator[str]:
    """The answers that a job follows from, where its rule asks for any."""
    if rule.applies.answered:
        for plant in subject.plants:
            if (answer := season.answers.get(plant.id)) is not None:
                yield f"Chosen on {day_words.full_day(answer.since)}: {answer.said}."


def _first(one: Occurrence, on: dt.date) -> _First:
    """Of a job that is still open."""
    rule, window, status = one.rule, one.window, one.status
    opens = window.opens.told
    match status.state:
        case "held" if status.hold:
            until = f"until {day_words.near_day(status.hold.until, on)}" if status.hold.until else "for now"
            return _alone(f"Held {until}: {status.hold.reason}.")
        case "late":
            ended = day_words.day(window.close.likely, on) if window.close.likely else "some day"
            said = f"Its time ended on {ended}; it stays until it is done or let go."
            return _First(said, rule.because)
        case "not yet" if isinstance(status.note, PutOff):
            return _alone(f"Put off until {day_words.near_day(status.note.until, on)}{_by(status.note)}.")
    cause = opens.says or rule.because
    ahead = status.state in ("not yet", "soon") and window.open.likely is not None and not opens.event
    not_before = f"Not before {day_words.day(window.open.likely, on)}. " if ahead else ""
    return _First(f"{not_before}{cause}", cause, opens if opens.says else None)


def _over(one: Occurrence, sequel: Sequel, on: dt.date) -> _First:
    """Of a job that is done, let go or passed: that it is, and when it comes again."""
    rule, window, status = one.rule, one.window, one.status
    again = day_words.near_day(sequel.next_open, on) if sequel.next_open else ""
    if status.note is None:
        closes = window.closes.told
        when = day_words.without_range(window.close, on)
        then = f"Next from {again}." if again else "It comes again when there is cause." if rule.again else ""
        told = "" if closes.apart else closes.says
        then = sequel.instead or then
        moved = f"{when}, {closes.apart}" if closes.apart else when
        said = " ".join(part for part in (_closed(rule, moved), then, told) if part)
        return _First(said, said, closes, f"{_closed(rule, when)} {then}".rstrip())
    if status.state == "done":
        then = f" Next from {again}." if again else ""
        return _alone(f"Done on {day_words.day(status.note.on)}{_by(status.note)}.{then}")
    word = f": {status.note.text}" if status.note.text else ""
    then = f" It returns on {again}." if again else ""
    return _alone(f"Let go this time{word}.{then}")


def _closed(rule: Rule, when: str) -> str:
    """That a window has closed, and whether doing it now would harm."""
    if rule.too_late == "do not":
        return f"The window closed {when}: do not do it now."
    return f"Its time ended {when}."


def _alone(sentence: str) -> _First:
    return _First(sentence, sentence)


def _lifted(status: JobStatus) -> str:
    """Who took it on them to do it though there is a reason to wait."""
    if status.lifted is None or status.hold is None:
        return ""
    who, when = status.lifted.by or "Somebody", day_words.day(status.lifted.on)
    return f"{who} lifted the hold on {when} ({status.hold.reason})."


def _by(note: Entry) -> str:
    return f" by {note.by}" if note.by else ""


def _window(window: Window, on: dt.date) -> str:
    close = day_words.likely(window.close, on)
    if window.close.has_passed(on):
        return ""
    if window.close.likely == on:
        return "Today is its last day."
    if window.best.has_passed(on):
        return f"It was best done by {day_words.near_day(window.best.likely, on)}; its time ends {close}."
    if window.best.likely == window.close.likely:
        return f"It can wait until {close}."
    return f"Best done by {day_words.near_day(window.best.likely, on)}; it can wait until {close}."


def _basis(rule: Rule, window: Window, season: SeasonModel) -> str:
    """What the dates rest on; weather is named where it is not the garden's own."""
    ensemble, opens = season.weather.now, window.opens
    own = "own record" in (ensemble.sureness, opens.basis)
    weather = "" if own else f"weather from {ensemble.made_of.words}"
    rests = [b for b in (opens.basis, rule.basis, weather) if b]
    return f"{', '.join(dict.fromkeys(rests))}. Source: {rule.source}."
