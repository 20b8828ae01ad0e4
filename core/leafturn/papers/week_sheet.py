"""The week sheet: one page of plain text for people without a screen, to tick with a pencil."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable, Sequence

from leafturn.base import day_words, prose
from leafturn.base.day_words import long_day
from leafturn.base.value import Value
from leafturn.garden.model import Helper
from leafturn.papers.page_layout import LENGTH, Clean, Paper, Sheaf, cells, shortened
from leafturn.papers.short_reasons import one_line
from leafturn.papers.week_selection import Share, Week, week_of
from leafturn.papers.words import names, window_word
from leafturn.tasks.model import Job
from leafturn.tasks.week.labour import next_day
from leafturn.tasks.week.model import Round

DAY_GAP = "________________"
NAMED_INDENT = 12  # a name in a list leaves so many columns for its date
SEEN_LINES = 3
NAMED_LINES = 5  # of a paragraph that names jobs without a line of their own
NAMED_MOST = 20

Numbering = Callable[[Sequence[str]], str]


class WeekSheet(Value):
    """A week sheet, with its number, its jobs, and the ids of the numbered ones, line 1 first."""

    number: str
    week: Week
    jobs: tuple[str, ...]
    paper: Paper

    @property
    def lines(self) -> tuple[str, ...]:
        """The sheet in fixed type."""
        return self.paper.lines


class Occasion(Value):
    """What stands at the head of a sheet.

    Parameters
    ----------
    place : str
        The garden's name; may be empty.
    season : str
        How the season stands, in one sentence.
    helpers : sequence of Helper
    """

    place: str
    season: str
    helpers: Sequence[Helper]


def week_sheet(
    occasion: Occasion,
    round_now: Round,
    on: dt.date,
    numbering: Numbering | None,
    clean: Clean = str,
    most: int = LENGTH,
) -> WeekSheet:
    """The sheet of the seven days from a day.

    Of more jobs than fit the page, those stay that are dearest to delay; the rest is named with its date.

    Parameters
    ----------
    occasion : Occasion
    round_now : Round
        Of that day.
    on : date
    numbering : callable or None
        Gives the sheet's number for the ids of its jobs; None for a sheet whose lines cannot be entered.
    clean : callable
        Every string passes it.
    most : int
        Lines at hand; those of a whole page unless something else stands on it.

    Returns
    -------
    WeekSheet
        At most so many lines of at most 72 columns.
    """
    week = week_of(round_now, occasion.helpers, on)
    while len(_paper(occasion, week, "53-AA", clean).lines) > most and week.jobs:
        week = week.shorter()
    ids = tuple(job.id for job in week.jobs)
    number = numbering(ids) if numbering is not None else ""
    return WeekSheet(number=number, week=week, jobs=ids, paper=_paper(occasion, week, number, clean))


def _paper(occasion: Occasion, week: Week, number: str, clean: Clean) -> Paper:
    sheaf = Sheaf(clean)
    _head(sheaf, occasion, week, number)
    line = 1
    for share in week.shares:
        _share(sheaf, share, week, occasion.helpers, line)
        line += len(share.jobs)
    if not week.jobs:
        sheaf.blank()
        sheaf.say("Nothing needs hands now.")
    _not_numbered(sheaf, week)
    _observations(sheaf)
    _foot(sheaf, number, len(week.jobs))
    return sheaf.paper


def _head(sheaf: Sheaf, occasion: Occasion, week: Week, number: str) -> None:
    title = f"Week sheet {number}" if number else "Week sheet without a number"
    what = f"{occasion.place}: what needs hands" if occasion.place.strip() else "What needs hands"
    room = sheaf.width - cells(title) - 2
    if cells(sheaf.cleaned(what)) > room:
        what = occasion.place  # whole where it has room, rather than a question that breaks off
    sheaf.title(shortened(sheaf.cleaned(what), room), title)
    sheaf.say(f"{long_day(week.on)} to {long_day(week.last)}. {occasion.season}", most=2)


def _share(sheaf: Sheaf, share: Share, week: Week, helpers: Sequence[Helper], first: int) -> None:
    sheaf.blank()
    when = f"{_days(share, helpers, week)}: {prose.minutes(share.minutes)}"
    sheaf.heading(f"{names(share.who)}{when}", shown=f"{names(share.who).upper()}{when}", most=2)
    shared = _shared_cautions(share.jobs)
    for caution, ids in shared.items():
        lines = [first + n for n, job in enumerate(share.jobs) if job.id in ids]
        sheaf.say(f"Lines {names(_runs(lines))}: {caution}", indent=2, hang=2)
    for number, job in enumerate(share.jobs, first):
        _job(sheaf, number, job, week, [c for c in job.cautions if c not in shared])


def _runs(numbers: Sequence[int]) -> list[str]:
    """Rising numbers as words, three and more in a row as "5 to 9"."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and runs[-1][-1] == number - 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    said: list[str] = []
    for run in runs:
        said += [f"{run[0]} to {run[-1]}"] if len(run) > 2 else [str(n) for n in run]
    return said


def _job(sheaf: Sheaf, number: int, job: Job, week: Week, cautions: Iterable[str]) -> None:
    took = prose.minutes(job.minutes)
    mark = f"{number:>3}"
    what = job.title if job.places else job.titled_with_place
    together = cells(sheaf.cleaned(what)) <= sheaf.tick_width(mark, took)
    sheaf.tick(what if together else job.title, took, mark=mark, most=3)
    if not together and not job.places:
        sheaf.under(job.where, most=2)
    if job.counts_as == "note":
        sheaf.under(f"Seen on: {DAY_GAP}")
    when = window_word(job, week.on)
    sheaf.under(one_line(when, sheaf.cleaned(job.reasons.cause), sheaf.under_width), most=2)
    sheaf.under(job.reasons.amount, most=2)
    sheaf.under(job.places, most=8)
    for caution in cautions:
        sheaf.under(caution)


def _days(share: Share, helpers: Sequence[Helper], week: Week) -> str:
    """The day of helpers who come on days of their own."""
    days = {next_day(h, week.on) for h in helpers if h.name in share.who and h.days}
    return f", {long_day(max(days))}" if days else ""


def _shared_cautions(jobs: Iterable[Job]) -> dict[str, list[str]]:
    """Cautions that several jobs have in common, with the ids of those jobs."""
    found: dict[str, list[str]] = {}
    for job in jobs:
        for caution in dict.fromkeys(job.cautions):
            found.setdefault(caution, []).append(job.id)
    return {caution: ids for caution, ids in found.items() if len(ids) > 1}


def _not_numbered(sheaf: Sheaf, week: Week) -> None:
    on = week.on

    def until(job: Job) -> str:
        return f"until {day_words.near_day(job.close.likely, on)}"

    def opens(job: Job) -> str:
        return f"from {day_words.near_day(job.open.likely, on)}"

    def held(job: Job) -> str:
        if job.hold is None:
            return ""
        end = f"until {day_words.near_day(job.hold.until, on)}: " if job.hold.until else ""
        return f"{end}{job.hold.reason}"

    def again(job: Job) -> str:
        following = f"next {day_words.near_day(job.reasons.next_open, on)}" if job.reasons.next_open else ""
        return "; ".join(part for part in ("do not do it now" if job.harms_late else "", following) if part)

    _named(sheaf, "Not on this sheet; it can wait", week.left, until)
    _named(sheaf, "Later", week.coming, opens)
    _named(sheaf, "Nobody here can do this; ask for help", week.beyond, until)
    _named(sheaf, "Leave for now", week.held, held)
    _named(sheaf, "Its time is past", week.passed, again)


def _named(sheaf: Sheaf, heading: str, jobs: Sequence[Job], words_of: Callable[[Job], str]) -> None:
    """Jobs in one paragraph, each with its date; those it has no room for are counted."""
    if not jobs:
        return
    sheaf.blank()
    listed = [_in_a_list(sheaf, job, words_of(job)) for job in jobs[:NAMED_MOST]]
    for shown in range(len(listed), -1, -1):
        more = len(jobs) - shown
        rest = [f"and {more} more" if shown else prose.count(more, "job")] if more else []
        trial = Sheaf(str, sheaf.width)
        trial.say(f"{heading}: {'; '.join([*listed[:shown], *rest])}.", hang=2)
        if len(trial.lines) <= NAMED_LINES or not shown:
            sheaf.blocks += trial.blocks
            return


def _in_a_list(sheaf: Sheaf, job: Job, words: str) -> str:
    title = shortened(sheaf.cleaned(job.title), sheaf.width - NAMED_INDENT)
    words = shortened(sheaf.cleaned(words), 2 * sheaf.width)
    return f"{title} ({words})" if words else title


def _observations(sheaf: Sheaf) -> None:
    sheaf.blank()
    sheaf.say("Seen today (in flower, set, frost, damage, anything; with its day):")
    sheaf.room(SEEN_LINES)


def _foot(sheaf: Sheaf, number: str, lines: int) -> None:
    if not lines:
        return
    sheaf.blank()
    ticked = " ".join(("1", "3" if lines > 2 else "2")[:lines])
    if number:
        sheaf.say(
            f"Tick what is done. To enter it: press e, type {number} and the numbers, and if known who did "
            f"them in how many minutes: {number} {ticked} by Ann 90."
        )
    else:
        sheaf.say("Tick what is done. The book cannot be written: this sheet has no number.")
