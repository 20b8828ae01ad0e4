"""The window of one job in one season, and the word for where it stands today."""

from __future__ import annotations

import datetime as dt
from functools import cached_property

import numpy as np
from msgspec.structs import replace

from leafturn.base.date_range import Likely
from leafturn.base.explained_days import ExplainedDays, Told
from leafturn.base.kept import kept
from leafturn.base.value import Value
from leafturn.journal.entries import Entry, HoldLifted, LetGo, PutOff
from leafturn.kinds.pruning import Phrases, each
from leafturn.tasks.model import Hold, State
from leafturn.tasks.rule_model import Rule
from leafturn.tasks.season_model import SeasonModel
from leafturn.tasks.subjects import Subject
from leafturn.tasks.timing.phrases import read_moment
from leafturn.tasks.timing.resolve import resolve

CALENDAR = "the calendar"
SLOWEST_LEAD_TIME = 40  # [d] by so much a lead kept as heat may stretch; further off a job is not soon


class Window(Value, eq=False):
    """Opening, best-by and closing day of a job.

    `soon_day`, `open_day`, `best_day`, `close_day` are median day numbers, the first from which the job
    is shown as soon; `opens` and `closes` hold the sentences of the moments that decide, `opens_with` is the
    one that opens it, as its rule writes it.
    """

    open: Likely
    best: Likely
    close: Likely
    soon_day: float
    open_day: float
    best_day: float
    close_day: float
    opens: ExplainedDays
    closes: ExplainedDays
    opens_with: str

    @property
    def exists(self) -> bool:
        """Whether there is such a window this season at all: it opens, and what ends it comes."""
        return bool(self.open_day <= self.close_day < np.inf)


def window_of(rule: Rule, subject: Subject, season: SeasonModel, done: dt.date | None) -> Window:
    """Open, best and close of a rule for a subject; `done` is when it was last done.

    What is the same for several is found once. Where all moments are the garden's, that is whatever is
    tended; where all are foretold of a plant, the plants told alike, of which each has sentences of its own.
    """
    moments = [read_moment(phrase) for phrase in rule.phrases]
    of_garden = all(moment.of_garden for moment in moments)
    if not of_garden and (len(subject.plants) != 1 or not all(moment.is_foretold for moment in moments)):
        return _found(rule, subject, season, done)
    whom = None if of_garden else (season.outlook.told_as.get(subject.id, subject.id), done)
    key = (rule.open, rule.best, rule.close, rule.soon_days, rule.winter, whom)
    known = _known(season)
    if key not in known:
        known[key] = subject.id, _found(rule, subject, season, done)
    whose, window = known[key]
    if of_garden or whose == subject.id:
        return window
    own = _Own(rule=rule, subject=subject, season=season, done=done)
    return replace(
        window,
        opens=replace(window.opens, telling=lambda: own.window.opens.told),
        closes=replace(window.closes, telling=lambda: own.window.closes.told),
    )


class _Own(Value, eq=False):
    """A subject's own window, of which the sentences alone are wanted; found when they are read."""

    rule: Rule
    subject: Subject
    season: SeasonModel
    done: dt.date | None

    @cached_property
    def window(self) -> Window:
        return _found(self.rule, self.subject, self.season, self.done)


@kept
def _known(season: SeasonModel) -> dict[tuple[object, ...], tuple[str, Window]]:
    """Windows that were found, each with the subject that it was found for."""
    return {}


def _found(rule: Rule, subject: Subject, season: SeasonModel, done: dt.date | None) -> Window:
    ensemble = season.weather.now
    opens, opens_with = _deciding(rule.open, rule, subject, season, done, latest=True)
    closes, _ = _deciding(rule.close, rule, subject, season, done, latest=False)
    best, _ = _deciding(rule.best, rule, subject, season, done, latest=True)
    within = np.minimum(np.maximum(best.days, opens.days), np.maximum(closes.days, opens.days))
    best = replace(best, days=within)
    open_day = _whole(opens.middle)
    soon_day = open_day - rule.soon_days
    if 0 < open_day - season.today <= rule.soon_days + SLOWEST_LEAD_TIME:
        soon, _ = _deciding(rule.open, rule, subject, season, done, latest=True, sooner=rule.soon_days)
        soon_day = min(_whole(soon.middle), open_day)
    return Window(
        open=ensemble.likely_in_order(opens.ordered),
        best=ensemble.likely_in_order(best.ordered),
        close=ensemble.likely_in_order(closes.ordered),
        soon_day=soon_day,
        open_day=open_day,
        best_day=_whole(best.middle),
        close_day=_whole(closes.middle),
        opens=opens,
        closes=closes,
        opens_with=opens_with,
    )


def ended_before(window: Window, day: float, season: SeasonModel) -> Window:
    """A window that ends the day before `day`, where a hold begins that outlasts it."""
    if not window.open_day < day <= window.close_day:
        return window
    last = season.axis.date(day - 1)
    return replace(
        window,
        best=window.best.no_later_than(last),
        close=window.close.no_later_than(last),
        best_day=min(window.best_day, day - 1),
        close_day=day - 1,
    )


def in_order(window: Window) -> Window:
    """A window told though it is likely to close before it opens: no day of it is later than its last."""
    if window.exists or window.close.likely is None:
        return window
    last = window.close.likely
    return replace(window, open=window.open.no_later_than(last), best=window.best.no_later_than(last))


def _deciding(
    phrases: Phrases,
    rule: Rule,
    subject: Subject,
    season: SeasonModel,
    done: dt.date | None,
    *,
    latest: bool,
    sooner: int = 0,
) -> tuple[ExplainedDays, str]:
    """Of several moments, or `sooner` days before them, the last (or first) of each draw; and which decides.

    The sentence is that of the one that decides. A plain date has none: an opening then takes the sentence
    of the moment beside it, which holds too, unless that hardly ever comes.
    """
    found = [
        (resolve(read_moment(phrase), subject, season, winter=rule.winter, done=done, sooner=sooner), phrase)
        for phrase in each(phrases)
    ]
    if len(found) == 1:
        return found[0][0], _as_written(found[0][1])
    first_or_last = max if latest else min
    chosen, phrase = first_or_last(found, key=lambda one: one[0].middle)
    days = (np.maximum if latest else np.minimum).reduce([one.days for one, _ in found])

    def telling() -> Told:
        beside = [one.told for one, _ in found if not one.told.hardly_ever] if latest else []
        return next((told for told in (chosen.told, *beside) if told.says), chosen.told)

    return replace(chosen, days=days, telling=telling), _as_written(phrase)


def _as_written(phrase: str) -> str:
    """A moment as its rule writes it; a day of the year, which differs in the south, by that word alone."""
    return CALENDAR if read_moment(phrase).anchor in ("date", "day", "season start") else phrase


def _whole(day: float) -> float:
    return float(np.floor(day))


class JobStatus(Value):
    """Where a job stands: its word, and what goes with it.

    `lifted` is the note by which somebody took it on them to do it though `hold` stands.
    """

    state: State
    days_late: int = 0
    hold: Hold | None = None
    note: Entry | None = None
    lifted: HoldLifted | None = None


class Sequel(Value):
    """What follows a job that is over: when it may be done again, None where nothing foretells it, and a
    sentence on what to do in its place."""

    next_open: dt.date | None = None
    instead: str = ""


def status_of(
    rule: Rule,
    window: Window,
    season: SeasonModel,
    hold: Hold | None,
    lifted: HoldLifted | None,
    last: Entry | None,
) -> JobStatus:
    """The state word of a job. It is late from the end of its window on, not from its best day.

    Parameters
    ----------
    hold : Hold or None
        What binds it.
    lifted : HoldLifted or None
        The note by which somebody lifted that.
    last : Entry or None
        The note that closed or put off this very job, if any.
    """
    today = season.today
    if isinstance(last, LetGo):
        return JobStatus(state="let go", note=last)
    if isinstance(last, PutOff):
        if season.day.on < last.until:
            return JobStatus(state="not yet", note=last)
    elif last is not None:
        return JobStatus(state="done", note=last)
    over = today > window.close_day
    if over and rule.too_late != "still":
        return JobStatus(state="passed")
    if today < window.open_day:
        return JobStatus(state="soon" if today >= window.soon_day else "not yet")
    if hold is not None and lifted is None:
        return JobStatus(state="held", hold=hold)
    late = int(today - window.close_day) if over else 0
    return JobStatus(state="late" if over else "due", days_late=late, hold=hold, lifted=lifted)
