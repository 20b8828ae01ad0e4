"""The answers in plain text, for pipes, small terminals and reading aloud: one thing a line."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import TYPE_CHECKING

from leafturn.answers.cold_night import Tonight
from leafturn.base.faults import Fault
from leafturn.tasks.model import Job, Line
from leafturn_tui.render import canopy as canopy_answers
from leafturn_tui.render import drift as climate_rows
from leafturn_tui.render import tending as tending_answers
from leafturn_tui.render import weather as weather_words
from leafturn_tui.render.parts.heading import LONG, first_plant, head
from leafturn_tui.safe_text import safe_text
from leafturn_tui.text import phrases

if TYPE_CHECKING:
    from leafturn.partners.model import TreeReview
    from leafturn_tui.almanac_face import AlmanacFace

WORTH_A_WORD = 0.05  # chance of a frost loss below which nothing is said


def the_round(almanac: AlmanacFace, helper: str | None = None) -> Iterator[str]:
    """The week's jobs in walking order, each with its reason."""
    week = almanac.round(helper)
    yield from head(
        almanac,
        "What needs hands this week?" if helper is None else f"What needs {helper}'s hands this week?",
    )
    yield from week.notice
    if week.quiet:
        yield week.quiet
    if not week.lines:
        yield from first_plant(almanac)
    for line in week.lines:
        if line.state != "can wait":
            yield from _line(line, almanac, week.beyond_reach)
    if week.waiting:
        yield ""
        yield "These can wait:"
    for job in week.waiting:
        ends = "its time ends" if job.state == "late" else "can wait until"
        until = f"{ends} {phrases.day(job.wait_until, almanac.on)}" if job.wait_until else ""
        yield from _job(job, almanac, until, week.beyond_reach)
    yield ""
    yield from (
        line for line in (phrases.hours_line(week), phrases.reach_line(week), phrases.walk_line(week)) if line
    )


def _line(line: Line, almanac: AlmanacFace, beyond: tuple[str, ...]) -> Iterator[str]:
    """A job with its reason, or several alike under one heading."""
    if len(line.jobs) == 1:
        yield from _job(line.jobs[0], almanac, "", beyond)
        return
    minutes = phrases.minutes(line.minutes) if line.state not in ("held", "passed") else ""
    said = [
        phrases.line_state(line, almanac.on),
        line.title,
        line.where,
        phrases.line_whose(line, almanac.on, beyond),
        minutes,
    ]
    yield ", ".join(part for part in said if part)
    for job in line.jobs:
        who = "" if line.who == job.who else phrases.whose(job, almanac.on, beyond)
        place = ", ".join(part for part in (job.title, job.where, who) if part)
        yield f"    {place}: {job.why[0]}" if job.why else f"    {place}"
        yield f"    ({job.id})"
    for caution in dict.fromkeys(said for job in line.jobs for said in job.cautions):
        yield f"    {caution}"


def _job(job: Job, almanac: AlmanacFace, more: str, beyond: tuple[str, ...]) -> Iterator[str]:
    minutes = phrases.minutes(job.minutes) if job.state not in ("held", "passed", "done", "let go") else ""
    said = [
        phrases.state(job, almanac.on),
        job.title,
        job.where,
        phrases.whose(job, almanac.on, beyond),
        minutes,
        more,
    ]
    yield ", ".join(part for part in said if part)
    if job.why:
        yield f"    {job.why[0]}"
    yield from (f"    {caution}" for caution in job.cautions)
    yield f"    ({job.id})"


def season(almanac: AlmanacFace) -> Iterator[str]:
    """Every event by date, then frost."""
    on = almanac.on
    whole = almanac.season()
    yield from head(almanac, "What is coming, and when?")
    for event in sorted(whole.events, key=lambda e: (e.observed or e.when.likely or on.max, e.plant)):
        when = (
            f"noted {phrases.day(event.observed, on)}" if event.observed else phrases.likely(event.when, on)
        )
        usual = phrases.against_usual(event)
        yield ", ".join(part for part in (when, event.plant, event.event, usual, event.basis) if part)
    yield ""
    frost = whole.frost
    gone = f"; {phrases.frost_gone(frost.last_gone)}" if frost.last.likely else ""
    yield f"last frost {phrases.frost_day(frost.last, frost.last_years, on)}{gone}"
    yield f"first frost of autumn {phrases.frost_day(frost.first, frost.first_years, on)}"
    for cold in whole.frosts[1:]:
        last = phrases.frost_day(cold.last, cold.last_years, on)
        first = phrases.frost_day(cold.first, cold.first_years, on)
        yield f"{cold.threshold:.1f} C or colder: last {last}, first of autumn {first}"
    if frost.station_last is not None and frost.station_first is not None:
        last, first = phrases.likely(frost.station_last, on), phrases.likely(frost.station_first, on)
        yield f"at the weather station: last frost {last}, first {first}"
    if whole.frost_free is not None:
        days = whole.frost_free
        spread = f" ({days.short} to {days.long})" if days.short < days.long else ""
        yield f"days without frost: {days.usual}{spread}"
    if whole.frost_trend is not None:
        yield whole.frost_trend.words
    yield from _frost_losses(almanac)
    yield from whole.notes


def _frost_losses(almanac: AlmanacFace) -> Iterator[str]:
    """What frost takes of the flowers, where it is worth a word, worst first."""
    losses = [loss for loss in almanac.frost_losses().values() if loss.chance_of_a_tenth >= WORTH_A_WORD]
    for loss in sorted(losses, key=lambda loss: (-loss.mean_share, loss.plant)):
        share = phrases.hundredths(loss.mean_share, loss.mean_share, loss.mean_share)
        crop = phrases.hundredths(loss.crop_lost, loss.crop_lost, loss.crop_lost)
        chance, night = phrases.chance(loss.chance_of_a_tenth), phrases.day(loss.worst_night, almanac.on)
        yield (
            f"{loss.plant}: this spring, {chance} that frost takes a tenth of the flowers or more; "
            f"on average {share} of the flowers, {crop} of the crop, most about {night}, {loss.basis}"
        )


def tonight(almanac: AlmanacFace, night: Tonight) -> Iterator[str]:
    """What a cold night would do, worst first."""
    yield from head(almanac, f"What would a night of {night.garden_c:.1f} C do?")
    yield from told_of_night(night)


def told_of_night(night: Tonight) -> Iterator[str]:
    """The night, a line a plant that it hurts, and the caution."""
    yield night.said
    for hit in night.plants:
        lost = f"{phrases.hundredths(hit.share, hit.low, hit.high)} lost"
        stage = f"{hit.stage} ({hit.stage_from})"
        yield ", ".join((f"{hit.plant}: {lost}", stage, hit.words, hit.cover_words, hit.basis))
    if not night.plants:
        yield "Nothing here is at a stage that cold is known to hurt."
    if night.not_known:
        yield f"in flower, but what cold they bear is not known: {', '.join(night.not_known)}"
    yield night.caution


def partners(almanac: AlmanacFace) -> Iterator[str]:
    """Every tree's chance, its weakest link and what would help."""
    yield from head(almanac, "Who still lacks a partner?")
    yield from first_plant(almanac)
    for review in almanac.partners():
        if review.standing == "needs none":
            continue
        yield f"{review.plant}, {review.standing}: {_chances(review)}, {review.weakest}"
        for fix in review.fixes:
            effort = f"; {fix.effort}" if fix.effort else ""
            yield f"    {fix.what}: from {fix.year}, then {phrases.chance(fix.adequacy)}{effort}"
    alone = [r.plant for r in almanac.partners() if r.standing == "needs none"]
    if alone:
        yield f"needs none: {', '.join(alone)}"


def _chances(review: TreeReview) -> str:
    """The chance of enough pollen with its range, and that of a crop where it differs: nothing twice."""
    chance, crop = phrases.chance(review.adequacy), review.crop
    spread = phrases.chance_range(review.low, review.high)
    told = "no chance" if chance == "none" else chance
    if review.guessed and chance[:1].isdigit():
        told = f"about {told}"
    if spread != chance:
        told += f" ({spread})"
    if crop is None or phrases.chance(crop) == chance:
        return told
    return f"{told}, a worthwhile crop {phrases.chance(crop)}"


def plants(almanac: AlmanacFace) -> Iterator[str]:
    """Every plant on a line."""
    yield from head(almanac, "What stands here?")
    yield from first_plant(almanac)
    for card in almanac.plants():
        yield ", ".join(part for part in (card.id, card.line or card.kind, card.where) if part)


def book(almanac: AlmanacFace) -> Iterator[str]:
    """Every note, newest first."""
    yield from head(almanac, "What have we noted?")
    if not almanac.book():
        yield "Nothing is noted yet."
    for line in almanac.book():
        back = ["taken back"] if line.taken_back else []
        yield ", ".join([phrases.long_day(line.entry.on), *back, line.words, f"note {line.entry.id}"])


def check(almanac: AlmanacFace) -> Iterator[str]:
    """What is wrong, what is worth knowing, or that all is well."""
    if not almanac.faults:
        yield f"No faults: {phrases.count(len(almanac.garden.plants), 'plant')} in {almanac.file.name}."
    yield from faults(almanac.faults)
    yield from almanac.notes


def _tending(name: str) -> Callable[[AlmanacFace], Iterator[str]]:
    """A page of tending under its question."""

    def answer(almanac: AlmanacFace) -> Iterator[str]:
        question, lines = tending_answers.PLAIN[name]
        yield from head(almanac, question)
        yield from lines(almanac)

    return answer


def canopy(almanac: AlmanacFace) -> Iterator[str]:
    """The old trees: light, heirs, reach."""
    yield from head(almanac, "What changes when the old tree goes?")
    yield from canopy_answers.plain(almanac)


def drift(almanac: AlmanacFace) -> Iterator[str]:
    """What a warmer climate changes."""
    yield from head(almanac, climate_rows.QUESTION)
    yield from climate_rows.plain(almanac)


def weather(almanac: AlmanacFace) -> Iterator[str]:
    """What is known of the weather."""
    yield from head(almanac, weather_words.QUESTION)
    yield from weather_words.lines(almanac)


ANSWERS = {
    "season": season,
    "partners": partners,
    "plants": plants,
    "book": book,
    "check": check,
    "canopy": canopy,
    "drift": drift,
    "weather": weather,
    **{name: _tending(name) for name in tending_answers.PLAIN},
}


def faults(found: Iterable[Fault]) -> Iterator[str]:
    """A line each."""
    return (fault.sentence() for fault in found)


def printed(lines: Iterable[str]) -> str:
    """Lines made safe, as one text that ends in a line end."""
    return "".join(f"{safe_text(line, limit=LONG)}\n" for line in lines)
