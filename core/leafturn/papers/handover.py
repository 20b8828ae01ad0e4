"""The handover book: the garden in words, for whoever keeps it next."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence

from leafturn.answers.losses import Lost, by_cause
from leafturn.base import day_words, prose
from leafturn.base.day_words import MONTHS, long_day
from leafturn.base.value import Value
from leafturn.garden.model import Garden, Helper, Plant
from leafturn.papers.page_layout import Clean, Paper, Sheaf
from leafturn.papers.week_selection import by_best_day
from leafturn.papers.words import names, wanting
from leafturn.tasks.demands import worth_saying
from leafturn.tasks.model import Job
from leafturn.tasks.week.cautions import cautions_of_all


class PlantLine(Value):
    """A plant with its place and a line of what it is, both in words."""

    plant: Plant
    line: str
    where: str


class Handover(Value):
    """All that goes into the book.

    Parameters
    ----------
    plants : sequence of PlantLine
        In the order of the garden file.
    lost : sequence of Lost
    year : sequence of Job
        Jobs of the twelve months from `on`, and those still open whose best day is past.
    dangers : sequence of str
        What could hurt someone, and who to call; in sentences.
    partners : sequence of str
        Trees without a partner and what was decided; in sentences.
    learnt : sequence of str
        What the notes have taught; in sentences.
    questions : sequence of str
    notes : int
        How many notes the journal holds, the first of them in `since`.
    """

    on: dt.date
    garden: Garden
    plants: Sequence[PlantLine]
    lost: Sequence[Lost]
    year: Sequence[Job]
    dangers: Sequence[str]
    partners: Sequence[str]
    learnt: Sequence[str]
    questions: Sequence[str]
    notes: int
    since: int | None


def handover_book(book: Handover, clean: Clean = str) -> Paper:
    """The book, in lines of at most 72 columns.

    Parameters
    ----------
    book : Handover
    clean : callable
        Every string passes it.
    """
    sheaf = Sheaf(clean)
    _title(sheaf, book)
    _lost(sheaf, book.lost)
    _list(sheaf, "Open questions", book.questions, room=True)
    _promises(sheaf, book.plants)
    _dangers(sheaf, book.dangers)
    _first_year(sheaf, book)
    _reasons(sheaf, book)
    _list(sheaf, "Short of a partner, with the chance of enough pollen", book.partners)
    _list(sheaf, "What the notes have taught", book.learnt)
    _people(sheaf, book.garden.all_helpers)
    _keeping(sheaf)
    return sheaf.paper


def _title(sheaf: Sheaf, book: Handover) -> None:
    place = book.garden.place
    name = place.name or "This garden"
    sheaf.title(name, shown=name.upper(), most=2)
    sheaf.say("A book for whoever keeps it next", most=1)
    sheaf.blank()
    since = f" since {book.since}" if book.since else ""
    north = f"{abs(place.lat):.2f} {'S' if place.southern else 'N'}"
    east = f"{abs(place.lon):.2f} {'W' if place.lon < 0 else 'E'}"
    notes = prose.count(book.notes, "note")
    sheaf.say(
        f"Written on {long_day(book.on)} from the garden file and {notes}{since}. "
        f"It lies at {north}, {east}; places are told from {place.datum}. What nobody wrote down is asked "
        "under Open questions: ask it while there is someone to ask."
    )


def _heading(sheaf: Sheaf, words: str) -> None:
    sheaf.blank()
    sheaf.heading(words, shown=words.upper(), underlined=True)


def _list(sheaf: Sheaf, heading: str, sentences: Sequence[str], *, room: bool = False) -> None:
    """Sentences under a heading; nothing if there are none. With `room`, a line to write on below each."""
    if not sentences:
        return
    _heading(sheaf, heading)
    for said in sentences:
        sheaf.item(said)
        if room:
            sheaf.room(indent=2)
            sheaf.blank()


def _lost(sheaf: Sheaf, lost: Sequence[Lost]) -> None:
    _list(sheaf, "Those that are no more", [_lost_words(one) for one in lost])
    causes = [f"{cause} {count}" for cause, count in by_cause(one.cause for one in lost)]
    if len(lost) > 1:
        sheaf.say(f"By cause: {', '.join(causes)}.", hang=2)


def _lost_words(one: Lost) -> str:
    kind = f", {one.kind}" if one.kind else ""
    years = f", {one.years}" if one.years else ""
    cause = f": {one.cause}" if one.cause else ""
    text = f" ({one.text})" if one.text else ""
    return f"{one.plant}{kind}{years}{cause}{text}."


def _promises(sheaf: Sheaf, plants: Iterable[PlantLine]) -> None:
    made = [f"{s.plant.id}, {s.where}: {s.plant.promise}" for s in plants if s.plant.promise]
    after = [f"{s.plant.id}, when it is dead: {s.plant.after_death}" for s in plants if s.plant.after_death]
    _list(sheaf, "Promises made", [*made, *after])


def _dangers(sheaf: Sheaf, dangers: Sequence[str]) -> None:
    _list(sheaf, "What could hurt someone", dangers)


def _first_year(sheaf: Sheaf, book: Handover) -> None:
    _heading(sheaf, "The first year")
    if not any(job.best.likely for job in book.year):
        sheaf.say("No job is foreseen in the twelve months from the day this was written.")
        return
    sheaf.say(
        "Month by month, with the day each is best done by as foreseen when this was written. The program "
        "says the day anew every week, and why. Jobs of little weight are only counted."
    )
    sheaf.picture("season")
    open_now: list[Job] = []
    by_month: dict[tuple[int, int], list[Job]] = {}
    for job in book.year:
        best = job.best.likely
        if best is not None and best < book.on:
            open_now.append(job)
        elif best is not None:
            by_month.setdefault((best.year, best.month), []).append(job)
    if open_now:
        _month(sheaf, "Still to be done, though the best day is past", open_now, book.on)
    for year, month in sorted(by_month):
        _month(sheaf, f"{MONTHS[month - 1]} {year}", by_month[year, month], book.on)
    cautions = list(cautions_of_all(book.year))
    if cautions:
        sheaf.blank()
        sheaf.say("Cautions that belong to these jobs:")
        for caution in cautions:
            sheaf.item(caution, indent=2)


def _month(sheaf: Sheaf, heading: str, jobs: Iterable[Job], on: dt.date) -> None:
    """Jobs by their best day; those of little weight are only counted, save one's own that are late."""
    ordered = by_best_day(jobs)
    weighty = [job for job in ordered if job.state == "late" or not job.is_small]
    sheaf.blank()
    sheaf.say(heading, kind="part")
    for job in weighty:
        took = f", {prose.minutes(job.minutes)}" if prose.minutes(job.minutes) else ""
        demands = "".join(f"; {part}" for part in (_demanded(job), wanting(job)) if part)
        by = day_words.near_day(job.best.likely, on)
        sheaf.item(f"by {by}: {job.titled_with_place}{took}{demands}", indent=2)
    if len(ordered) > len(weighty):
        count = prose.count(len(ordered) - len(weighty), "small thing")
        sheaf.item(f"{'and ' if weighty else ''}{count} to note or look at", indent=2)


def _demanded(job: Job) -> str:
    demands = worth_saying(job.demands)
    return names(demands) if demands else ""


def _reasons(sheaf: Sheaf, book: Handover) -> None:
    _heading(sheaf, "What stands here, and why")
    sheaf.picture("garden")
    guilds: dict[str, list[PlantLine]] = {}
    for plant_line in book.plants:
        if plant_line.plant.state != "gone":
            guilds.setdefault(plant_line.plant.guild or "", []).append(plant_line)
    if not guilds:
        sheaf.say("No plant stands in the garden file.")
    for guild in sorted(guilds, key=lambda g: (g == "", list(guilds).index(g))):
        sheaf.blank()
        if guild or len(guilds) > 1:
            sheaf.say(f"Round the {guild}" if guild else "Others", kind="part")
        for plant_line in guilds[guild]:
            sheaf.item(f"{plant_line.plant.id}: {plant_line.line}; {plant_line.where}.", indent=2)
            if plant_line.plant.why:
                sheaf.say(f"Why: {plant_line.plant.why}", indent=4)


def _people(sheaf: Sheaf, helpers: Sequence[Helper]) -> None:
    told = []
    for h in helpers:
        days = f", on {names(h.days)}" if h.days else ""
        more = f", {h.people} people" if h.people > 1 else ""
        hours = f"{h.hours_per_week:g} hour{'' if h.hours_per_week == 1 else 's'} a week"
        told.append(f"{h.name}{more}: {hours}{days}; can: {names(h.can)}.")
    _list(sheaf, "Who helps", told)


def _keeping(sheaf: Sheaf) -> None:
    _list(
        sheaf,
        "How to go on",
        (
            "garden.toml holds the plants; the program writes into it only lines that it has shown first.",
            "journal/ holds the notes by year. Keep them: three bloom dates mostly outweigh a book.",
            "Any text editor opens both. Copy the whole folder now and then to another place.",
            "Note what flowers, what is picked, what is lost and why. The next book is written from it.",
        ),
    )
