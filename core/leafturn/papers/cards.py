"""Cards: one tree's, to tie on it; a month's; and what to look for while things flower."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator, Mapping, Sequence

import msgspec

from leafturn.answers.plant_card import PlantCard
from leafturn.base import day_words, prose
from leafturn.base.bloom_stages import FIRST_OPEN, FLOWERING
from leafturn.base.day_words import MONTHS, long_day
from leafturn.base.name_order import name_order
from leafturn.base.value import Value
from leafturn.bloom.model import SeasonEvent
from leafturn.garden.model import Helper
from leafturn.journal.book import in_words
from leafturn.papers.page_layout import LENGTH, Clean, Paper, Sheaf
from leafturn.papers.week_selection import by_best_day
from leafturn.papers.words import names, wanting
from leafturn.tasks.model import OPEN, Job
from leafturn.tasks.week.cautions import cautions_of_all
from leafturn.tasks.week.grouping import lines_by
from leafturn.tasks.week.labour import helpers_for

TREE_WIDTH = 44  # fits half a page across, and a tag of a hand's length; a guess
TREE_JOBS, TREE_NOTES = 6, 4
COUNTED = 3  # plants of a kind on one day, from which they are told by their number; a guess
BLOOM_DAYS = 28  # so far ahead a bloom card looks; a guess
FLOWER_FIGURES = tuple(stage.bbch for stage in FLOWERING)
BLOOM_CELLS, GAP = (22, 26, 8, 8, 8), "______"


class MonthOf(Value):
    """A garden's month: its name, the day of asking within it, who helps, and what several plants of the
    kind of each are called, by plant."""

    place: str
    on: dt.date
    helpers: Sequence[Helper] = ()
    several: Mapping[str, str] = msgspec.field(default_factory=dict)


def tree_card(card: PlantCard, jobs: Iterable[Job], on: dt.date, clean: Clean = str) -> Paper:
    """One plant's card, in lines of at most 44 columns.

    Parameters
    ----------
    card : PlantCard
        What is known of it.
    jobs : iterable of Job
        Of the season; those of this plant are taken.
    on : date
    clean : callable
        Every string passes it.
    """
    sheaf = Sheaf(clean, TREE_WIDTH)
    sheaf.title(card.name, shown=card.name.upper(), most=3)
    sheaf.say(card.line)
    sheaf.say(card.where)
    for words in card.own_words:
        sheaf.blank()
        sheaf.say(words)
    flowers = [e for e in card.events if e.bbch in FLOWER_FIGURES]
    rest = [e for e in card.events if e not in flowers]
    for heading, events in (("Flowers", flowers), ("Fruit", rest)):
        if events:
            sheaf.blank()
            sheaf.heading(f"{heading} in {_year(events, on)}")
            for event in events:
                sheaf.say(f"{event.event}: {_when(event)}", indent=2, hang=2)
    own = [j for j in jobs if card.id in (j.plant, *j.plants) and j.state in OPEN]
    ahead = by_best_day(own)
    if ahead or card.nothing_to_do:
        sheaf.blank()
        sheaf.heading("To do" if ahead else "To do: nothing, no work falls to it this season.")
        for job in ahead[:TREE_JOBS]:
            what = job.title.replace(job.name, card.name) if job.name else job.title
            sheaf.say(f"{what}: best by {day_words.near_day(job.best.likely, on)}", indent=2, hang=2)
    cautions = dict.fromkeys((*card.cautions, *(c for j in ahead[:TREE_JOBS] for c in j.cautions)))
    if cautions:
        sheaf.blank()
        for caution in cautions:
            sheaf.say(f"Mind: {caution}", hang=2)
    if card.notes:
        sheaf.blank()
        sheaf.heading("Noted")
        for note in card.notes[:TREE_NOTES]:
            sheaf.say(f"{day_words.full_day(note.on)}: {in_words(note)}", indent=2, hang=2)
    sheaf.blank()
    sheaf.say(f"Written {long_day(on)}. Seen since:")
    sheaf.room(3)
    return sheaf.paper


def month_card(
    month: MonthOf, jobs: Iterable[Job], events: Iterable[SeasonEvent], clean: Clean = str
) -> Paper:
    """The jobs, bloom and picking of a month on one page of 60 lines.

    Of more jobs than fit, those stay that cost most to miss; the others are counted.

    Parameters
    ----------
    month : MonthOf
    jobs : iterable of Job
        Of the season; those best done within the month and still open are taken.
    events : iterable of SeasonEvent
        Of the season.
    clean : callable
        Every string passes it.
    """
    on = month.on
    due = [j for j in jobs if j.state in OPEN and _within(j.best.likely, on)]
    by_weight = sorted(due, key=lambda j: (-j.harm, j.best.likely or dt.date.max, j.order))
    found = [e for e in events if _within(e.observed or e.when.likely, on)]
    for kept in range(min(len(by_weight), LENGTH), -1, -1):
        page = _month(month, by_weight[:kept], len(by_weight) - kept, found, clean)
        if len(page.lines) <= LENGTH:
            break
    return page


def _month(
    month: MonthOf, jobs: Sequence[Job], more: int, events: Sequence[SeasonEvent], clean: Clean
) -> Paper:
    on = month.on
    sheaf = Sheaf(clean)
    place = f"{month.place}: " if month.place.strip() else ""
    sheaf.title(f"{place}{MONTHS[on.month - 1]} {on.year}", most=1)
    opening = [e for e in events if e.bbch == 61]
    ripe = [e for e in events if e.event == "ripe"]
    ready = [e for e in events if e.event == "ready to pick"]
    for heading, group in (("Opens", opening), ("Ripe", ripe), ("Ready to pick", ready)):
        if group:
            sheaf.blank()
            sheaf.say(f"{heading}: {', '.join(_days(group, month.several))}.", hang=2, most=6)
    sheaf.blank()
    sheaf.heading("Jobs, by the day they are best done by" if jobs else "No job is best done this month")

    def who(job: Job) -> str:
        able = helpers_for(job, month.helpers, on)
        return names(able) if able else wanting(job)

    def alike(job: Job) -> object:
        return job.work, job.best.likely, who(job), frozenset(m.several for m in job.members)

    for line in lines_by(by_best_day(jobs), alike):
        first = line.jobs[0]
        said = (line.title, line.where, who(first), prose.minutes(line.minutes))
        sheaf.tick(", ".join(filter(None, said)), mark=f"{day_words.day(first.best.likely):>6}", most=3)
    if more:
        sheaf.say(f"And {prose.count(more, 'job')} of less weight.")
    cautions = list(cautions_of_all(jobs))
    if cautions:
        sheaf.blank()
        for caution in cautions:
            sheaf.say(f"Mind: {caution}", hang=2)
    return sheaf.paper


def _days(events: Sequence[SeasonEvent], several: Mapping[str, str]) -> Iterator[str]:
    """Each plant with its day; of three and more of a kind on one day, how many they are."""
    together: dict[tuple[object, str], list[SeasonEvent]] = {}
    for event in _by_day(events):
        day = event.observed or event.when.likely
        together.setdefault((day, several.get(event.plant, event.plant)), []).append(event)
    for (_, kind), group in together.items():
        whose = [f"{len(group)} {kind}"] if len(group) >= COUNTED else [event.plant for event in group]
        day = group[0].observed or group[0].when.likely
        yield from (f"{name} {day_words.day(day)}" for name in whose)


def bloom_card(place: str, events: Iterable[SeasonEvent], on: dt.date, clean: Clean = str) -> Paper:
    """What may flower in the weeks ahead, with room to write the days, in lines of at most 72 columns.

    Parameters
    ----------
    place : str
        The garden's name; may be empty.
    events : iterable of SeasonEvent
        Of the season.
    on : date
    clean : callable
        Every string passes it.
    """
    by_plant: dict[str, list[SeasonEvent]] = {}
    for event in events:
        if event.bbch in FLOWER_FIGURES:
            by_plant.setdefault(event.plant, []).append(event)
    last = on + dt.timedelta(days=BLOOM_DAYS)
    open_or_near = {p: found for p, found in by_plant.items() if _flowers_between(found, on, last)}
    order = sorted(open_or_near, key=lambda p: (_opening(open_or_near[p]), p))
    for shown in range(len(order), -1, -1):
        page = _bloom_page(place, {p: open_or_near[p] for p in order[:shown]}, order[shown:], on, clean)
        if len(page.lines) <= LENGTH:
            break
    return page


def _bloom_page(
    place: str, plants: dict[str, list[SeasonEvent]], later: Sequence[str], on: dt.date, clean: Clean
) -> Paper:
    sheaf = Sheaf(clean)
    last = on + dt.timedelta(days=BLOOM_DAYS)
    sheaf.title(f"{place}: what to look for" if place.strip() else "What to look for", most=2)
    sheaf.say(f"{long_day(on)} to {long_day(last)}. Write the day into the gap.")
    sheaf.blank()
    for stage in FLOWERING:
        sheaf.say(f"{stage.name}: {stage.sign} (BBCH {stage.bbch})", indent=2)
    sheaf.blank()
    if not plants:
        sheaf.say("Nothing is likely to flower in these weeks.")
        return sheaf.paper
    sheaf.row(("plant", "first open, likely", "first", "full", "fall"), BLOOM_CELLS, head=True)
    for plant, events in plants.items():
        first = next((e for e in events if e.bbch == FIRST_OPEN.bbch), events[0])
        gaps = (_gap(events, number) for number in FLOWER_FIGURES)
        sheaf.blank()
        sheaf.row((plant, _when_short(first), *gaps), BLOOM_CELLS)
    if later:
        sheaf.blank()
        sheaf.say(f"And later: {', '.join(later)}.", hang=2, most=3)
    sheaf.blank()
    sheaf.picture("season")
    return sheaf.paper


def _when_short(event: SeasonEvent) -> str:
    if event.observed:
        return f"seen {day_words.day(event.observed)}"
    if event.when.likely is None:
        return "hardly this year"
    return day_words.likely(event.when)


def _gap(events: Sequence[SeasonEvent], number: int) -> str:
    """Room for a stage's day, or the day that is noted already."""
    seen = next((e.observed for e in events if e.bbch == number and e.observed), None)
    return day_words.day(seen) if seen else GAP


def _flowers_between(events: Sequence[SeasonEvent], first: dt.date, last: dt.date) -> bool:
    """Whether a plant may be in flower at some time, by the ends of its ranges."""
    opens = [e.observed or e.when.early or e.when.likely for e in events if e.bbch == 61]
    falls = [e.observed or e.when.late or e.when.likely for e in events if e.bbch == 69]
    opens_by = any(day is not None and day <= last for day in opens)
    return opens_by and all(day is None or day >= first for day in falls)


def _opening(events: Sequence[SeasonEvent]) -> dt.date:
    return min((e.observed or e.when.likely or dt.date.max for e in events), default=dt.date.max)


def _when(event: SeasonEvent) -> str:
    return f"seen {day_words.day(event.observed)}" if event.observed else day_words.about(event.when)


def _within(day: dt.date | None, on: dt.date) -> bool:
    return day is not None and (day.year, day.month) == (on.year, on.month)


def _by_day(events: Iterable[SeasonEvent]) -> list[SeasonEvent]:
    return sorted(events, key=lambda e: (e.observed or e.when.likely or dt.date.max, name_order(e.plant)))


def _year(events: Sequence[SeasonEvent], on: dt.date) -> int:
    day = next((e.observed or e.when.likely for e in events if e.observed or e.when.likely), None)
    return (day or on).year
