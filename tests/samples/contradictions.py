"""Contradictions in one day's almanac: between two jobs, a job and the card of its kind, a job and a page.

    assert not list(contradictions(almanac))

Nothing here computes a date: what one answer says is held against what another says.
"""

from __future__ import annotations

import datetime as dt
import re
from collections import defaultdict
from collections.abc import Iterator

from leafturn.almanac import Almanac
from leafturn.kinds.pruning import way_of
from leafturn.tasks.model import DUE, Job
from leafturn.tasks.subjects import subject_of
from leafturn.tasks.timing.phrases import read_moment
from leafturn.tasks.timing.resolve import resolve

WEEK = dt.timedelta(days=7)
MOST_LINES = 12
OVER = ("done", "let go")
LEAVING = frozenset({"take out", "take down", "move", "pull"})
TENDING = frozenset({"spring mulch", "autumn mulch", "water", "put guard on", "tie in", "thin fruit"})
# Verbs that nobody could be told of one plant on one day.
APART = (
    frozenset({"thin fruit", "pick"}),
    frozenset({"put guard on", "take guard off"}),
    frozenset({"put guard on", "loosen guard"}),
    frozenset({"loosen guard", "take guard off"}),
    frozenset({"spring mulch", "autumn mulch"}),
    frozenset({"shelter from rain", "water"}),
    frozenset({"wrap", "water"}),
    frozenset({"put nets on", "take nets off"}),
    frozenset({"wrap", "unwrap"}),
    frozenset({"band stems", "take bands off"}),
    frozenset({"stake", "take stakes off"}),
    frozenset({"check stakes", "take stakes off"}),
    frozenset({"check stakes", "check lasting stakes"}),
    frozenset({"oil", "bring pollen"}),
    frozenset({"oil", "pick"}),
    frozenset({"spring mulch", "renew mulch"}),
    frozenset({"autumn mulch", "renew mulch"}),
    frozenset({"pull suckers", "narrow the row"}),
)
PRINTED = re.compile(r"(\d+) ([A-Z][a-z]{2}) \(south (\d+) ([A-Z][a-z]{2})\)")


def contradictions(almanac: Almanac) -> Iterator[str]:
    """What contradicts something else on the day of an almanac, in sentences."""
    yield from _two_jobs(almanac)
    yield from _cuts_and_cards(almanac)
    yield from _picking(almanac)
    yield from _partners(almanac)
    yield from _water(almanac)
    yield from _climbers(almanac)
    yield from _heaps(almanac)
    yield from _pages_of_plants(almanac)
    yield from _hands(almanac)
    lines = [line for line in almanac.round().lines if line.state not in OVER]
    if len(lines) > MOST_LINES:
        yield f"{len(lines)} lines: {[(line.state, line.title) for line in lines]}"


def _two_jobs(almanac: Almanac) -> Iterator[str]:
    cuts = {rule.id for rule in almanac._sources.rules.rules if rule.cut is not None}
    of_plant: dict[str, list[Job]] = defaultdict(list)
    for job in almanac.jobs():
        if job.state in DUE:
            for plant in job.plants or (job.plant,):
                of_plant[plant].append(job)
    for plant, jobs in of_plant.items():
        verbs = [job.verb for job in jobs]
        if len(set(verbs)) < len(verbs):
            yield f"{plant} is told twice to: {[job.id for job in jobs]}"
        cutting = [job.id for job in jobs if job.rule in cuts]
        if len(cutting) > 1:
            yield f"{plant} is cut in two ways: {cutting}"
        for pair in APART:
            if pair <= set(verbs):
                yield f"{plant}: {' and '.join(sorted(pair))}"
        if LEAVING.intersection(verbs) and (TENDING.intersection(verbs) or cutting):
            yield f"{plant} is to leave, and tended: {verbs}"


def _cuts_and_cards(almanac: Almanac) -> Iterator[str]:
    """Cuts against what the plant's own card prints, and against the days on which its kind is never cut."""
    cuts = {rule.id for rule in almanac._sources.rules.rules if rule.cut is not None}
    for job in almanac.jobs():
        if job.rule not in cuts or job.open.likely is None:
            continue
        for plant in job.plants:
            card = almanac.plant(plant)
            assert card is not None
            told = [fact.value for fact in card.facts if fact.what == "cut"]
            own = [value for value in told if value.partition(". ")[2] in " ".join(job.why)]
            if not own:
                yield f"{job.id}: no window on the card of {plant} is for this cut: {told}"
            elif not any(_agrees(value, job, almanac) for value in own):
                yield f"{job.id} {job.open.likely} to {job.close.likely} against the card: {own}"
            if job.state in DUE and _never_now(plant, almanac):
                yield f"{job.id} is {job.state} when the card of {plant} says not to cut"


def _agrees(told: str, job: Job, almanac: Almanac) -> bool:
    """Whether a job opens no earlier and closes no later than the plain days of a printed window."""
    opens, _, rest = told.partition(", best by ")
    closes = rest.partition(", until ")[2].partition(". ")[0]
    south = almanac.garden.place.southern
    first, last = job.open.likely, job.close.likely
    assert first is not None
    return all(_days_after(first, day) >= 0 for day in _printed(opens, south)) and (
        last is None or all(_days_after(last, day) <= 0 for day in _printed(closes, south))
    )


def _printed(text: str, south: bool) -> Iterator[tuple[int, int]]:
    for day, month, day_south, month_south in PRINTED.findall(text):
        said = (month_south, day_south) if south else (month, day)
        yield dt.datetime.strptime(said[0], "%b").month, int(said[1])


def _days_after(date: dt.date, day: tuple[int, int]) -> int:
    """Days from the day of the year to a date, the nearest of its years taken."""
    years = (date.year - 1, date.year, date.year + 1)
    return min(((date - dt.date(year, *day)).days for year in years), key=abs)


def _never_now(plant: str, almanac: Almanac) -> bool:
    named = almanac.garden.plant(plant)
    assert named is not None
    season = almanac._seasons.now
    specimen = almanac.day.specimen(named)
    cultivar = specimen.cultivar[1] if specimen.cultivar else None
    way = way_of(specimen.kind, almanac.library, season.climate, cultivar)
    assert way is not None
    subject, today = subject_of(named, season), season.today
    for span in way.closed:
        first, last = (resolve(read_moment(p), subject, season, winter=False, done=None).middle for p in span)
        if first <= today <= last if first <= last else (today <= last or today >= first):
            return True
    return False


def _picking(almanac: Almanac) -> Iterator[str]:
    """Picking against the Season and the Larder page, and against what hardly sets."""
    larder = almanac.larder()
    ripe = {e.plant: e for e in almanac.season().events if e.event in ("ripe", "ready to pick")}
    picked = {
        plant for week in larder.weeks if abs(week.first - almanac.on) <= WEEK * 2 for plant in week.picked
    }
    for job in almanac.jobs():
        if job.state not in DUE:
            continue
        for plant in job.plants:
            if plant in larder.barren and job.verb in ("pick", "thin fruit", "prop limbs"):
                yield f"{job.id}, though the Larder says that {plant} hardly sets"
            if job.verb != "pick" or plant not in almanac.forecasts:  # of ferns no flower is foreseen
                continue
            if plant not in ripe or (ripe[plant].when.early or dt.date.max) > almanac.on:
                yield f"{job.id} is {job.state}, and the Season page has it ripe {ripe.get(plant)}"
            if plant not in picked and "mulch" not in job.title:
                yield f"{job.id} is {job.state}, and the Larder has nothing of {plant} within a fortnight"


def _partners(almanac: Almanac) -> Iterator[str]:
    standing = {review.plant: review.standing for review in almanac.partners()}
    fits = {
        "bring pollen": ("lacks", "thin"),
        "look at partners": ("thin", "served"),
        "note set": ("lacks", "thin"),
        "note bloom": ("lacks", "thin", "served"),
    }
    for job in almanac.jobs():
        if job.state in DUE and job.verb in fits:
            for plant in job.plants:
                if standing.get(plant) not in fits[job.verb]:
                    yield f"{job.id}, and the Partners page has {plant}: {standing.get(plant)}"


def _water(almanac: Almanac) -> Iterator[str]:
    lines = {line.plant: line for line in almanac.water().lines}
    for job in almanac.jobs():
        if job.verb == "water" and job.state in DUE:
            found = [lines[plant] for plant in job.plants]
            if not any(line.wants_soon for line in found):
                yield f"{job.id} is {job.state}, and the Care page says: {found[0].says}"
            for line in found:
                if line.established:
                    yield f"{job.id}, and the Care page leaves {line.plant} to its roots"


def _climbers(almanac: Almanac) -> Iterator[str]:
    jobs = {job.id: job for job in almanac.jobs()}
    for view in almanac.climbers():
        due = [job for job in jobs.values() if job.counts_as == "cut" and job.plant == view.plant]
        if any(job.state in DUE for job in due) != view.cut_due:
            yield f"Climbers says {view.next_cut} of {view.plant}, the jobs {[(j.id, j.state) for j in due]}"


def _heaps(almanac: Almanac) -> Iterator[str]:
    turning = {job.plant: job for job in almanac.jobs() if job.verb == "turn" and job.state in DUE}
    for view in almanac.heaps():
        if (view.id in turning) != ("turn" in view.to_do and "now" in view.to_do):
            yield f"Heaps says {view.to_do} of {view.id}, the jobs {turning.get(view.id)}"
        if view.mature and view.id in turning:
            yield f"{view.id} is ripe by the Heaps page and wants turning"


def _pages_of_plants(almanac: Almanac) -> Iterator[str]:
    jobs = {job.id: job for job in almanac.jobs()}
    for job in (*almanac.round().jobs, *almanac.round().waiting):
        if jobs[job.id].state != job.state:
            yield f"{job.id} is {job.state} on the round and {jobs[job.id].state} on its page"
        for plant in job.plants:
            card = almanac.plant(plant)
            if job.state not in OVER and (card is None or job.id not in card.jobs):
                yield f"{job.id} is not on the page of {plant}"


def _hands(almanac: Almanac) -> Iterator[str]:
    helpers = {helper.name: helper for helper in almanac.garden.all_helpers}
    for job in (*almanac.round().jobs, *almanac.round().waiting):
        team = [helpers[name] for name in job.helpers]
        if team and "two people" in job.demands and sum(helper.people for helper in team) < 2:
            yield f"{job.id} wants two people and falls to {job.helpers}"
        if team and "licensed" in job.demands and not any("licensed" in h.can for h in team):
            yield f"{job.id} wants a licence and falls to {job.helpers}"
